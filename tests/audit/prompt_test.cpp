// The words of prompts: they ask, and never answer.
#include "audit/prompt.h"

#include <gtest/gtest.h>

#include <cctype>
#include <set>
#include <string>
#include <utility>

#include "builders.h"

namespace jointledger {
namespace {

using testing::motions;

Gap gap(Region region, Side side, std::vector<Component> components, MotionSet missing = {},
        Reason reason = Reason::not_mentioned) {
  Gap g;
  g.region = region;
  g.side = side;
  g.components = std::move(components);
  g.motions = missing;
  g.reason = reason;
  return g;
}

TEST(Prompt, NamesSideRegionAndMotions) {
  EXPECT_EQ(prompt_for(gap(Region::shoulder, Side::left, {Component::range_of_motion},
                           motions({Motion::flexion, Motion::abduction}))),
            "Left shoulder motion: flexion ___, abduction ___, or why not tested");
}

TEST(Prompt, SetsMotionOffFromAPlural) {
  EXPECT_EQ(prompt_for(gap(Region::hip, Side::both, {Component::range_of_motion}, motions({Motion::flexion}))),
            "Both hips, motion: flexion ___, or why not tested");
}

TEST(Prompt, NamesTheComponentAndWhatItIsAbout) {
  EXPECT_EQ(prompt_for(gap(Region::knee, Side::both, {Component::palpation})),
            "Both knees, palpation (tenderness, warmth, effusion): ___, or why not examined");
  EXPECT_EQ(prompt_for(gap(Region::cervical_spine, Side::midline, {Component::palpation})),
            "Neck, palpation (tenderness, muscle tone): ___, or why not examined");
}

TEST(Prompt, OffersAChoiceOfComponents) {
  EXPECT_EQ(
      prompt_for(gap(Region::ankle, Side::right, {Component::strength, Component::stability, Component::special_test})),
      "Right ankle, strength, stability or named test (which, and its result): ___, or why not examined");
}

TEST(Prompt, LeavesALongChoiceOpen) {
  EXPECT_EQ(prompt_for(gap(Region::hip, Side::both,
                           {Component::inspection, Component::palpation, Component::strength, Component::stability})),
            "Both hips, any part of the exam (which, and its result): ___, or why not examined");
}

TEST(Prompt, NamesStructuresInPlainWords) {
  Gap g = gap(Region::shoulder, Side::left, {Component::palpation});
  g.structures = {"acromion", "biceps_groove"};
  EXPECT_EQ(prompt_for(g), "Left shoulder, palpation: acromion ___, biceps groove ___, or why not examined");
}

TEST(Prompt, AsksForTheSideWhereTheNoteGivesNone) {
  EXPECT_EQ(prompt_for(gap(Region::knee, Side::unstated, {Component::range_of_motion}, motions({Motion::flexion}),
                           Reason::one_side_only)),
            "Left and right knee motion: flexion ___, each side by name, or why not examined");
  EXPECT_EQ(prompt_for(gap(Region::knee, Side::unstated, {Component::strength})),
            "Knee, strength (which muscles, grade out of 5): ___, or why not examined");
}

TEST(Prompt, AsksForTheReasonOfADeferral) {
  EXPECT_EQ(prompt_for(gap(Region::hip, Side::left, {Component::range_of_motion}, motions({Motion::flexion}),
                           Reason::deferred_without_reason)),
            "Left hip motion: flexion ___, or the reason for not examining ___");
}

TEST(Prompt, AsksForTheResult) {
  EXPECT_EQ(prompt_for(gap(Region::wrist, Side::right, {Component::sensation}, {}, Reason::no_result_stated)),
            "Right wrist, sensation (where, how tested): ___, the result in words or figures");
}

TEST(Prompt, GaitIsOfTheWholePerson) {
  EXPECT_EQ(prompt_for(gap(Region::whole_body, Side::midline, {Component::gait})),
            "Gait (walking, standing, aids): ___, or why not examined");
}

TEST(Prompt, SaysThatFurtherDownWillDo) {
  Expectation e;
  e.distally = true;
  Gap g = gap(Region::knee, Side::right, {Component::perfusion});
  g.expectation = &e;
  EXPECT_EQ(prompt_for(g),
            "Right knee or further down the limb, perfusion (which pulse, capillary refill): ___, or why not examined");
}

TEST(Prompt, SaysThatTheLimbsOfASpineWillDo) {
  Expectation e;
  e.distally = true;
  Gap g = gap(Region::cervical_spine, Side::midline, {Component::reflexes});
  g.expectation = &e;
  EXPECT_EQ(prompt_for(g), "Neck or the limbs that it supplies, reflexes (which, grade): ___, or why not examined");
}

TEST(Prompt, PlacesReadAsEnglish) {
  EXPECT_EQ(place(Region::foot, Side::both), "both feet");
  EXPECT_EQ(place(Region::lower_leg, Side::left), "left lower leg");
  EXPECT_EQ(place(Region::lumbar_spine, Side::midline), "lumbar spine");
  EXPECT_EQ(phrase(Component::range_of_motion), "range of motion");
  EXPECT_EQ(phrase(Motion::internal_rotation), "internal rotation");
}

std::set<std::string> words_of(const std::string& text) {
  std::set<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
      word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!word.empty()) {
      words.insert(std::exchange(word, {}));
    }
  }
  return words;
}

// Words that say what was found, or that nothing was. "tenderness" names what to feel for; "tender" would be a finding.
TEST(Prompt, NeverStatesAFinding) {
  const std::set<std::string> kFindings = {
      "normal",   "abnormal", "intact",  "full",     "symmetric", "symmetrical", "unremarkable", "negative",
      "positive", "no",       "none",    "without",  "denies",    "tender",      "nontender",    "swollen",
      "warm",     "red",      "reduced", "limited",  "decreased", "increased",   "weak",         "stable",
      "unstable", "stiff",    "painful", "painless", "present",   "absent",      "good",         "equal",
      "within",   "limits",   "wnl",     "nl",       "deformed",  "free",        "preserved",    "is",
      "has",      "was",      "are",     "were"};
  const Side kSides[] = {Side::left, Side::right, Side::both, Side::midline, Side::unstated};
  MotionSet every;
  for (std::size_t m = 0; m < kMotionCount; ++m) every.insert(static_cast<Motion>(m));
  for (std::size_t r = 0; r < kRegionCount; ++r) {
    for (std::size_t c = 0; c < kComponentCount; ++c) {
      for (const Side side : kSides) {
        for (std::size_t why = 0; why < kReasonCount; ++why) {
          const auto component = static_cast<Component>(c);
          const Gap g = gap(static_cast<Region>(r), side, {component},
                            component == Component::range_of_motion ? every : MotionSet{}, static_cast<Reason>(why));
          const std::string prompt = prompt_for(g);
          EXPECT_NE(prompt.find("___"), std::string::npos) << prompt;
          EXPECT_EQ(prompt.find('\n'), std::string::npos) << prompt;
          EXPECT_EQ(std::isupper(static_cast<unsigned char>(prompt.front())) != 0, true) << prompt;
          for (const std::string& word : words_of(prompt)) EXPECT_FALSE(kFindings.contains(word)) << prompt;
        }
      }
    }
  }
}

}  // namespace
}  // namespace jointledger
