// Exam texts that repeat an earlier note's.
#include "batch/repeats.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>
#include <vector>

namespace jointledger {
namespace {

ExamPrint print(const std::string& text) {
  const Span all{0, static_cast<std::uint32_t>(text.size())};
  return print_of(text, std::span(&all, 1));
}

/// `count` words that no other `seed` has.
std::string words(const std::string& seed, int count, int from = 0) {
  std::string text;
  for (int i = from; i < from + count; ++i) text.append(seed).append(std::to_string(i)).append(" is fine. ");
  return text;
}

TEST(ExamPrints, DoNotSeeCasePunctuationAndLines) {
  const ExamPrint a = print("Left knee: no swelling, full motion.");
  const ExamPrint b = print("LEFT KNEE\n  no swelling; full motion");
  EXPECT_EQ(a.shingles, b.shingles);
  EXPECT_EQ(a.bands, b.bands);
}

TEST(ExamPrints, TakeTheSpansTogether) {
  const std::string note = "one two HISTORY three four five";
  const std::vector<Span> exam = {{0, 7}, {16, 31}};
  EXPECT_EQ(print_of(note, exam).shingles, print("one two three four five").shingles);
}

TEST(ExamPrints, AreTheSameOnEveryMachine) {
  // A changed hash would part the batches of one release from those of the next.
  EXPECT_EQ(print("left knee without swelling").shingles, (std::vector<std::uint32_t>{3742865726U}));
}

TEST(ExamPrints, OfShortTextsAreEmpty) {
  EXPECT_EQ(print("").distinct, 0U);
  EXPECT_EQ(print("three words only").distinct, 0U);
  EXPECT_EQ(share_within(print(""), print("")), 0.0);
}

TEST(Shares, AreExactForShortTexts) {
  const ExamPrint whole = print(words("a", 40));
  const ExamPrint half = print(words("a", 20));
  EXPECT_DOUBLE_EQ(share_within(half, whole), 1.0);
  EXPECT_NEAR(share_within(whole, half), 0.5, 0.03);
  EXPECT_DOUBLE_EQ(share_within(whole, print(words("b", 40))), 0.0);
}

TEST(Shares, AreNearForLongTexts) {
  const std::string common = words("a", 900);
  const ExamPrint a = print(common + words("b", 100));
  const ExamPrint b = print(common + words("c", 100));
  ASSERT_GT(a.distinct, ExamPrint::kKept);
  EXPECT_NEAR(share_within(a, b), 0.9, 0.06);
  EXPECT_DOUBLE_EQ(share_within(a, a), 1.0);
}

TEST(Repeats, SameAuthorOrSamePatient) {
  const std::string exam = words("a", 30);
  RepeatFinder finder;
  EXPECT_FALSE(finder.add("1", "author", "patient", print(exam)));
  const auto by_author = finder.add("2", "author", "another", print(exam + "no edema"));
  ASSERT_TRUE(by_author);
  EXPECT_EQ(by_author->note, "1");
  EXPECT_TRUE(by_author->same_author);
  EXPECT_FALSE(by_author->same_patient);
  EXPECT_GT(by_author->share, 0.95);
  EXPECT_LT(by_author->share, 1.0);
  const auto of_patient = finder.add("3", "somebody", "patient", print(exam));
  ASSERT_TRUE(of_patient);
  EXPECT_EQ(of_patient->note, "1");
  EXPECT_TRUE(of_patient->same_patient);
}

TEST(Repeats, NotOfStrangers) {
  const std::string exam = words("a", 30);
  RepeatFinder finder;
  EXPECT_FALSE(finder.add("1", "author", "patient", print(exam)));
  EXPECT_FALSE(finder.add("2", "b", "c", print(exam)));
  EXPECT_FALSE(finder.add("3", "", "", print(exam)));
  EXPECT_FALSE(finder.add("4", "patient", "author", print(exam))) << "a patient's code that is also an author's";
}

TEST(Repeats, NotOfWhatIsShortOrDifferent) {
  RepeatFinder finder;
  const std::string brief = "Left knee not swollen and not tender, moves fully.";
  EXPECT_FALSE(finder.add("1", "a", "", print(brief)));
  EXPECT_FALSE(finder.add("2", "a", "", print(brief)));
  EXPECT_FALSE(finder.add("3", "a", "", print(words("a", 40))));
  EXPECT_FALSE(finder.add("4", "a", "", print(words("a", 25) + words("b", 15)))) << "a quarter is new";
}

TEST(Repeats, NotOfWhatHasEndlessNames) {
  RepeatFinder finder;
  const std::string exam = words("a", 30);
  const std::string endless(RepeatFinder::kLongestNames, 'x');
  EXPECT_FALSE(finder.add("1", endless, "", print(exam)));
  EXPECT_FALSE(finder.add("2", endless, "", print(exam)));
  EXPECT_FALSE(finder.oldest_record());
}

TEST(Repeats, TheFullestThenTheLatest) {
  const std::string exam = words("a", 40);
  RepeatFinder finder;
  EXPECT_FALSE(finder.add("1", "a", "", print(exam + words("b", 8))));
  ASSERT_TRUE(finder.add("2", "a", "", print(exam)));
  ASSERT_TRUE(finder.add("3", "a", "", print(exam)));
  const auto found = finder.add("4", "a", "", print(exam));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->note, "3");
  EXPECT_DOUBLE_EQ(found->share, 1.0);
}

TEST(Repeats, ForgetWhatIsTooLongAgo) {
  RepeatFinder finder(3);
  EXPECT_FALSE(finder.add("old", "a", "", print(words("old", 30))));
  EXPECT_TRUE(finder.add("again", "a", "", print(words("old", 30))));
  for (int i = 0; i < 3; ++i)
    EXPECT_FALSE(finder.add(std::to_string(i), "a", "", print(words("n" + std::to_string(i), 30))));
  EXPECT_FALSE(finder.add("late", "a", "", print(words("old", 30)))) << "three notes have passed";
  const auto found = finder.add("next", "a", "", print(words("n2", 30)));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->note, "2");
}

TEST(Repeats, OneThatIsShownWhatIsRememberedKnowsAsMuch) {
  const auto exam = [](int i) { return print(words("x" + std::to_string(i * 7 % 13), 30)); };
  const auto author = [](int i) { return std::string(i % 3 == 0 ? "" : "a"); };
  const auto add = [&](RepeatFinder& finder, int i) {
    return finder.add(std::to_string(i), author(i), "", exam(i), static_cast<std::uint64_t>(i));
  };
  for (int stop = 0; stop < 40; ++stop) {
    RepeatFinder whole(8);
    EXPECT_FALSE(whole.oldest_record());
    for (int i = 0; i < stop; ++i) add(whole, i);
    RepeatFinder again(8);
    const auto from = static_cast<int>(whole.oldest_record().value_or(static_cast<std::uint64_t>(stop)));
    for (int i = from; i < stop; ++i) add(again, i);
    for (int i = stop; i < 60; ++i) {
      const auto a = add(whole, i);
      const auto b = add(again, i);
      ASSERT_EQ(a.has_value(), b.has_value()) << stop << " " << i;
      if (a) {
        EXPECT_EQ(a->note, b->note);
      }
    }
  }
}

TEST(Repeats, LongRunsWithManyCopiesKeepTheirAnswers) {
  RepeatFinder finder(50);
  for (int i = 0; i < 500; ++i) {
    const auto found = finder.add(std::to_string(i), "a", "", print(words("x" + std::to_string(i % 20), 30)));
    ASSERT_EQ(found.has_value(), i >= 20) << i;
    if (found) {
      EXPECT_EQ(found->note, std::to_string(i - 20));
    }
  }
}

}  // namespace
}  // namespace jointledger
