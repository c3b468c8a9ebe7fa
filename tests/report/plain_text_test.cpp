// Widths, line breaks and what is kept off a terminal.
#include "report/plain_text.h"

#include <gtest/gtest.h>

#include "ledger/ledger.h"
#include "report/grade_text.h"

namespace jointledger {
namespace {

TEST(OnOneLine, MakesOneSpaceOfWhiteSpaceAndControls) {
  EXPECT_EQ(on_one_line("  Right\r\n\tknee  full "), "Right knee full");
  EXPECT_EQ(on_one_line("a\x1b[31mred\x1b[0m\x07"), "a [31mred [0m");
  EXPECT_EQ(on_one_line("a\xE2\x80\xAE"
                        "b"),
            "a b");  // a right-to-left override
  EXPECT_EQ(on_one_line("a\xC2\x9B"
                        "b"),
            "a b");  // a control sequence in one character
  EXPECT_EQ(on_one_line(""), "");
}

TEST(WidthOf, CountsColumns) {
  EXPECT_EQ(width_of("flexion"), 7U);
  EXPECT_EQ(width_of("120\xC2\xB0"), 4U);
  EXPECT_EQ(width_of("e\xCC\x81"), 1U);     // with a combining accent
  EXPECT_EQ(width_of("\xE8\x86\x9D"), 2U);  // a wide character
}

TEST(CutToWidth, CutsBetweenWords) {
  EXPECT_EQ(cut_to_width("short", 20), "short");
  EXPECT_EQ(cut_to_width("medial joint line tender", 20), "medial joint ...");
  EXPECT_EQ(cut_to_width("\xE8\x86\x9D\xE8\x86\x9D\xE8\x86\x9D\xE8\x86\x9D", 7), "\xE8\x86\x9D ...");
}

TEST(AppendWrapped, BreaksBetweenWords) {
  std::string out;
  append_wrapped("one two", "- ", "  ", out);
  EXPECT_EQ(out, "- one two\n");
  out.clear();
  append_wrapped(std::string(40, 'a') + " " + std::string(40, 'b') + " " + std::string(90, 'c'), "", "> ", out);
  EXPECT_EQ(out, std::string(40, 'a') + "\n> " + std::string(40, 'b') + "\n> " + std::string(90, 'c') + "\n");
}

TEST(GradeText, IsWrittenAsPeopleDo) {
  const auto text = [](int tenths) { return grade_text({.side = Side::left, .tenths = tenths, .evidence = {}}); };
  EXPECT_EQ(text(50), "5");
  EXPECT_EQ(text(43), "4+");
  EXPECT_EQ(text(47), "5-");
  EXPECT_EQ(text(5), "trace");
  EXPECT_EQ(text(0), "0");
  EXPECT_EQ(text(35), "3.5");
}

}  // namespace
}  // namespace jointledger
