// The tokenizer held against the word boundaries of the Unicode standard.
//
// Source: WordBreakTest.txt of the Unicode Character Database 15.0.0, which goes with Unicode Standard Annex #29,
// "Unicode Text Segmentation", section 4. Debian ships it in the package unicode-data.
//
// The tokenizer departs from the annex on purpose. The annex finds what a double click should select; the tokenizer
// finds what a phrase or a measure is made of. A boundary of ours is a place where a token starts or ends. Each
// departure must be one of these, told by the characters on its two sides:
//
//   letters and digits    The annex keeps "L4" and "5th" whole (WB9, WB10). We split them, so that a level, a count
//                         and a unit can be read whatever stands against them.
//   inner sign            The annex keeps "a:b", "e.g" and "1,000" whole, and Hebrew words with quotes (WB6, WB7,
//                         WB11, WB12). We only keep an apostrophe between letters and a point between digits: notes
//                         write "knee:normal", "full.No" and "0,5,10" without spaces far more often.
//   underscore            The annex counts '_' as part of words and numbers (WB13a, WB13b). Here it is a blank to
//                         fill in: "ROM____deg".
//   invisible             The annex attaches format characters and joiners to what stands before them (WB4), also
//                         between emoji (WB3c). To us they are white space, so that no token has bytes in it that
//                         nobody sees; a soft hyphen therefore splits its word, and a joined emoji its parts.
//   white space           The annex cuts between white space characters unless they are plain spaces (WB3d). We have
//                         no tokens there or among invisible characters, so nothing to cut.
//   mark without a base   After white space or a line break a combining mark has nothing to stand on. The annex
//                         attaches it to the space (WB4), or leaves it alone; we let it begin a word. The same after
//                         an invisible character.
//   number and mark       The annex ignores marks inside a number (WB4). Ours ends at the mark.
//   skin tone             The annex keeps an emoji and its skin tone together (WB4). To us both are symbols.
//   flag                  The annex keeps two regional indicators together (WB15, WB16). To us both are symbols.
//   Katakana              The annex cuts between Katakana and other letters (WB13 joins it only to itself). To us a
//                         letter is a letter.
//
// An unexplained departure fails the test. So does any change in how many departures a class explains, or in how many
// cases agree from end to end.
#include <gtest/gtest.h>
#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "text/tokens.h"

#ifndef JOINTLEDGER_WORD_BREAK_TEST
#define JOINTLEDGER_WORD_BREAK_TEST "/usr/share/unicode/auxiliary/WordBreakTest.txt"
#endif

namespace jointledger {
namespace {

using CodePoints = std::vector<utf8proc_int32_t>;

/// A text and, for each of its characters but the first, whether a boundary stands right before it.
struct Case {
  CodePoints text;
  std::vector<bool> cut;  ///< as long as `text`; cut[0] means nothing
};

/// Reads a line such as "÷ 0061 × 0308 ÷ 0020 ÷ # comment". Empty for a line without a case.
Case read_case(const std::string& line) {
  Case read;
  std::istringstream words(line.substr(0, line.find('#')));
  bool cut = false;
  for (std::string word; words >> word;) {
    if (word == "÷" || word == "×") {
      cut = word == "÷";
    } else {
      read.text.push_back(static_cast<utf8proc_int32_t>(std::stoul(word, nullptr, 16)));
      read.cut.push_back(cut);
    }
  }
  return read;
}

/// Where the tokenizer cuts the same text.
std::vector<bool> our_cuts(const CodePoints& text) {
  std::string utf8;
  std::vector<std::size_t> offsets;
  for (const utf8proc_int32_t code_point : text) {
    std::array<utf8proc_uint8_t, 4> bytes{};
    const auto size = utf8proc_encode_char(code_point, bytes.data());
    offsets.push_back(utf8.size());
    utf8.append(reinterpret_cast<const char*>(bytes.data()), static_cast<std::size_t>(size));
  }
  std::vector<Token> tokens;
  tokenize(utf8, tokens);

  std::vector<bool> cut;
  cut.reserve(offsets.size());
  for (const std::size_t offset : offsets) {
    cut.push_back(std::any_of(tokens.begin(), tokens.end(),
                              [&](const Token& token) { return token.start == offset || token.end == offset; }));
  }
  return cut;
}

bool is_letter(utf8proc_int32_t c) {
  const auto category = utf8proc_category(c);
  return category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_LO;
}
bool is_mark(utf8proc_int32_t c) {
  const auto category = utf8proc_category(c);
  return category >= UTF8PROC_CATEGORY_MN && category <= UTF8PROC_CATEGORY_ME;
}
bool is_digit(utf8proc_int32_t c) { return utf8proc_category(c) == UTF8PROC_CATEGORY_ND; }
bool is_invisible(utf8proc_int32_t c) { return utf8proc_category(c) == UTF8PROC_CATEGORY_CF; }
bool is_line_break(utf8proc_int32_t c) { return (c >= 0x0A && c <= 0x0D) || c == 0x2028 || c == 0x2029; }
bool is_white_space(utf8proc_int32_t c) {
  const auto category = utf8proc_category(c);
  return !is_line_break(c) && (category == UTF8PROC_CATEGORY_ZS || category == UTF8PROC_CATEGORY_CC);
}
bool is_inner_sign(utf8proc_int32_t c) { return c == '\'' || c == '"' || c == '.' || c == ',' || c == ':' || c == ';'; }
bool is_katakana(utf8proc_int32_t c) { return (c >= 0x3031 && c <= 0x3035) || (c >= 0x30A0 && c <= 0x30FF); }
bool is_skin_tone(utf8proc_int32_t c) { return c >= 0x1F3FB && c <= 0x1F3FF; }
bool is_regional_indicator(utf8proc_int32_t c) { return c >= 0x1F1E6 && c <= 0x1F1FF; }

bool is_letter_or_digit(utf8proc_int32_t c) { return is_letter(c) || is_digit(c); }
bool is_underscore(utf8proc_int32_t c) { return c == '_'; }
bool is_word_part(utf8proc_int32_t c) { return is_letter_or_digit(c) || is_underscore(c); }
bool is_unseen(utf8proc_int32_t c) { return is_white_space(c) || is_invisible(c); }

/// A place between two characters where we and the standard disagree.
struct Departure {
  utf8proc_int32_t base;    ///< the nearest character before it that is not a combining mark, or U+0000
  utf8proc_int32_t before;  ///< the character right before it
  utf8proc_int32_t after;   ///< the character right after it
  bool ours_cuts;           ///< we cut and the standard does not; else the other way round

  /// Do its two sides fit `a` and `b`, in either order?
  template <typename A, typename B>
  bool between(A a, B b) const {
    return (a(base) && b(after)) || (b(base) && a(after));
  }
};

Departure departure_at(const CodePoints& text, std::size_t at, bool ours_cuts) {
  // Where we do not cut, an apostrophe is inside a word: what counts is the letters on its two sides.
  const auto skips = [&](utf8proc_int32_t c) { return is_mark(c) || (!ours_cuts && c == '\''); };
  Departure departure{0, text[at - 1], text[at], ours_cuts};
  for (std::size_t i = at; i > 0 && departure.base == 0; --i) {
    if (!skips(text[i - 1])) departure.base = text[i - 1];
  }
  if (!ours_cuts && departure.after == '\'' && at + 1 < text.size()) departure.after = text[at + 1];
  return departure;
}

struct Class {
  std::string_view name;
  int departures;  ///< how many it explains
  bool (*explains)(const Departure&);
};

/// The first that fits explains a departure.
constexpr std::array classes = {
    Class{"letters and digits", 36, [](const Departure& d) { return d.ours_cuts && d.between(is_letter, is_digit); }},
    Class{"inner sign", 115,
          [](const Departure& d) { return d.ours_cuts && d.between(is_inner_sign, is_letter_or_digit); }},
    Class{"underscore", 186, [](const Departure& d) { return d.ours_cuts && d.between(is_underscore, is_word_part); }},
    Class{"invisible", 650,
          [](const Departure& d) { return d.ours_cuts && (is_invisible(d.base) || is_invisible(d.after)); }},
    Class{"white space", 14,
          [](const Departure& d) { return !d.ours_cuts && is_unseen(d.before) && is_unseen(d.after); }},
    Class{"mark without a base", 142,
          [](const Departure& d) {
            const bool nothing_to_stand_on = d.base == 0 || is_unseen(d.base) || is_line_break(d.base);
            return nothing_to_stand_on && (d.ours_cuts ? is_mark(d.after) : is_mark(d.before) && is_letter(d.after));
          }},
    Class{"number and mark", 5,
          [](const Departure& d) { return d.ours_cuts && is_digit(d.base) && is_mark(d.before) && is_digit(d.after); }},
    Class{"skin tone", 5, [](const Departure& d) { return d.ours_cuts && is_skin_tone(d.after); }},
    Class{"flag", 7,
          [](const Departure& d) {
            return d.ours_cuts && is_regional_indicator(d.base) && is_regional_indicator(d.after);
          }},
    Class{"Katakana", 20,
          [](const Departure& d) {
            return !d.ours_cuts && is_letter(d.base) && is_letter(d.after) &&
                   is_katakana(d.base) != is_katakana(d.after);
          }},
};

TEST(WordBreaks, DepartFromTheStandardOnlyWhereWeMeanTo) {
  std::ifstream file(JOINTLEDGER_WORD_BREAK_TEST);
  ASSERT_TRUE(file) << "cannot read " JOINTLEDGER_WORD_BREAK_TEST ": install the Debian package unicode-data";
  std::string line;
  std::getline(file, line);
  ASSERT_EQ(line, "# WordBreakTest-15.0.0.txt") << "the numbers below were counted with another version";

  int cases = 0;
  int boundaries = 0;
  int agreeing_cases = 0;
  std::map<std::string_view, int> explained;
  while (std::getline(file, line)) {
    const Case standard = read_case(line);
    if (standard.text.empty()) continue;
    ++cases;
    const std::vector<bool> ours = our_cuts(standard.text);
    bool agrees = true;
    for (std::size_t at = 1; at < ours.size(); ++at) {
      ++boundaries;
      if (ours[at] == standard.cut[at]) continue;
      agrees = false;
      const Departure departure = departure_at(standard.text, at, ours[at]);
      const auto reason = std::find_if(classes.begin(), classes.end(),
                                       [&](const Class& candidate) { return candidate.explains(departure); });
      if (reason == classes.end()) {
        ADD_FAILURE() << (ours[at] ? "we cut" : "we do not cut") << " before character " << at << " of: " << line;
      } else {
        ++explained[reason->name];
      }
    }
    if (agrees) ++agreeing_cases;
  }

  EXPECT_GE(cases, 1800);
  EXPECT_GE(boundaries, 4000);
  EXPECT_EQ(agreeing_cases, 1060) << "of " << cases << " cases";
  for (const Class& reason : classes) EXPECT_EQ(explained[reason.name], reason.departures) << reason.name;
}

}  // namespace
}  // namespace jointledger
