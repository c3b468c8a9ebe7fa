// Passages in characters.
#include "report/passage.h"

#include <gtest/gtest.h>

#include <string>

namespace jointledger {
namespace {

Span span(std::size_t start, std::size_t end) {
  return {static_cast<std::uint32_t>(start), static_cast<std::uint32_t>(end)};
}

std::string_view words(std::string_view text, Span s) { return text.substr(s.start, s.end - s.start); }

TEST(CharacterIndex, CountsCodePointsBeforeEachByte) {
  // One, two, three and four bytes a character, past the steps that it keeps.
  std::string text;
  std::vector<std::size_t> starts;
  for (int i = 0; i < 1000; ++i) {
    for (const std::string_view c : {"a", "\xC2\xB0", "\xE2\x80\x93", "\xF0\x9F\xA6\xB4"}) {
      starts.push_back(text.size());
      text.append(c);
    }
  }
  const CharacterIndex index(text);
  for (std::size_t i = 0; i < starts.size(); ++i) ASSERT_EQ(index.before(starts[i]), i);
  EXPECT_EQ(index.before(text.size()), starts.size());
  const std::string step(1024, 'x');
  EXPECT_EQ(CharacterIndex(step).before(1024), 1024U);
  EXPECT_EQ(CharacterIndex("").before(0), 0U);
}

TEST(Passage, ReachesFromTheFirstPieceToTheLast) {
  const CharacterIndex index("Left knee: no swelling or redness.");
  const std::vector<Span> evidence = {span(0, 9), span(11, 13), span(14, 22)};
  EXPECT_EQ(words(index.text(), passage_of(index, evidence, 250)), "Left knee: no swelling");
  EXPECT_EQ(words(index.text(), passage_of(index, evidence, 22)), "Left knee: no swelling");
  EXPECT_EQ(words(index.text(), passage_of(index, evidence, 21)), "Left knee: no");
  EXPECT_EQ(words(index.text(), passage_of(index, evidence, 8)), "Left kne") << "the longest piece, cut";
}

TEST(Passage, HoldsTheMostOfTheEvidence) {
  const std::string text = "Left knee" + std::string(50, '.') + "no swelling, no redness";
  const CharacterIndex index(text);
  const std::vector<Span> evidence = {span(0, 9), span(59, 70), span(72, 82)};
  EXPECT_EQ(words(text, passage_of(index, evidence, 40)), "no swelling, no redness");
}

TEST(Passage, CutsBetweenCharacters) {
  const std::string text = "\xC2\xB0\xC2\xB0\xC2\xB0\xC2\xB0";
  const CharacterIndex index(text);
  const std::vector<Span> evidence = {span(0, 8)};
  EXPECT_EQ(words(text, passage_of(index, evidence, 3)), "\xC2\xB0\xC2\xB0\xC2\xB0");
}

TEST(Surroundings, EndBetweenWords) {
  const std::string text = "Walks well. Left knee: swollen. Right knee: not swollen.";
  const CharacterIndex index(text);
  const Span knee = span(12, 30);  // "Left knee: swollen"
  EXPECT_EQ(words(text, surroundings_of(index, knee, 250)), text);
  EXPECT_EQ(words(text, surroundings_of(index, knee, 32)), "well. Left knee: swollen. Right");
  EXPECT_EQ(words(text, surroundings_of(index, knee, 18)), "Left knee: swollen");
  EXPECT_EQ(words(text, surroundings_of(index, knee, 5)), "Left knee: swollen") << "never less than the passage";
}

}  // namespace
}  // namespace jointledger
