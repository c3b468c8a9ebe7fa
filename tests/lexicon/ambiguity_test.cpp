// Words with several meanings, resolved by what stands around them: read as examination text, by whole entries.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "../reading/cells.h"
#include "../reading/shipped.h"

namespace jointledger {
namespace {

struct Case {
  std::string_view text;
  std::string_view entries;
};

void expect_read(std::initializer_list<Case> cases) {
  for (const Case& c : cases) {
    EXPECT_EQ(testing::text_of(testing::cells_of(testing::read_exam(c.text))), c.entries) << c.text;
  }
}

TEST(Ambiguity, AbbreviationsInSentences) {
  expect_read({
      {"R elbow ROM WNL.", "elbow range_of_motion right normal"},
      {"L hip FROM.", "hip range_of_motion left normal"},
      {"R ankle TTP.", "ankle palpation right abnormal"},
      {"BL knees nontender.", "knee palpation both normal"},
      {"DTRs 2+ throughout.", "whole_body reflexes midline normal"},
      {"Left foot NVI.", "foot sensation left normal; foot perfusion left normal"},
      {"SLR negative on the left.", "lumbar_spine special_test left normal"},
      {"Right AC joint tender, left SC joint nontender.",
       "shoulder palpation left normal; shoulder palpation right abnormal"},
      {"Left third MCP swollen.", "hand inspection left abnormal"},
      {"Right PIP joints tender.", "hand palpation right abnormal"},
      {"Left thumb CMC tender.", "hand palpation left abnormal"},
      {"TMJ nontender.", "temporomandibular palpation midline normal"},
      {"C-spine nontender.", "cervical_spine palpation midline normal"},
      {"T-spine: no deformity.", "thoracic_spine inspection midline normal"},
      {"L-spine: full ROM.", "lumbar_spine range_of_motion midline normal"},
  });
}

TEST(Ambiguity, DipIsAJointInCapitals) {
  expect_read({
      {"Left index DIP swollen.", "hand inspection left abnormal"},
      {"DIP joints of both hands nontender.", "hand palpation both normal"},
      {"Urine dip is negative.", "-"},
      {"He took a dip in the pool.", "-"},
  });
}

TEST(Ambiguity, FromIsAMotionInCapitals) {
  expect_read({
      {"Right knee FROM.", "knee range_of_motion right normal"},
      {"Right knee nontender from the front.", "knee palpation right normal"},
  });
}

TEST(Ambiguity, HandIsNoHandInTurnsOfPhrase) {
  expect_read({
      {"On the other hand, the right knee is nontender.", "knee palpation right normal"},
      {"Right-hand dominant; the left elbow is nontender.", "elbow palpation left normal"},
      {"The right hand is tender.", "hand palpation right abnormal"},
  });
}

TEST(Ambiguity, LeftIsNoSideAsAVerb) {
  expect_read({
      {"She left the clinic with a normal gait.", "whole_body gait midline normal"},
      {"There is no tenderness left in the right shoulder.", "shoulder palpation right normal"},
      {"The left shoulder is nontender.", "shoulder palpation left normal"},
  });
}

TEST(Ambiguity, LettersAreSidesOnlyBesideAPlace) {
  expect_read({
      {"Tender at L4.", "lumbar_spine palpation midline abnormal"},
      {"Tender at L4-L5 and at C5-6.",
       "cervical_spine palpation midline abnormal; lumbar_spine palpation midline abnormal"},
      {"L knee nontender, R knee tender.", "knee palpation left normal; knee palpation right abnormal"},
      {"Sensation decreased in the L5 dermatome of the right leg.", "lower_extremity sensation right abnormal"},
  });
}

TEST(Ambiguity, BackIsNoPlaceAsAnAdverb) {
  expect_read({
      {"He will come back in two weeks; the right elbow is nontender.", "elbow palpation right normal"},
      {"He sat back while the right wrist was palpated without tenderness.", "wrist palpation right normal"},
      {"Back nontender.", "spine palpation midline normal"},
  });
}

TEST(Ambiguity, ExtensionIsNoMotionOfACord) {
  expect_read({
      {"He tripped over an extension cord; the left ankle is swollen.", "ankle inspection left abnormal"},
      {"Left knee extension is full.", "knee range_of_motion left normal [extension]"},
  });
}

TEST(Ambiguity, FeetAreNoFeetAsAMeasure) {
  expect_read({
      {"He is six feet tall; the right foot is tender.", "foot palpation right abnormal"},
      {"Right knee nontender at the foot of the bed.", "knee palpation right normal"},
  });
}

}  // namespace
}  // namespace jointledger
