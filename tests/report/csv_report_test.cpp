// CSV, where tests/outside/csv_out_test.py does not look: single cells.
#include "report/csv_report.h"

#include <gtest/gtest.h>

#include <string>

#include "report/csv_row.h"
#include "written.h"

namespace jointledger {
namespace {

using testing::Example;
using testing::written;

std::string cell(std::string_view value) {
  std::string out;
  CsvRow row(out);
  row.text(value);
  row.end();
  out.resize(out.size() - 2);
  return out;
}

TEST(CsvRow, QuotesWhatNeedsIt) {
  // RFC 4180, section 2, rules 5 to 7.
  EXPECT_EQ(cell("knee"), "knee");
  EXPECT_EQ(cell("a b"), "a b");
  EXPECT_EQ(cell("a,b"), "\"a,b\"");
  EXPECT_EQ(cell("say \"ah\""), "\"say \"\"ah\"\"\"");
  EXPECT_EQ(cell("a\r\nb"), "\"a\r\nb\"");
  EXPECT_EQ(cell("\""), "\"\"\"\"");
  EXPECT_EQ(cell(""), "\"\"");
}

TEST(CsvRow, TellsEmptyFromNothing) {
  std::string out;
  CsvRow row(out);
  row.nothing();
  row.text("");
  row.number(7);
  row.nothing();
  row.end();
  EXPECT_EQ(out, ",\"\",7,\r\n");
}

std::string id_in_csv(std::string_view id, bool number = false) {
  Example example;
  example.note.id = id;
  example.note.id_is_number = number;
  const std::string out = written(kCsvReport, example, false);
  const std::size_t row = out.find("\r\n") + 2;
  return out.substr(row, out.find(",cervical_spine") - row);
}

TEST(CsvReport, NoIdIsAFormula) {
  EXPECT_EQ(id_in_csv("visit=1"), "visit=1");
  EXPECT_EQ(id_in_csv("=1+1"), "'=1+1");
  EXPECT_EQ(id_in_csv("+1"), "'+1");
  EXPECT_EQ(id_in_csv("-visit"), "'-visit");
  EXPECT_EQ(id_in_csv("@sum"), "'@sum");
  EXPECT_EQ(id_in_csv("\t=1"), "'\t=1");
  EXPECT_EQ(id_in_csv("\n=1"), "\"'\n=1\"");
  EXPECT_EQ(id_in_csv("''=1"), "'''=1") << "so that taking one away gives the id back";
  EXPECT_EQ(id_in_csv("'visit"), "'visit");
  EXPECT_EQ(id_in_csv("-"), "-") << "the standard input";
  EXPECT_EQ(id_in_csv("-5", true), "-5");
}

TEST(CsvReport, ANoteWithoutGapsHasNoRow) {
  Example example;
  example.result.gaps.clear();
  const std::string out = written(kCsvReport, example, true, 2);
  EXPECT_EQ(out.find("\r\n") + 2, out.size());
}

TEST(CsvReport, HoldsWordsAndMetadata) {
  const Example example;
  const std::string out = written(kCsvReport, example, false);
  EXPECT_NE(out.find(R"("[""Lachman negative""]","{""author"":""FW-01"",""entries"":""theirs"",""n"":[1, 2.50]}")"),
            std::string::npos)
      << out;
  EXPECT_EQ(out.find('\x1b'), std::string::npos) << "control characters of a note are escaped";
}

}  // namespace
}  // namespace jointledger
