#include "lexicon/phrases.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace jointledger {
namespace {

/// A table of phrases, and texts cut at spaces: "-" and "/" by themselves are joiners.
class PhrasesTest : public ::testing::Test {
 protected:
  std::optional<std::uint32_t> add(const std::string& phrase, std::uint32_t value, bool capitals = false) {
    std::vector<WordId> words;
    for (const std::string& word : cut(phrase)) words.push_back(vocabulary_.add(folded(word)));
    return table_.add(words, capitals, value);
  }
  PhraseTable::Match at(const std::string& text, std::size_t token = 0) const {
    std::vector<TokenKey> keys;
    for (const std::string& word : cut(text)) {
      TokenKey key;
      key.word = vocabulary_.find(folded(word));
      key.joiner = word == "-" || word == "/";
      key.capitals = std::ranges::none_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
      keys.push_back(key);
    }
    return table_.longest(keys, token);
  }
  /// Length and value, "3:7"; "none" for no match.
  std::string found(const std::string& text, std::size_t token = 0) const {
    const auto match = at(text, token);
    return match.length == 0 ? "none" : std::to_string(match.length) + ":" + std::to_string(match.value);
  }

 private:
  static std::vector<std::string> cut(const std::string& text) {
    std::vector<std::string> words;
    std::istringstream in(text);
    for (std::string word; in >> word;) words.push_back(word);
    return words;
  }
  static std::string folded(std::string word) {
    std::ranges::transform(word, word.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return word;
  }
  Vocabulary vocabulary_;
  PhraseTable table_;
};

TEST_F(PhrasesTest, FindNothingInAnEmptyTable) {
  EXPECT_EQ(found("right knee"), "none");
  EXPECT_EQ(found(""), "none");
}

TEST_F(PhrasesTest, AreMatchedAtTheirLongest) {
  add("leg", 1);
  add("straight leg raise", 2);
  add("straight", 3);
  add("straight leg raise test", 4);
  EXPECT_EQ(found("straight leg raise test negative"), "4:4");
  EXPECT_EQ(found("straight leg raise negative"), "3:2");
  EXPECT_EQ(found("straight leg extended"), "1:3");
  EXPECT_EQ(found("straight"), "1:3");
  EXPECT_EQ(found("straight leg raise", 1), "1:1");
  EXPECT_EQ(found("raise"), "none");
}

TEST_F(PhrasesTest, BeginWhereTheyAreLookedFor) {
  add("knee", 1);
  EXPECT_EQ(found("the knee"), "none");
  EXPECT_EQ(found("the knee", 1), "1:1");
}

TEST_F(PhrasesTest, TakeAHyphenOrSlashForASpace) {
  add("c spine", 1);
  add("spine", 2);
  EXPECT_EQ(found("C spine"), "2:1");
  EXPECT_EQ(found("C - spine"), "3:1");
  EXPECT_EQ(found("c / spine"), "3:1");
  EXPECT_EQ(found("spine - c"), "1:2");  // what hangs on behind is no part of it
  EXPECT_EQ(found("- c spine"), "none");
}

TEST_F(PhrasesTest, InCapitalsMatchCapitalsOnly) {
  add("FROM", 1, true);
  EXPECT_EQ(found("FROM"), "1:1");
  EXPECT_EQ(found("from"), "none");
  EXPECT_EQ(found("From"), "none");
  add("from", 2);
  EXPECT_EQ(found("FROM"), "1:1");
  EXPECT_EQ(found("from"), "1:2");
  add("lt", 3);
  EXPECT_EQ(found("LT"), "1:3");  // any case, if the phrase is not in capitals
}

TEST_F(PhrasesTest, KeepTheFirstOfTwo) {
  EXPECT_EQ(add("knee joint", 1), std::nullopt);
  EXPECT_EQ(add("knee joint", 2), 1U);
  EXPECT_EQ(add("Knee Joint", 3), 1U);
  EXPECT_EQ(found("knee joint"), "2:1");
  EXPECT_EQ(add("KNEE", 4, true), std::nullopt);
  EXPECT_EQ(add("knee", 5), std::nullopt);
}

TEST(Vocabulary, NumbersWordsFromOne) {
  Vocabulary words;
  EXPECT_EQ(words.find("knee"), 0U);
  EXPECT_EQ(words.add("knee"), 1U);
  EXPECT_EQ(words.add("hip"), 2U);
  EXPECT_EQ(words.add("knee"), 1U);
  EXPECT_EQ(words.find("hip"), 2U);
  EXPECT_EQ(words.size(), 2U);
  EXPECT_EQ(words.word(2), "hip");
  for (int i = 0; i < 1000; ++i) words.add("word" + std::to_string(i));
  EXPECT_EQ(words.word(1), "knee");  // still where it was
}

}  // namespace
}  // namespace jointledger
