// Grades of muscle power against the scale of the Medical Research Council, 0 to 5: Aids to the Examination of the
// Peripheral Nervous System, Memorandum No. 45, Her Majesty's Stationery Office, London 1976 (from memory; the scale is
// that of War Memorandum No. 7, 1943):
//   0  no contraction
//   1  flicker or trace of contraction
//   2  active movement, with gravity eliminated
//   3  active movement against gravity
//   4  active movement against gravity and resistance (4-, 4, 4+: slight, moderate, strong resistance)
//   5  normal power
// Only 5 is normal.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "../reading/shipped.h"

namespace jointledger {
namespace {

struct Written {
  std::string_view grade;
  int tenths;
};

/// The one entry that `text` is read as.
Entry only_entry(const std::string& text) {
  const Ledger ledger = testing::read_exam(text);
  EXPECT_EQ(ledger.entries.size(), 1U) << text;
  return ledger.entries.empty() ? Entry() : ledger.entries.front();
}

void expect_strength(const std::string& text, int tenths) {
  const Entry entry = only_entry(text);
  EXPECT_EQ(entry.region, Region::knee) << text;
  EXPECT_EQ(entry.component, Component::strength) << text;
  EXPECT_EQ(entry.side, Side::right) << text;
  EXPECT_EQ(entry.outcome, tenths >= 50 ? Outcome::normal : Outcome::abnormal) << text;
  ASSERT_EQ(entry.grades.size(), 1U) << text;
  EXPECT_EQ(entry.grades.front().tenths, tenths) << text;
  EXPECT_EQ(entry.grades.front().scale, 5) << text;
}

TEST(StrengthGrades, OnlyFiveIsNormal) {
  for (int grade = 0; grade <= 5; ++grade) {
    const std::string digit = std::to_string(grade);
    expect_strength("Right knee strength is " + digit + "/5.", 10 * grade);
    expect_strength("Right knee strength " + digit + " out of 5.", 10 * grade);
    expect_strength("Right quadriceps " + digit + "/5.", 10 * grade);
    expect_strength("Right knee extension " + digit + "/5.", 10 * grade);
    expect_strength("Right knee power grade " + digit + ".", 10 * grade);
  }
}

TEST(StrengthGrades, WithASignLieBetweenTheOthers) {
  for (const auto& [grade, tenths] :
       {Written{"1+", 13}, {"2-", 17}, {"2+", 23}, {"3-", 27}, {"3+", 33}, {"4-", 37}, {"4+", 43}, {"5-", 47}}) {
    expect_strength("Right knee strength is " + std::string(grade) + "/5.", tenths);
  }
}

TEST(StrengthGrades, OfTwoTheLowerCounts) {
  const Entry entry = only_entry("Right knee strength is 4 to 5/5.");
  EXPECT_EQ(entry.outcome, Outcome::abnormal);
  ASSERT_FALSE(entry.grades.empty());
  EXPECT_EQ(entry.grades.front().tenths, 40);
}

// A slip of the pen is kept as written: to ask about it is not the reader's part.
TEST(StrengthGrades, OffTheScaleAreKeptAsWritten) {
  const Entry entry = only_entry("Right knee strength is 6/5.");
  EXPECT_EQ(entry.component, Component::strength);
  ASSERT_EQ(entry.grades.size(), 1U);
  EXPECT_EQ(entry.grades.front().tenths, 60);
  EXPECT_EQ(entry.grades.front().scale, 5);
}

}  // namespace
}  // namespace jointledger
