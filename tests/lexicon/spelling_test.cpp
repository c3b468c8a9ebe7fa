#include "lexicon/spelling.h"

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

namespace jointledger {
namespace {

class SpellingTest : public ::testing::Test {
 protected:
  SpellingTest() {
    for (const char* word :
         {"tenderness", "crepitus", "sternocleidomastoid", "swelling", "effusion", "shoulder", "palm", "abduction",
          "adduction", "fingers", "elevated", "supine", "flexion", "flexions"}) {
      words_.emplace_back(word);
      spelling_.add(word, static_cast<WordId>(words_.size()));
    }
  }
  /// The word that `text` is taken for; empty for none.
  std::string taken_for(std::string_view text) {
    const WordId id = spelling_.nearest(text, scratch_);
    return id == 0 ? "" : words_[id - 1];
  }

 private:
  Spelling spelling_;
  std::vector<std::string> words_;
  std::string scratch_;
};

TEST_F(SpellingTest, ForgivesOneLetter) {
  EXPECT_EQ(taken_for("tendernes"), "tenderness");  // lost
  EXPECT_EQ(taken_for("tendrness"), "tenderness");
  EXPECT_EQ(taken_for("swellling"), "swelling");  // doubled
  EXPECT_EQ(taken_for("effussion"), "effusion");
  EXPECT_EQ(taken_for("tendarness"), "tenderness");  // taken for another
  EXPECT_EQ(taken_for("crepitis"), "crepitus");
  EXPECT_EQ(taken_for("tenedrness"), "tenderness");  // swapped with its neighbour
  EXPECT_EQ(taken_for("sternocleidomastiod"), "sternocleidomastoid");
}

TEST_F(SpellingTest, TakesARightWordForItself) { EXPECT_EQ(taken_for("tenderness"), "tenderness"); }

TEST_F(SpellingTest, ForgivesOnlyOne) {
  EXPECT_EQ(taken_for("tendernis"), "");
  EXPECT_EQ(taken_for("swilleng"), "");
}

TEST_F(SpellingTest, LeavesShortWordsAlone) {
  EXPECT_EQ(taken_for("calm"), "");
  EXPECT_EQ(taken_for("suppine"), "");  // 7 letters for 6
  EXPECT_EQ(taken_for("finners"), "");  // 7 for 7
  EXPECT_EQ(taken_for("shouldr"), "shoulder");
}

TEST_F(SpellingTest, WantsTheFirstLetterRight) { EXPECT_EQ(taken_for("benderness"), ""); }

TEST_F(SpellingTest, TellsAnotherFormOfAWordFromASlip) {
  EXPECT_EQ(taken_for("elevates"), "");
  EXPECT_EQ(taken_for("shoulders"), "");
  EXPECT_EQ(taken_for("effusions"), "");
}

TEST_F(SpellingTest, DoesNotGuessBetweenTwo) {
  EXPECT_EQ(taken_for("aduction"), "");
  EXPECT_EQ(taken_for("abduxtion"), "abduction");
  EXPECT_EQ(taken_for("flexiion"), "flexion");
}

TEST_F(SpellingTest, PassesOverEndlessWords) {
  EXPECT_EQ(taken_for(""), "");
  EXPECT_EQ(taken_for(std::string(100000, 't')), "");
}

}  // namespace
}  // namespace jointledger
