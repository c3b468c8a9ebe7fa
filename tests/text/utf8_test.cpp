#include "text/utf8.h"

#include <gtest/gtest.h>
#include <utf8proc.h>

#include <array>
#include <random>
#include <string>
#include <string_view>

namespace jointledger {
namespace {

using namespace std::string_literals;

struct Case {
  std::string text;
  std::optional<std::size_t> bad;
};

TEST(FirstInvalidUtf8, AcceptsWhatIsWellFormed) {
  for (const std::string& text : {
           ""s,
           "plain"s,
           "NUL \0 inside"s,
           "caf\u00E9 \u2019 \u5DE6\u819D \U0001F9B5"s,
           "\u007F\u0080\u07FF\u0800\uD7FF\uE000\uFFFF\U00010000\U0010FFFF"s,
           "\uFEFFwith a byte order mark"s,
       }) {
    EXPECT_EQ(first_invalid_utf8(text), std::nullopt) << text;
  }
}

TEST(FirstInvalidUtf8, PointsAtTheFirstBadSequence) {
  const std::array cases = {
      Case{"\x80", 0},                     // a continuation without a start
      Case{"ab\xFF", 2},                   // never a byte of UTF-8
      Case{"ab\xC3", 2},                   // cut short by the end
      Case{"ab\xE2\x80", 2},               // the same, one byte further
      Case{"ab\xF0\x9F\xA6", 2},           // the same, two bytes further
      Case{"\xC3(", 0},                    // cut short by another character
      Case{"\xC0\xAF", 0},                 // overlong '/'
      Case{"\xE0\x80\xAF", 0},             // overlong '/' in three bytes
      Case{"x\xF0\x80\x80\xAF", 1},        // overlong '/' in four bytes
      Case{"\xED\xA0\x80", 0},             // a surrogate
      Case{"\xF4\x90\x80\x80", 0},         // past U+10FFFF
      Case{"30\xB0 flexion", 2},           // Latin-1
      Case{"\u00B0\u00B0 \x92s \xFF", 5},  // the first of two
      Case{std::string(5000, 'a') + "\xA0", 5000},
  };
  for (const Case& c : cases) EXPECT_EQ(first_invalid_utf8(c.text), c.bad) << c.text;
}

// The fast check and the slow walk come from two libraries: they must never disagree, or a bad text would be said
// to be bad past its end.
TEST(FirstInvalidUtf8, PointsInsideTheTextWhateverTheBytes) {
  std::mt19937 random(1);
  std::uniform_int_distribution<int> byte(0, 255);
  std::uniform_int_distribution<std::size_t> length(1, 5);
  for (int round = 0; round < 200'000; ++round) {
    std::string text(length(random), '\0');
    for (char& c : text) c = static_cast<char>(byte(random));
    const auto bad = first_invalid_utf8(text);
    if (!bad) continue;
    ASSERT_LT(*bad, text.size());
    EXPECT_EQ(first_invalid_utf8(std::string_view(text).substr(0, *bad)), std::nullopt);
    EXPECT_EQ(first_invalid_utf8(std::string_view(text).substr(*bad)), 0U);
  }
}

TEST(FirstInvalidUtf8, EveryTwoAndThreeBytesAgreeWithTheDefinition) {
  // Table 3-7 of the Unicode standard, for sequences of two and three bytes.
  const auto well_formed = [](int a, int b) { return a >= 0xC2 && a <= 0xDF && b >= 0x80 && b <= 0xBF; };
  const auto well_formed3 = [](int a, int b, int c) {
    const int low = a == 0xE0 ? 0xA0 : 0x80;
    const int high = a == 0xED ? 0x9F : 0xBF;
    return a >= 0xE0 && a <= 0xEF && b >= low && b <= high && c >= 0x80 && c <= 0xBF;
  };
  for (int a = 0x80; a < 0x100; ++a) {
    for (int b = 0; b < 0x100; ++b) {
      const std::string two = {static_cast<char>(a), static_cast<char>(b)};
      ASSERT_EQ(first_invalid_utf8(two), well_formed(a, b) ? std::nullopt : std::optional<std::size_t>(0));
      for (int c = 0x7F; c < 0xC1; ++c) {
        const std::string three = two + static_cast<char>(c);
        const bool good = well_formed3(a, b, c) || (well_formed(a, b) && c < 0x80);
        ASSERT_EQ(!first_invalid_utf8(three).has_value(), good) << a << ' ' << b << ' ' << c;
      }
    }
  }
}

}  // namespace
}  // namespace jointledger
