// Ledgers held against themselves, without any text: which remarks, sides, values and joint states clash.
#include "audit/consistency.h"

#include <gtest/gtest.h>

#include <string>

#include "audit_fixture.h"

namespace jointledger {
namespace {

using testing::LedgerOf;

Remark remark(Outcome outcome, std::string_view subject, std::uint32_t sentence) {
  Remark r;
  r.region = Region::elbow;
  r.component = Component::inspection;
  r.side = Side::right;
  r.outcome = outcome;
  r.subjects.push_back(subject);
  r.sentence = sentence;
  r.exam = 1;
  r.evidence.push_back({10 * sentence, 10 * sentence + 5});
  return r;
}

/// A normal and an abnormal remark that clash unless a test changes them.
struct Pair {
  Remark normal = remark(Outcome::normal, "swelling", 1);
  Remark abnormal = remark(Outcome::abnormal, "swelling", 2);
  std::vector<Inconsistency> check() const {
    Ledger ledger;
    ledger.remarks = {normal, abnormal};
    return inconsistencies(ledger, {}, {});
  }
};

TEST(Contradictions, AreFoundOnceWithBothPiecesOfEvidence) {
  Pair pair;
  const auto found = pair.check();
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].check, Check::contradiction);
  EXPECT_EQ(found[0].region, Region::elbow);
  EXPECT_EQ(found[0].side, Side::right);
  EXPECT_EQ(found[0].component, Component::inspection);
  EXPECT_EQ(found[0].first, (std::vector<Span>{{10, 15}}));
  EXPECT_EQ(found[0].second, (std::vector<Span>{{20, 25}}));
  EXPECT_EQ(found[0].message.find("swelling"), std::string::npos) << "a message states no finding";
  EXPECT_NE(found[0].message.find('?'), std::string::npos);
}

TEST(Contradictions, PutTheEarlierWordsFirst) {
  Pair pair;
  std::swap(pair.normal.sentence, pair.abnormal.sentence);
  std::swap(pair.normal.evidence, pair.abnormal.evidence);
  EXPECT_EQ(pair.check().at(0).first, (std::vector<Span>{{10, 15}}));
}

TEST(Contradictions, ABothSidedRemarkClashesWithASidedOne) {
  Pair pair;
  pair.normal.side = Side::both;
  EXPECT_EQ(pair.check().at(0).side, Side::right);
}

struct Change {
  const char* name;
  void (*apply)(Pair&);
};
class NoContradiction : public ::testing::TestWithParam<Change> {};

TEST_P(NoContradiction, WhereTheRemarksAreNotOfTheSameThing) {
  Pair pair;
  GetParam().apply(pair);
  EXPECT_TRUE(pair.check().empty());
}

INSTANTIATE_TEST_SUITE_P(
    All, NoContradiction,
    ::testing::Values(Change{"other_finding", [](Pair& p) { p.abnormal.subjects.assign(1, "bruising"); }},
                      Change{"other_side", [](Pair& p) { p.abnormal.side = Side::left; }},
                      Change{"other_region", [](Pair& p) { p.abnormal.region = Region::wrist; }},
                      Change{"other_component", [](Pair& p) { p.abnormal.component = Component::palpation; }},
                      Change{"other_exam", [](Pair& p) { p.abnormal.exam = 2; }},
                      Change{"one_sentence", [](Pair& p) { p.abnormal.sentence = 1; }},
                      Change{"normal_is_narrower", [](Pair& p) { p.normal.narrowed.push_back("lateral"); }},
                      Change{"other_place",
                             [](Pair& p) {
                               p.normal.narrowed.push_back("lateral");
                               p.abnormal.narrowed.push_back("medial");
                             }},
                      Change{"other_motion",
                             [](Pair& p) {
                               p.normal.motions.insert(Motion::flexion);
                               p.abnormal.motions.insert(Motion::extension);
                             }},
                      Change{"one_motion_of_all", [](Pair& p) { p.normal.motions.insert(Motion::flexion); }}),
    [](const auto& test) { return test.param.name; });

TEST(Contradictions, ARemarkOnTheWholeClashesWithOneOnAPart) {
  Pair motions;
  motions.abnormal.motions.insert(Motion::flexion);
  EXPECT_EQ(motions.check().size(), 1U);
  Pair places;
  places.abnormal.narrowed.push_back("medial");
  EXPECT_EQ(places.check().size(), 1U);
}

TEST(Contradictions, OneFindingACell) {
  Pair pair;
  Ledger ledger;
  ledger.remarks = {pair.normal, pair.abnormal, remark(Outcome::abnormal, "swelling", 3)};
  EXPECT_EQ(inconsistencies(ledger, {}, {}).size(), 1U);
}

// ---- sides ---------------------------------------------------------------------------------------------------------

Ledger left_complaint_right_exam() {
  Ledger ledger =
      LedgerOf().entry(Region::shoulder, Component::inspection, Side::right).complaint(Region::shoulder, Side::left);
  ledger.complaints[0].evidence = {1, 5};
  ledger.named_in_exam.push_back({Region::shoulder, Side::right, {20, 30}});
  return ledger;
}

TEST(Contradictions, AreSoughtAmongAsManyRemarksAsAnExaminerMakes) {
  const Pair pair;
  Ledger ledger;
  ledger.remarks.assign(4095, remark(Outcome::normal, "warmth", 3));
  ledger.remarks.insert(ledger.remarks.begin() + 4094, pair.normal);
  ledger.remarks.insert(ledger.remarks.begin() + 4095, pair.abnormal);
  EXPECT_EQ(inconsistencies(ledger, {}, {}).size(), 1U);
  ledger.remarks.insert(ledger.remarks.begin(), remark(Outcome::normal, "warmth", 3));  // moves them one further
  EXPECT_TRUE(inconsistencies(ledger, {}, {}).empty());
}

TEST(SideConflicts, ComplaintOnOneSideExamOnTheOther) {
  const auto found = inconsistencies(left_complaint_right_exam(), {}, {});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].check, Check::side_conflict);
  EXPECT_EQ(found[0].side, Side::left);
  EXPECT_EQ(found[0].first, (std::vector<Span>{{1, 5}}));
  EXPECT_EQ(found[0].second, (std::vector<Span>{{20, 30}}));
}

struct LedgerChange {
  const char* name;
  void (*apply)(Ledger&);
};
class NoSideConflict : public ::testing::TestWithParam<LedgerChange> {};

TEST_P(NoSideConflict, WhereTheComplaintSideMayBeMeant) {
  Ledger ledger = left_complaint_right_exam();
  GetParam().apply(ledger);
  EXPECT_TRUE(inconsistencies(ledger, {}, {}).empty());
}

INSTANTIATE_TEST_SUITE_P(
    All, NoSideConflict,
    ::testing::Values(LedgerChange{"examined_on_both", [](Ledger& l) { l.entries[0].side = Side::both; }},
                      LedgerChange{"examined_without_side", [](Ledger& l) { l.entries[0].side = Side::unstated; }},
                      LedgerChange{"side_named_in_passing",
                                   [](Ledger& l) {
                                     l.named_in_exam.push_back({Region::shoulder, Side::left, {}});
                                   }},
                      LedgerChange{"limb_named",
                                   [](Ledger& l) {
                                     l.named_in_exam.push_back({Region::upper_extremity, Side::left, {}});
                                   }},
                      LedgerChange{"neighbour_named",
                                   [](Ledger& l) {
                                     l.named_in_exam.push_back({Region::upper_arm, Side::left, {}});
                                   }},
                      LedgerChange{"side_by_itself",
                                   [](Ledger& l) {
                                     l.named_in_exam.push_back({Region::whole_body, Side::left, {}});
                                   }},
                      LedgerChange{"both_complained_of", [](Ledger& l) { l.complaints[0].side = Side::both; }},
                      LedgerChange{"two_complaints",
                                   [](Ledger& l) {
                                     l.complaints.push_back({Region::shoulder, Side::right, {}, false});
                                   }},
                      LedgerChange{"side_only_carried", [](Ledger& l) { l.named_in_exam.clear(); }},
                      LedgerChange{"not_done", [](Ledger& l) { l.entries[0].outcome = Outcome::not_done; }}),
    [](const auto& test) { return test.param.name; });

TEST(SideConflicts, ASideInTheOtherLimbIsNoExcuse) {
  Ledger ledger = left_complaint_right_exam();
  ledger.named_in_exam.push_back({Region::knee, Side::left, {}});
  EXPECT_EQ(inconsistencies(ledger, {}, {}).size(), 1U);
}

TEST(SideConflicts, AssessmentAgainstComplaint) {
  Ledger ledger = LedgerOf().complaint(Region::hip, Side::left);
  ledger.named_in_assessment.push_back({Region::hip, Side::right, {40, 50}});
  ASSERT_EQ(inconsistencies(ledger, {}, {}).size(), 1U);
  ledger.named_in_assessment.push_back({Region::hip, Side::unstated, {}});
  EXPECT_TRUE(inconsistencies(ledger, {}, {}).empty())
      << "an assessment that also names it without a side may mean the other";
}

TEST(SideConflicts, AssessmentAgainstExamWithoutComplaint) {
  Ledger ledger = left_complaint_right_exam();
  ledger.complaints.clear();
  ledger.named_in_assessment.push_back({Region::shoulder, Side::left, {40, 50}});
  EXPECT_EQ(inconsistencies(ledger, {}, {}).size(), 1U);
}

TEST(SideSlips, AreOneFindingAHeading) {
  Ledger ledger;
  ledger.side_slips = {{Region::knee, Side::right, {0, 10}, {20, 29}}, {Region::knee, Side::right, {0, 10}, {40, 49}}};
  const auto found = inconsistencies(ledger, {}, {});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].first, (std::vector<Span>{{0, 10}}));
  EXPECT_EQ(found[0].second, (std::vector<Span>{{20, 29}, {40, 49}}));
}

// ---- values --------------------------------------------------------------------------------------------------------

const MotionLimits kLimits = {{Region::knee, Motion::flexion, 140, 160},
                              {Region::knee, Motion::extension, 0, 30},
                              {Region::ankle, Motion::dorsiflexion, 20, 50}};

std::size_t implausible(const Ledger& ledger) { return inconsistencies(ledger, kLimits, {}).size(); }

TEST(ImplausibleValues, MotionBeyondItsLimit) {
  const auto knee = [] { return LedgerOf().entry(Region::knee, Component::range_of_motion, Side::right); };
  EXPECT_EQ(implausible(knee().degrees(Motion::flexion, std::nullopt, 190)), 1U);
  EXPECT_EQ(implausible(knee().degrees(Motion::flexion, 0, 190)), 1U);
  EXPECT_EQ(implausible(knee().degrees(std::nullopt, 0, 190)), 1U);
  EXPECT_EQ(implausible(knee().degrees(Motion::flexion, std::nullopt, 160)), 0U);
  EXPECT_EQ(implausible(knee().degrees(Motion::extension, std::nullopt, 140)), 0U)
      << "the figure of the other end of the hinge";
  EXPECT_EQ(implausible(knee().degrees(Motion::rotation, std::nullopt, 190)), 0U) << "no limit is known";
  EXPECT_EQ(implausible(LedgerOf()
                            .entry(Region::ankle, Component::range_of_motion, Side::left)
                            .degrees(Motion::dorsiflexion, std::nullopt, 70)),
            1U);
  EXPECT_TRUE(inconsistencies(knee().degrees(Motion::flexion, std::nullopt, 190), {}, {}).empty()) << "without limits";
}

Ledger graded(Component component, int tenths, int scale) {
  Ledger ledger = LedgerOf().entry(Region::knee, component, Side::right).grade(tenths);
  ledger.entries[0].grades[0].scale = scale;
  return ledger;
}

TEST(ImplausibleValues, GradeOffItsScale) {
  EXPECT_EQ(implausible(graded(Component::strength, 60, 5)), 1U);
  EXPECT_EQ(implausible(graded(Component::strength, 50, 5)), 0U);
  EXPECT_EQ(implausible(graded(Component::strength, 53, 5)), 0U) << "5+ is loose, but no slip";
  EXPECT_EQ(implausible(graded(Component::reflexes, 53, 4)), 1U);
  EXPECT_EQ(implausible(graded(Component::reflexes, 43, 4)), 0U);
  EXPECT_EQ(implausible(graded(Component::inspection, 53, 4)), 0U);
}

TEST(ImplausibleValues, OneFindingForAFigureOfBothSides) {
  Ledger ledger = LedgerOf()
                      .entry(Region::knee, Component::strength, Side::left)
                      .grade(60)
                      .entry(Region::knee, Component::strength, Side::right)
                      .grade(60);
  EXPECT_EQ(implausible(ledger), 1U);
}

// ---- joints that are not there -------------------------------------------------------------------------------------

std::size_t missing(JointState::Kind kind, Region region, Side side, const Ledger& base) {
  Ledger ledger = base;
  ledger.joint_states.push_back({kind, region, side, {100, 110}});
  return inconsistencies(ledger, {}, {}).size();
}

TEST(MissingJoints, AnythingNormalFromThereOn) {
  using enum Region;
  const auto absent = JointState::Kind::absent;
  const auto felt = [](Side side, Outcome outcome = Outcome::normal) {
    return LedgerOf().entry(Region::foot, Component::sensation, side, outcome);
  };
  EXPECT_EQ(missing(absent, ankle, Side::left, felt(Side::left)), 1U);
  EXPECT_EQ(missing(absent, ankle, Side::left, felt(Side::both)), 1U);
  EXPECT_EQ(missing(absent, ankle, Side::left, felt(Side::right)), 0U);
  EXPECT_EQ(missing(absent, ankle, Side::left, felt(Side::left, Outcome::abnormal)), 0U);
  EXPECT_EQ(missing(absent, ankle, Side::left, felt(Side::left, Outcome::not_done)), 0U);
  EXPECT_EQ(missing(absent, ankle, Side::left, LedgerOf().entry(knee, Component::inspection, Side::left)), 0U)
      << "above the stump";
  EXPECT_EQ(missing(absent, ankle, Side::left, LedgerOf().entry(lower_extremity, Component::inspection, Side::left)),
            0U)
      << "a group";
}

TEST(MissingJoints, OnlyTheMotionOfAFusedOne) {
  const auto fused = JointState::Kind::fused;
  EXPECT_EQ(missing(fused, Region::ankle, Side::left,
                    LedgerOf().entry(Region::ankle, Component::range_of_motion, Side::left)),
            1U);
  EXPECT_EQ(
      missing(fused, Region::ankle, Side::left, LedgerOf().entry(Region::ankle, Component::palpation, Side::left)), 0U);
  EXPECT_EQ(
      missing(fused, Region::ankle, Side::left, LedgerOf().entry(Region::foot, Component::range_of_motion, Side::left)),
      0U);
}

// ---- the whole -----------------------------------------------------------------------------------------------------

TEST(CopiedExam, TellsTheShareAndTheOtherNote) {
  const std::vector<Span> exam = {{5, 50}};
  const Inconsistency found = copied_exam(exam, "visit-3", 0.943);
  EXPECT_EQ(found.check, Check::copied_exam);
  EXPECT_EQ(found.first, exam);
  EXPECT_EQ(found.other_note, "visit-3");
  EXPECT_NE(found.message.find("94 %"), std::string::npos);
  EXPECT_NE(found.message.find("visit-3"), std::string::npos);
}

TEST(Checks, EachCanBeSwitchedOff) {
  CheckSet off;
  off.insert(Check::side_conflict);
  EXPECT_TRUE(inconsistencies(left_complaint_right_exam(), {}, off).empty());
}

TEST(Checks, LeaveTheScoreAlone) {
  Profile profile = testing::profile(
      {testing::on_one_side(testing::expectation("shoulder", Region::shoulder, Component::inspection))});
  const Ledger ledger = left_complaint_right_exam();
  const Audit with_checks = audit(profile, ledger);
  EXPECT_EQ(with_checks.inconsistencies.size(), 1U);
  profile.checks_off.insert(Check::side_conflict);
  const Audit without = audit(profile, ledger);
  EXPECT_TRUE(without.inconsistencies.empty());
  EXPECT_EQ(with_checks.score, without.score);
  EXPECT_EQ(with_checks.gaps.size(), without.gaps.size());
}

}  // namespace
}  // namespace jointledger
