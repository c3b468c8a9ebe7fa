#include "lexicon/table.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "folder.h"

namespace jointledger {
namespace {

using Strings = std::vector<std::string>;
using TableTest = testing::FolderTest;

TEST_F(TableTest, HasColumnsRowsAndLines) {
  write("t.tsv", "# a comment\nphrase\tsense\n\nswelling | edema\tbad\n# another\n supple \t-\n");
  const auto table = read_table(path("t.tsv"));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->file, path("t.tsv").string());
  EXPECT_EQ(table->columns, (Strings{"phrase", "sense"}));
  ASSERT_EQ(table->rows.size(), 2U);
  EXPECT_EQ(table->rows[0].cells, (Strings{"swelling | edema", "bad"}));
  EXPECT_EQ(table->rows[0].line, 4U);
  EXPECT_EQ(table->rows[1].cells, (Strings{"supple", ""}));
  EXPECT_EQ(table->rows[1].line, 6U);
}

TEST_F(TableTest, KeepsRowsOfTheWrongLength) {
  write("t.tsv", "a\tb\none\none\ttwo\tthree\n");
  const auto table = read_table(path("t.tsv"));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->rows[0].cells.size(), 1U);
  EXPECT_EQ(table->rows[1].cells.size(), 3U);
}

TEST_F(TableTest, TakesBothKindsOfLineBreakAndALastLineWithoutOne) {
  write("t.tsv", "a\tb\r\n1\t2\r\n3\t4");
  const auto table = read_table(path("t.tsv"));
  ASSERT_TRUE(table);
  ASSERT_EQ(table->rows.size(), 2U);
  EXPECT_EQ(table->rows[0].cells, (Strings{"1", "2"}));
  EXPECT_EQ(table->rows[1].cells, (Strings{"3", "4"}));
}

TEST_F(TableTest, IsNothingWithoutAFile) { EXPECT_FALSE(read_table(path("none.tsv"))); }

TEST(Forms, AreSplitAndTrimmed) {
  EXPECT_EQ(forms_of("knee | knee joint|  genu "), (Strings{"knee", "knee joint", "genu"}));
  EXPECT_EQ(forms_of("a | | b |"), (Strings{"a", "b"}));
  EXPECT_EQ(forms_of(""), Strings{});
}

}  // namespace
}  // namespace jointledger
