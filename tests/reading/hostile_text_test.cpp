// Texts that nobody would write must not hang or flood the reading, and a long one can be stopped.
#include <gtest/gtest.h>

#include <string>

#include "reading/reader.h"
#include "shipped.h"

namespace jointledger {
namespace {

std::string repeated(std::string_view text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all.append(text);
  return all;
}

TEST(HostileText, SayingTheSameOfEachSideInTurnDoesNotDouble) {
  // Copies of copies would be some 2^64 here.
  const Ledger ledger =
      testing::read_exam("Right knee: no swelling. " + repeated("Same on the left. Same on the right. ", 32));
  ASSERT_EQ(ledger.entries.size(), 2U);
  EXPECT_EQ(ledger.entries[0].side, Side::left);
  EXPECT_EQ(ledger.entries[1].side, Side::right);
  for (const Entry& entry : ledger.entries) {
    EXPECT_EQ(entry.region, Region::knee);
    EXPECT_EQ(entry.outcome, Outcome::normal);
  }
}

TEST(HostileText, ASentenceWithoutEndIsReadToItsEnd) {
  const Ledger ledger = testing::read_exam("Right elbow: no swelling, " + repeated("and so on, ", 10'000) +
                                           "left ankle: marked swelling");
  ASSERT_EQ(ledger.entries.size(), 2U);
  EXPECT_EQ(ledger.entries[0].region, Region::elbow);
  EXPECT_EQ(ledger.entries[1].region, Region::ankle);
}

TEST(HostileText, AReadingThatIsAskedToStopGoesNoFurther) {
  struct Asked {
    int times = 0;
    int stop_at = 0;
  };
  const std::string note = "EXAM:\n" + repeated("Right knee: no swelling.\n", 1000);
  const auto ask = [&](int stop_at) {
    Asked asked{.stop_at = stop_at};
    ReadingScratch scratch;
    scratch.watch({[](void* context) {
                     auto& a = *static_cast<Asked*>(context);
                     return ++a.times == a.stop_at;
                   },
                   &asked});
    read_note(testing::shipped_lexicon(), note, scratch);
    return asked.times;
  };
  EXPECT_EQ(ask(3), 3);
  EXPECT_GE(ask(-1), 1000);  // never: about once a sentence
}

TEST(HostileText, WhoeverStoppedAReadingCanReadOn) {
  const std::string note = "EXAM:\nRight knee: no swelling. Left knee: no swelling.";
  ReadingScratch scratch;
  scratch.watch({[](void*) { return true; }, nullptr});
  EXPECT_TRUE(read_note(testing::shipped_lexicon(), note, scratch).entries.empty());
  scratch.watch({});
  EXPECT_FALSE(read_note(testing::shipped_lexicon(), note, scratch).entries.empty());
}

}  // namespace
}  // namespace jointledger
