#include "text/tokens.h"

#include <gtest/gtest.h>
#include <utf8proc.h>

#include <array>
#include <ostream>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

void PrintTo(const Token& token, std::ostream* out) {
  *out << '[' << token.start << ',' << token.end << ") kind " << static_cast<int>(token.kind)
       << (token.space_before ? " after space" : "");
}

namespace {

using namespace std::string_literals;

std::vector<Token> tokens_of(std::string_view text) {
  std::vector<Token> tokens;
  tokenize(text, tokens);
  return tokens;
}

/// The tokens of `text` as one line to read: "w:knee n:30 s:°", with '_' for white space before a token and a bare
/// "br" for a line break.
std::string cut(std::string_view text) {
  std::string shown;
  for (const Token& token : tokens_of(text)) {
    if (!shown.empty()) shown += ' ';
    if (token.space_before) shown += '_';
    if (token.kind == TokenKind::line_break) {
      shown += "br";
      continue;
    }
    shown += "wnps"[static_cast<std::size_t>(token.kind)];
    shown += ':';
    shown += text.substr(token.start, token.end - token.start);
  }
  return shown;
}

std::string folded(std::string_view text) {
  std::string out = "left over from before";
  fold(text, out);
  return out;
}

std::string utf8(utf8proc_int32_t code_point) {
  std::array<utf8proc_uint8_t, 4> bytes{};
  const auto size = utf8proc_encode_char(code_point, bytes.data());
  return {reinterpret_cast<const char*>(bytes.data()), static_cast<std::size_t>(size)};
}

TEST(Tokenize, WordsStandBetweenSpaces) {
  EXPECT_EQ(cut(""), "");
  EXPECT_EQ(cut(" \t "), "");
  EXPECT_EQ(cut("Right knee"), "w:Right _w:knee");
  EXPECT_EQ(cut("  Right\t knee  "), "_w:Right _w:knee");
}

TEST(Tokenize, GivesByteOffsets) {
  const std::vector<Token> expected = {
      {0, 9, TokenKind::word, false},  // six letters, one of them two bytes, and an accent of two
      {10, 13, TokenKind::number, true},      {13, 15, TokenKind::symbol, false},  //
      {15, 17, TokenKind::line_break, false}, {17, 18, TokenKind::word, true},
  };
  EXPECT_EQ(tokens_of("\u0152de\u0300mes 120\u00B0\r\nx"), expected);
}

TEST(Tokenize, HyphensAndSlashesAreTokensThatTouch) {
  EXPECT_EQ(cut("non-tender"), "w:non p:- w:tender");
  EXPECT_EQ(cut("and/or"), "w:and p:/ w:or");
  EXPECT_EQ(cut("0 - 140"), "n:0 _p:- _n:140");
  EXPECT_EQ(cut("0\u2013140"), "n:0 p:\u2013 n:140");
}

TEST(Tokenize, LettersAndDigitsNeverShareAToken) {
  EXPECT_EQ(cut("L4"), "w:L n:4");
  EXPECT_EQ(cut("T12-L1"), "w:T n:12 p:- w:L n:1");
  EXPECT_EQ(cut("5th"), "n:5 w:th");
  EXPECT_EQ(cut("2x3cm"), "n:2 w:x n:3 w:cm");
  EXPECT_EQ(cut("CN2-12"), "w:CN n:2 p:- n:12");
}

TEST(Tokenize, ApostrophesBelongToAWordBetweenLetters) {
  EXPECT_EQ(cut("patient's"), "w:patient's");
  EXPECT_EQ(cut("O\u2019Brien"), "w:O\u2019Brien");
  EXPECT_EQ(cut("rock'n'roll"), "w:rock'n'roll");
  EXPECT_EQ(cut("d\u2019\u0153d\u00E8me"), "w:d\u2019\u0153d\u00E8me");
  EXPECT_EQ(cut("e\u0301's"), "w:e\u0301's");
  EXPECT_EQ(cut("patients' knees"), "w:patients p:' _w:knees");
  EXPECT_EQ(cut("'tis"), "p:' w:tis");
  EXPECT_EQ(cut("a''b"), "w:a p:' p:' w:b");
  EXPECT_EQ(cut("1980's"), "n:1980 p:' w:s");
  EXPECT_EQ(cut("L'4"), "w:L p:' n:4");
  EXPECT_EQ(cut("knee'"), "w:knee p:'");
  EXPECT_EQ(cut("knee\u2019"), "w:knee p:\u2019");
}

TEST(Tokenize, NumbersHaveAtMostOneInnerPoint) {
  EXPECT_EQ(cut("120"), "n:120");
  EXPECT_EQ(cut("3.5 cm"), "n:3.5 _w:cm");
  EXPECT_EQ(cut("30."), "n:30 p:.");
  EXPECT_EQ(cut("30. Full"), "n:30 p:. _w:Full");
  EXPECT_EQ(cut(".5"), "p:. n:5");
  EXPECT_EQ(cut("10.12.2020"), "n:10.12 p:. n:2020");
  EXPECT_EQ(cut("1..2"), "n:1 p:. p:. n:2");
  EXPECT_EQ(cut("1,000"), "n:1 p:, n:000");
  EXPECT_EQ(cut("4+/5"), "n:4 s:+ p:/ n:5");
  EXPECT_EQ(cut("12:30"), "n:12 p:: n:30");
  EXPECT_EQ(cut("\u0663\u0664.\u0665"), "n:\u0663\u0664.\u0665");  // Arabic-Indic digits
}

TEST(Tokenize, SignsStandAlone) {
  EXPECT_EQ(cut("(+) pain"), "p:( s:+ p:) _w:pain");
  EXPECT_EQ(cut("120\u00B0"), "n:120 s:\u00B0");
  EXPECT_EQ(cut("R>L"), "w:R s:> w:L");
  EXPECT_EQ(cut("$+<=>^`|~"), "s:$ s:+ s:< s:= s:> s:^ s:` s:| s:~");
  EXPECT_EQ(cut("!\"#%&'(),-./:;?@[\\]{}"),
            "p:! p:\" p:# p:% p:& p:' p:( p:) p:, p:- p:. p:/ p:: p:; p:? p:@ p:[ p:\\ p:] p:{ p:}");
  EXPECT_EQ(cut("\u00BD \u00B2"), "s:\u00BD _s:\u00B2");  // one half, superscript two: no decimal digits
}

TEST(Tokenize, RunsOfUnderscoresAndOfStarsAreOneToken) {
  EXPECT_EQ(cut("ROM ____ deg"), "w:ROM _p:____ _w:deg");
  EXPECT_EQ(cut("**Knee**"), "p:** w:Knee p:**");
  EXPECT_EQ(cut("a_b"), "w:a p:_ w:b");
  EXPECT_EQ(cut("_*__"), "p:_ p:* p:__");
  EXPECT_EQ(cut("---"), "p:- p:- p:-");
  EXPECT_EQ(cut("..."), "p:. p:. p:.");
}

TEST(Tokenize, EveryLineBreakIsOneToken) {
  EXPECT_EQ(cut("a\nb"), "w:a br _w:b");
  EXPECT_EQ(cut("a\r\nb"), "w:a br _w:b");
  EXPECT_EQ(cut("a\rb"), "w:a br _w:b");
  EXPECT_EQ(cut("a\vb\fc"), "w:a br _w:b br _w:c");
  EXPECT_EQ(cut("a\u2028b\u2029c"), "w:a br _w:b br _w:c");
  EXPECT_EQ(cut("a\n\nb"), "w:a br _br _w:b");
  EXPECT_EQ(cut("a\r\n\r\nb"), "w:a br _br _w:b");
  EXPECT_EQ(cut("a\n\rb"), "w:a br _br _w:b");
  EXPECT_EQ(cut("a \n b"), "w:a _br _w:b");
  EXPECT_EQ(cut("\r"), "br");
  EXPECT_EQ(cut("\r\n"), "br");
}

TEST(Tokenize, WhatCannotBeSeenIsWhiteSpace) {
  for (const char* space : {
           " ",
           "\t",
           "\u00A0",
           "\u2009",
           "\u202F",
           "\u3000",  // spaces of every width
           "\u00AD",
           "\u200B",
           "\u200C",
           "\u200D",
           "\u2060",
           "\uFEFF",
           "\u200E",
           "\u202A",
           "\x01",
           "\x1F",
           "\x7F",
           "\u0085",
       }) {
    EXPECT_EQ(cut("a"s + space + "b"), "w:a _w:b");
    EXPECT_EQ(cut(space), "");
  }
  EXPECT_EQ(cut("a\0b"s), "w:a _w:b");
  EXPECT_EQ(cut("\uFEFFKnee"), "_w:Knee");
}

TEST(Tokenize, WordsOfOtherScripts) {
  EXPECT_EQ(cut("Genou oed\u00E8me"), "w:Genou _w:oed\u00E8me");
  EXPECT_EQ(cut("oede\u0300me"), "w:oede\u0300me");
  EXPECT_EQ(cut("\u05D1\u05E8\u05DA 90"), "w:\u05D1\u05E8\u05DA _n:90");                  // Hebrew
  EXPECT_EQ(cut("\u05D1\u05B6\u05E8\u05B6\u05DA"), "w:\u05D1\u05B6\u05E8\u05B6\u05DA");   // with its points
  EXPECT_EQ(cut("\u5DE6\u819D90\u5EA6\u3002"), "w:\u5DE6\u819D n:90 w:\u5EA6 p:\u3002");  // Chinese
  EXPECT_EQ(cut("\u0915\u094D\u0937\u093F"), "w:\u0915\u094D\u0937\u093F");               // Devanagari
  EXPECT_EQ(cut("\U00010428\U00010400"), "w:\U00010428\U00010400");                       // Deseret, 4 bytes
}

TEST(Tokenize, MarksJoinTheTokenTheyStandOn) {
  EXPECT_EQ(cut("\u2714\uFE0F Knee"), "s:\u2714\uFE0F _w:Knee");
  EXPECT_EQ(cut("1\uFE0F\u20E3"), "n:1\uFE0F\u20E3");
  EXPECT_EQ(cut("-\u0301"), "p:-\u0301");
  EXPECT_EQ(cut("a \u0301b"), "w:a _w:\u0301b");
  EXPECT_EQ(cut("a\n\u0301"), "w:a br _w:\u0301");
  EXPECT_EQ(cut("\u0301"), "w:\u0301");
}

TEST(Tokenize, EmojiAreSymbols) {
  EXPECT_EQ(cut("leg\U0001F9B5\U0001F9B5ok"), "w:leg s:\U0001F9B5 s:\U0001F9B5 w:ok");
  EXPECT_EQ(cut("\U0001F44D\U0001F3FD"), "s:\U0001F44D s:\U0001F3FD");         // with a skin tone
  EXPECT_EQ(cut("\U0001F468\u200D\U0001F4BB"), "s:\U0001F468 _s:\U0001F4BB");  // joined
}

TEST(Tokenize, KeepsBytesThatAreNotUtf8) {
  EXPECT_EQ(cut("30\xB0 flex"), "n:30 s:\xB0 _w:flex");
  EXPECT_EQ(cut("a\xE2\x80"), "w:a s:\xE2 s:\x80");
  EXPECT_EQ(cut("\xFF\xC3"), "s:\xFF s:\xC3");
}

TEST(Tokenize, ReusesItsOutput) {
  const std::string text = "Right knee: flexion 0-120\u00B0, no effusion.\n";
  std::vector<Token> tokens;
  tokenize(text, tokens);
  const std::vector<Token> first = tokens;
  const Token* const memory = tokens.data();
  tokenize(text, tokens);
  EXPECT_EQ(tokens, first);
  tokenize("short", tokens);
  EXPECT_EQ(tokens.size(), 1U);
  EXPECT_EQ(tokens.data(), memory);
}

TEST(Tokenize, UpperAndLowerCaseAreCutAlike) {
  const std::string lower = "patient's l4-l5 non-tender, 5th toe 3.5cm (+) ____ d\u2019\u0153d\u00E8me";
  const std::string upper = "PATIENT'S L4-L5 NON-TENDER, 5TH TOE 3.5CM (+) ____ D\u2019\u0152D\u00C8ME";
  EXPECT_EQ(tokens_of(lower), tokens_of(upper));
}

TEST(Tokenize, OneLineOfAMegabyte) {
  const std::size_t megabyte = 1 << 20;
  EXPECT_EQ(tokens_of(std::string(megabyte, 'a')).size(), 1U);
  EXPECT_EQ(tokens_of(std::string(megabyte, '1')).size(), 1U);
  EXPECT_EQ(tokens_of(std::string(megabyte, '_')).size(), 1U);
  EXPECT_EQ(tokens_of(std::string(megabyte, ' ')).size(), 0U);
  EXPECT_EQ(tokens_of(std::string(megabyte, '.')).size(), megabyte);

  std::string apostrophes;
  while (apostrophes.size() < megabyte) apostrophes += "a'";
  EXPECT_EQ(tokens_of(apostrophes).size(), 2U);  // the last apostrophe is a sign

  std::string prose;
  while (prose.size() < megabyte) prose += "knee 3.5 ";
  EXPECT_EQ(tokens_of(prose).size(), prose.size() / 9 * 2);
}

/// The promises of tokens.h that hold for any text: tokens ascend inside it, never empty; what lies between them is
/// white space, and `space_before` says whether there is any.
void expect_sound(const std::string& text) {
  const auto is_space = [&](std::size_t from, std::size_t to) {
    while (from < to) {
      utf8proc_int32_t code_point = 0;
      const auto size = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + from,
                                         static_cast<utf8proc_ssize_t>(to - from), &code_point);
      if (size <= 0) return false;
      const auto category = utf8proc_category(code_point);
      const bool line_break = std::string_view("\n\r\v\f").find(text[from]) != std::string_view::npos;
      if (line_break ||
          (category != UTF8PROC_CATEGORY_ZS && category != UTF8PROC_CATEGORY_CC && category != UTF8PROC_CATEGORY_CF)) {
        return false;
      }
      from += static_cast<std::size_t>(size);
    }
    return true;
  };

  std::uint32_t end = 0;
  bool after_break = false;
  for (const Token& token : tokens_of(text)) {
    ASSERT_LE(end, token.start);
    ASSERT_LT(token.start, token.end);
    ASSERT_LE(token.end, text.size());
    ASSERT_EQ(token.space_before, token.start > end || after_break);
    ASSERT_TRUE(is_space(end, token.start)) << "bytes " << end << " to " << token.start << " of " << text;
    end = token.end;
    after_break = token.kind == TokenKind::line_break;
  }
  ASSERT_TRUE(is_space(end, text.size())) << "bytes from " << end << " of " << text;
}

TEST(Tokenize, IsSoundForRandomText) {
  std::mt19937 random(2);
  const std::vector<std::string> usual = {"a",  "B",      "knee",   "0",      "17",     " ",      "\t",    "\n",
                                          "\r", "\r\n",   "'",      "\u2019", ".",      "-",      "_",     "*",
                                          "+",  "\u00B0", "\u0301", "\u00A0", "\u200D", "\u00E9", "\u5DE6"};
  std::uniform_int_distribution<std::size_t> pick(0, usual.size() + 2);
  std::uniform_int_distribution<utf8proc_int32_t> any(0, 0x10FFFF);
  std::uniform_int_distribution<std::size_t> length(0, 40);
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (std::size_t left = length(random); left > 0; --left) {
      const std::size_t choice = pick(random);
      if (choice < usual.size()) {
        text += usual[choice];
      } else if (const utf8proc_int32_t code_point = any(random); utf8proc_codepoint_valid(code_point)) {
        text += utf8(code_point);
      }
    }
    ASSERT_NO_FATAL_FAILURE(expect_sound(text));
  }
}

TEST(Tokenize, IsSoundForEveryCharacter) {
  for (utf8proc_int32_t code_point = 0; code_point <= 0x10FFFF; ++code_point) {
    if (!utf8proc_codepoint_valid(code_point)) continue;
    ASSERT_NO_FATAL_FAILURE(expect_sound("a" + utf8(code_point) + "1")) << code_point;
  }
}

// Byte soup is not promised to make sense, only to be cut without losing a byte or reading past the end.
TEST(Tokenize, LosesNoVisibleByteOfBrokenText) {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> byte(0x80, 0xFF);
  for (int round = 0; round < 20'000; ++round) {
    std::string text(7, '\0');
    for (char& c : text) c = static_cast<char>(byte(random));
    std::uint32_t end = 0;
    for (const Token& token : tokens_of(text)) {
      ASSERT_LE(end, token.start);
      ASSERT_LE(token.end, text.size());
      end = token.end;
    }
  }
}

TEST(Fold, LowersAscii) {
  EXPECT_EQ(folded(""), "");
  EXPECT_EQ(folded("Knee"), "knee");
  EXPECT_EQ(folded("ROM"), "rom");
  EXPECT_EQ(folded("120"), "120");
  EXPECT_EQ(folded("@[`{"), "@[`{");  // the neighbours of the letters
}

TEST(Fold, StripsAccents) {
  EXPECT_EQ(folded("\u0152d\u00E8me"), "\u0153deme");
  EXPECT_EQ(folded("Baker\u2019s"), "baker's");
  EXPECT_EQ(folded("Spr\u00DCNG"), "sprung");
  EXPECT_EQ(folded("SpRu\u0308NG"), "sprung");  // decomposed
  EXPECT_EQ(folded("Stra\u00DFe"), "strasse");
  EXPECT_EQ(folded("\u0130zmir"), "izmir");
  EXPECT_EQ(folded("\u0301"), "");
}

TEST(Fold, MakesCompatibilityFormsPlain) {
  EXPECT_EQ(folded("\uFB02exion"), "flexion");     // a ligature, as copied from PDF
  EXPECT_EQ(folded("\uFF32\uFF2F\uFF2D"), "rom");  // full width
  EXPECT_EQ(folded("\uFF11\uFF12"), "12");
  EXPECT_EQ(folded("\u2026"), "...");
  EXPECT_EQ(folded("\u00BA"), "o");  // the ordinal sign, a letter, often typed for a degree sign
}

TEST(Fold, KeepsSigns) {
  for (const char* sign : {"\u00B0", "\u2013", "\u2022", "\u02DA", "\u00B4", "\u00A8", "\u2032", "\U0001F9B5"}) {
    EXPECT_NE(folded(sign), "") << sign;
    EXPECT_EQ(folded(sign).find(' '), std::string::npos) << sign;
  }
  EXPECT_EQ(folded("\u00B0"), "\u00B0");
  EXPECT_EQ(folded("\u02DA"), "\u02DA");
}

TEST(Fold, KeepsBytesThatAreNotUtf8) {
  EXPECT_EQ(folded("Gen\xE9"), "gen\xE9");
  EXPECT_EQ(folded("\xC3"), "\xC3");
}

TEST(Fold, FoldingTwiceChangesNothing) {
  for (utf8proc_int32_t code_point = 0; code_point <= 0x10FFFF; ++code_point) {
    if (!utf8proc_codepoint_valid(code_point)) continue;
    const std::string once = folded(utf8(code_point));
    ASSERT_EQ(folded(once), once) << std::hex << code_point;
  }
}

TEST(Fold, UpperAndLowerCaseFoldAlike) {
  for (utf8proc_int32_t code_point = 0; code_point <= 0x10FFFF; ++code_point) {
    if (!utf8proc_codepoint_valid(code_point)) continue;
    // The Turkish dotless i, whose capital is a plain I, and a Greek mark whose capital is a letter.
    if (code_point == 0x131 || code_point == 0x345) continue;
    const std::string here = folded(utf8(code_point));
    EXPECT_EQ(folded(utf8(utf8proc_toupper(code_point))), here) << std::hex << code_point;
    EXPECT_EQ(folded(utf8(utf8proc_tolower(code_point))), here) << std::hex << code_point;
  }
}

}  // namespace
}  // namespace jointledger
