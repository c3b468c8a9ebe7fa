#include "text/lines.h"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {
namespace {

std::vector<Token> tokens_of(std::string_view text) {
  std::vector<Token> tokens;
  tokenize(text, tokens);
  return tokens;
}

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  split_lines(text, tokens_of(text), lines);
  return lines;
}

/// The lines of `text`, each in brackets as it stands, with '^' in front when blank lines stand before it.
std::string cut(std::string_view text) {
  std::string shown;
  for (const Line& line : lines_of(text)) {
    if (line.blank_before) shown += '^';
    shown += '[';
    shown += text.substr(line.start, line.end - line.start);
    shown += ']';
  }
  return shown;
}

/// What stands after the bullet of a text of one line, or "no bullet".
std::string body(std::string_view text) {
  const auto lines = lines_of(text);
  const auto tokens = tokens_of(text);
  if (lines.size() != 1) return "not one line";
  const Line& line = lines[0];
  if (!line.bullet) return line.body_token == line.first_token ? "no bullet" : "a body without a bullet";
  if (line.body_token == line.last_token) return "";
  return std::string(text.substr(tokens[line.body_token].start, line.end - tokens[line.body_token].start));
}

TEST(SplitLines, CutsAtEveryLineBreak) {
  EXPECT_EQ(cut(""), "");
  EXPECT_EQ(cut("one"), "[one]");
  EXPECT_EQ(cut("one\n"), "[one]");
  EXPECT_EQ(cut("one\ntwo"), "[one][two]");
  EXPECT_EQ(cut("one\r\ntwo\rthree\ffour\u2028five"), "[one][two][three][four][five]");
}

TEST(SplitLines, KeepsIndentation) { EXPECT_EQ(cut("a\n  b \n\tc"), "[a][  b ][\tc]"); }

TEST(SplitLines, BlankLinesAreToldByTheNext) {
  EXPECT_EQ(cut("\n\n"), "");
  EXPECT_EQ(cut("\none"), "^[one]");
  EXPECT_EQ(cut("one\n\ntwo\nthree"), "[one]^[two][three]");
  EXPECT_EQ(cut("one\r\n\r\ntwo"), "[one]^[two]");
  EXPECT_EQ(cut("one\n \t\u00A0\n\n\ntwo\n\n"), "[one]^[two]");
}

TEST(SplitLines, GivesTheTokensOfALine) {
  const std::string text = "Knee: full\n\n- no pain\n";  // Knee : full br br - no pain br
  const std::vector<Line> expected = {
      {.first_token = 0,
       .last_token = 3,
       .start = 0,
       .end = 10,
       .body_token = 0,
       .bullet = false,
       .blank_before = false},
      {.first_token = 5,
       .last_token = 8,
       .start = 12,
       .end = 21,
       .body_token = 6,
       .bullet = true,
       .blank_before = true},
  };
  EXPECT_EQ(lines_of(text), expected);
}

TEST(SplitLines, SignsThatAreAlwaysBullets) {
  for (const char* sign : {"\u2022", "\u00B7", "\u25CF", "\u25AA", "\u25A0", "\u25E6", "\u2023"}) {
    EXPECT_EQ(body(std::string(sign) + " knee"), "knee");
    EXPECT_EQ(body(std::string("  ") + sign + "5/5"), "5/5");
    EXPECT_EQ(body(sign), "");
  }
}

TEST(SplitLines, DashesAndStarsAreBulletsWhenTheyStandApart) {
  for (const char* sign : {"-", "\u2013", "\u2014", "*"}) {
    EXPECT_EQ(body(std::string(sign) + " knee"), "knee");
    EXPECT_EQ(body(std::string(sign) + " 5/5"), "5/5");
    EXPECT_EQ(body(std::string(sign) + "knee"), "knee");
    EXPECT_EQ(body(sign), "");
    EXPECT_EQ(body(std::string(sign) + "5 degrees"), "no bullet");
    EXPECT_EQ(body(std::string(sign) + ">"), "no bullet");
  }
  EXPECT_EQ(body("---"), "no bullet");
  EXPECT_EQ(body("** knee"), "no bullet");
  EXPECT_EQ(body("+ knee"), "no bullet");
}

TEST(SplitLines, NumbersWithAPointOrABracketAreBullets) {
  EXPECT_EQ(body("1. knee"), "knee");
  EXPECT_EQ(body("12) knee"), "knee");
  EXPECT_EQ(body("1.knee"), "knee");
  EXPECT_EQ(body("1)5/5"), "5/5");
  EXPECT_EQ(body("3."), "");
  EXPECT_EQ(body("1.5 cm"), "no bullet");
  EXPECT_EQ(body("120. Strength"), "no bullet");
  EXPECT_EQ(body("1 . knee"), "no bullet");
  EXPECT_EQ(body("1: knee"), "no bullet");
  EXPECT_EQ(body("1"), "no bullet");
}

TEST(SplitLines, SmallLettersWithAPointOrABracketAreBullets) {
  EXPECT_EQ(body("a. knee"), "knee");
  EXPECT_EQ(body("h) knee"), "knee");
  EXPECT_EQ(body("b."), "");
  EXPECT_EQ(body("a.m. visit"), "no bullet");
  EXPECT_EQ(body("i. knee"), "no bullet");
  EXPECT_EQ(body("R. knee"), "no bullet");
  EXPECT_EQ(body("C. difficile"), "no bullet");
  EXPECT_EQ(body("a knee"), "no bullet");
}

TEST(SplitLines, ReusesItsOutput) {
  const std::string text = "one\ntwo\nthree";
  const auto tokens = tokens_of(text);
  std::vector<Line> lines;
  split_lines(text, tokens, lines);
  const Line* const memory = lines.data();
  split_lines(text, tokens, lines);
  EXPECT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines.data(), memory);
}

TEST(SplitLines, OneLineOfAMegabyte) {
  const std::string text(1 << 20, '.');
  const auto lines = lines_of(text);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].last_token, text.size());
  EXPECT_EQ(lines[0].end, text.size());
}

// Every token but the line breaks is in exactly one line, inside its bytes, and lines never touch.
TEST(SplitLines, IsSoundForRandomText) {
  std::mt19937 random(4);
  const std::vector<std::string> parts = {"a", "knee", "1",  "12", ".",  ")",      "-",      "*",
                                          " ", "\t",   "\n", "\n", "\r", "\u2022", "\u00A0", "\u2028"};
  std::uniform_int_distribution<std::size_t> pick(0, parts.size() - 1);
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (int i = 0; i < 20; ++i) text += parts[pick(random)];
    const auto tokens = tokens_of(text);
    std::vector<Line> lines;
    split_lines(text, tokens, lines);

    std::size_t token = 0;
    std::uint32_t end = 0;
    for (const Line& line : lines) {
      const std::size_t passed = line.first_token - token;
      for (; token < line.first_token; ++token) ASSERT_EQ(tokens[token].kind, TokenKind::line_break);
      ASSERT_EQ(line.blank_before, passed > (line.start == 0 || &line == lines.data() ? 0U : 1U));
      ASSERT_LT(line.first_token, line.last_token);
      ASSERT_LE(line.first_token, line.body_token);
      ASSERT_LE(line.body_token, line.last_token);
      ASSERT_EQ(line.bullet, line.body_token > line.first_token);
      ASSERT_TRUE(&line == lines.data() || line.start > end);
      for (; token < line.last_token; ++token) {
        ASSERT_NE(tokens[token].kind, TokenKind::line_break);
        ASSERT_LE(line.start, tokens[token].start);
        ASSERT_LE(tokens[token].end, line.end);
      }
      end = line.end;
    }
    for (; token < tokens.size(); ++token) ASSERT_EQ(tokens[token].kind, TokenKind::line_break);
  }
}

}  // namespace
}  // namespace jointledger
