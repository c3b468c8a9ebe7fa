#include "lexicon/measures.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <string_view>

#include "../reading/shipped.h"

namespace jointledger {
namespace {

using testing::shipped_lexicon;

std::string_view name(FigureKind kind) {
  switch (kind) {
    case FigureKind::ratio:
      return "ratio";
    case FigureKind::skip:
      return "skip";
    case FigureKind::grade:
      return "grade";
    case FigureKind::plus_grade:
      return "plus_grade";
    case FigureKind::pair:
      return "pair";
    case FigureKind::range:
      return "range";
    case FigureKind::degrees:
      return "degrees";
  }
  return "?";
}

/// The figure that `text` begins with: its words, kind and values.
std::string figure(std::string_view text) {
  const auto found = shipped_lexicon().measures().read(text);
  if (!found) return "none";
  std::string shown = "'" + std::string(text.substr(0, found->length)) + "' " + std::string(name(found->kind));
  if (found->kind == FigureKind::skip) return shown;
  shown += " " + std::to_string(found->first);
  if (found->second != found->first) shown += " " + std::to_string(found->second);
  return shown;
}

struct Case {
  std::string_view text;
  std::string_view figure;
};

constexpr Case kCases[] = {
    // muscle power, in tenths
    {"5/5 throughout", "'5/5' grade 50"},
    {"0/5", "'0/5' grade 0"},
    {"4+/5", "'4+/5' grade 43"},
    {"5-/5", "'5-/5' grade 47"},
    {"4 / 5 on the left", "'4 / 5' grade 40"},
    {"3 out of 5", "'3 out of 5' grade 30"},
    {"4.5/5", "'4.5/5' grade 45"},
    {"4-5/5", "'4-5/5' grade 40 50"},
    {"4 to 5/5", "'4 to 5/5' grade 40 50"},
    {"6/5", "'6/5' grade 60"},
    {"4 plus over 5", "'4 plus over 5' grade 43"},
    {"4 minus/5", "'4 minus/5' grade 37"},
    {"grade 4 power", "'grade 4' grade 40"},
    // reflexes, pulses, edema
    {"2+ and equal", "'2+' plus_grade 23"},
    {"3+/4", "'3+/4' plus_grade 33"},
    {"+2", "'+2' plus_grade 23"},
    {"trace edema", "'trace' plus_grade 5"},
    {"1+ to 2+", "'1+ to 2+' plus_grade 13 23"},
    {"2 to 3+", "'2 to 3+' plus_grade 20 33"},
    {"2 plus pulses", "'2 plus' plus_grade 23"},
    {"2 out of 4", "'2 out of 4' plus_grade 20"},
    // right and left
    {"2/2", "'2/2' pair 20"},
    {"0/2", "'0/2' pair 0 20"},
    {"2+/2+", "'2+/2+' pair 23"},
    {"4/4-", "'4/4-' pair 40 37"},
    {"60/55", "'60/55' ratio 60 55"},
    // ... or not: what two such numbers are, the words before them tell
    {"130/80", "'130/80' ratio 130 80"},
    {"7/10", "'7/10' ratio 7 10"},
    // motion
    {"120 degrees", "'120 degrees' degrees 120"},
    {"120\xC2\xB0 of flexion", "'120\xC2\xB0' degrees 120"},
    {"45 deg", "'45 deg' degrees 45"},
    {"-10 degrees", "'-10 degrees' degrees -10"},
    {"0-140", "'0-140' range 0 140"},
    {"0 to 140 degrees", "'0 to 140 degrees' range 0 140"},
    {"10\xC2\xB0\xE2\x80\x93"
     "130\xC2\xB0",
     "'10\xC2\xB0\xE2\x80\x93"
     "130\xC2\xB0' range 10 130"},
    {"-5 to 120", "'-5 to 120' range -5 120"},
    // no figures of an examination
    {"3/14/2024", "'3/14/2024' skip"},
    {"2/6 murmur", "'2/6' skip"},
    {"grade II/VI", "'grade II/VI' skip"},
    {"7 out of 10", "'7 out of 10' skip"},
    {"48 out of 56", "'48 out of 56' skip"},
    {"120 pounds", "none"},
    {"L4", "none"},
    {"knee 5/5", "none"},
    {"", "none"},
};

TEST(Measures, ReadFigures) {
  for (const Case& c : kCases) EXPECT_EQ(figure(c.text), c.figure) << c.text;
}

TEST(Measures, ReadNoHalfNumbers) {
  EXPECT_EQ(figure("5/55"), "'5/55' ratio 5 55");
  EXPECT_EQ(figure("1234567890 degrees"), "none");
}

TEST(Measures, RefuseABadPattern) {
  Measures measures;
  EXPECT_EQ(measures.add(FigureKind::degrees, R"(\d+)"), std::nullopt);
  EXPECT_NE(measures.add(FigureKind::degrees, R"((\d+)"), std::nullopt);
  EXPECT_NE(measures.add(FigureKind::degrees, R"((?<=x)\d)"), std::nullopt);  // what no automaton can do
}

}  // namespace
}  // namespace jointledger
