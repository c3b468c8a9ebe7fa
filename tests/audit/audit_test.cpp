// Ledgers against expectations: every reason, results, motions, the order of gaps and the score.
#include "audit/audit.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "audit/partial_credit.h"
#include "audit_fixture.h"
#include "builders.h"

namespace jointledger {
namespace {

using namespace testing;  // NOLINT(google-build-using-namespace): builders, meant to read like words

// --- met ---

TEST_F(AuditTest, BothSidesMeetIt) {
  const Audit& a = run(knee_palpation(), LedgerOf().entry(Region::knee, Component::palpation, kBoth));
  EXPECT_TRUE(a.gaps.empty());
  EXPECT_EQ(a.applicable, 1U);
  EXPECT_EQ(a.met, 1U);
  EXPECT_DOUBLE_EQ(a.score, 1.0);
  EXPECT_FALSE(a.lacks_required());
  ASSERT_EQ(a.credits.size(), 1U);
  EXPECT_EQ(a.credits[0].side, kBoth);
  EXPECT_EQ(a.credits[0].entries, std::vector<std::uint32_t>{0});
}

TEST_F(AuditTest, LeftAndRightMeetItTogether) {
  const Audit& a = run(knee_palpation(), LedgerOf()
                                             .entry(Region::knee, Component::palpation, kLeft, Outcome::abnormal)
                                             .entry(Region::hip, Component::palpation, kLeft)
                                             .entry(Region::knee, Component::palpation, kRight));
  EXPECT_TRUE(a.gaps.empty());
  ASSERT_EQ(a.credits.size(), 1U);
  EXPECT_EQ(a.credits[0].entries, (std::vector<std::uint32_t>{0, 2}));
}

TEST_F(AuditTest, AnyOfSeveralComponentsWillDo) {
  Expectation e = knee_palpation();
  e.components = {Component::strength, Component::stability, Component::special_test};
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::knee, Component::special_test, kBoth)).gaps.empty());
  EXPECT_EQ(run(e, LedgerOf().entry(Region::knee, Component::palpation, kBoth)).gaps.size(), 1U);
}

TEST_F(AuditTest, WhereNothingAppliesTheScoreIsFull) {
  Expectation e = knee_palpation();
  e.applies = Applies::if_complaint;
  const Audit& a = run(e, LedgerOf());
  EXPECT_DOUBLE_EQ(a.score, 1.0);
  EXPECT_EQ(a.applicable, 0U);
  EXPECT_EQ(a.profile, &profile_);
}

// --- the reasons ---

TEST_F(AuditTest, NotMentioned) {
  const Audit& a = run(knee_palpation(), LedgerOf().entry(Region::hip, Component::palpation, kBoth));
  EXPECT_EQ(gap().reason, Reason::not_mentioned);
  EXPECT_EQ(gap().side, kBoth);
  EXPECT_EQ(gap().components, std::vector{Component::palpation});
  EXPECT_TRUE(gap().nearest.empty());
  EXPECT_DOUBLE_EQ(gap().credit, 0.0);
  EXPECT_DOUBLE_EQ(a.score, 0.0);
  EXPECT_TRUE(a.lacks_required());
}

TEST_F(AuditTest, OneSideOnly) {
  const Audit& a = run(knee_palpation(), LedgerOf().entry(Region::knee, Component::palpation, kLeft));
  EXPECT_EQ(gap().reason, Reason::one_side_only);
  EXPECT_EQ(gap().side, kRight);
  EXPECT_EQ(gap().nearest, (std::vector<Span>{{0, 1}}));
  EXPECT_DOUBLE_EQ(gap().credit, 0.5);
  EXPECT_DOUBLE_EQ(a.score, 0.5);
  EXPECT_TRUE(a.credits.empty());
}

TEST_F(AuditTest, MotionsMissing) {
  run(knee_motion(), LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::abnormal, {Motion::flexion}));
  EXPECT_EQ(gap().reason, Reason::motions_missing);
  EXPECT_EQ(gap().motions, motions({Motion::extension}));
  EXPECT_EQ(gap().side, kBoth);
  EXPECT_DOUBLE_EQ(gap().credit, 0.5);
}

TEST_F(AuditTest, StructuresMissing) {
  Expectation e = knee_palpation();
  e.structures = {"patella", "joint_line"};
  run(e, LedgerOf().entry(Region::knee, Component::palpation, kBoth).structure("joint_line"));
  EXPECT_EQ(gap().reason, Reason::structures_missing);
  EXPECT_EQ(gap().structures, std::vector<std::string_view>{"patella"});
  EXPECT_DOUBLE_EQ(gap().credit, 0.5);
}

TEST_F(AuditTest, NoResultStated) {
  run(knee_palpation(), LedgerOf().entry(Region::knee, Component::palpation, kBoth, Outcome::stated));
  EXPECT_EQ(gap().reason, Reason::no_result_stated);
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.no_result);
}

TEST_F(AuditTest, BlanketOnlyForALimbTooWide) {
  run(knee_palpation(), LedgerOf().entry(Region::lower_extremity, Component::palpation, kBoth));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_EQ(gap().nearest.size(), 1U);
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.limb_only);
  run(knee_palpation(), LedgerOf().entry(Region::whole_body, Component::palpation, Side::midline));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.body_only);
}

TEST_F(AuditTest, BlanketOnlyForNoComponentNamed) {
  run(knee_palpation(), LedgerOf().entry(Region::knee, Component::unspecified, kBoth));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.unspecified);
  run(knee_palpation(), LedgerOf().entry(Region::whole_body, Component::unspecified, Side::midline));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
}

TEST_F(AuditTest, DeferredWithoutReason) {
  run(knee_palpation(), LedgerOf().entry(Region::knee, Component::palpation, kBoth, Outcome::not_done));
  EXPECT_EQ(gap().reason, Reason::deferred_without_reason);
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.deferred);
  run(knee_palpation(), LedgerOf().entry(Region::whole_body, Component::unspecified, Side::midline, Outcome::not_done));
  EXPECT_EQ(gap().reason, Reason::deferred_without_reason);
}

TEST_F(AuditTest, ADeferralHereIsNearerThanAFlourishElsewhere) {
  run(knee_palpation(), LedgerOf()
                            .entry(Region::whole_body, Component::palpation, Side::midline)
                            .entry(Region::knee, Component::palpation, kBoth, Outcome::not_done));
  EXPECT_EQ(gap().reason, Reason::deferred_without_reason);
  EXPECT_EQ(gap().nearest, (std::vector<Span>{{10, 11}}));
}

TEST_F(AuditTest, ReasonsHaveNamesAndPhrases) {
  EXPECT_EQ(name(Reason::one_side_only), "one_side_only");
  EXPECT_EQ(phrase(Reason::blanket_only), "only a blanket remark");
  for (std::size_t i = 0; i < kReasonCount; ++i) {
    EXPECT_FALSE(name(static_cast<Reason>(i)).empty());
    EXPECT_FALSE(phrase(static_cast<Reason>(i)).empty());
  }
}

// --- results ---

TEST_F(AuditTest, FiguresAreAResult) {
  Expectation strength = expectation("s", Region::knee, Component::strength);
  EXPECT_TRUE(run(strength, LedgerOf().entry(Region::knee, Component::strength, kBoth, Outcome::stated).grade(50))
                  .gaps.empty());
  EXPECT_TRUE(run(knee_motion(), LedgerOf()
                                     .entry(Region::knee, kRom, kBoth, Outcome::stated)
                                     .degrees(Motion::flexion, {}, 120)
                                     .degrees(Motion::extension, {}, 0))
                  .gaps.empty());
}

TEST_F(AuditTest, AMotionTriedWithoutAFigureIsMissing) {
  run(knee_motion(), LedgerOf()
                         .entry(Region::knee, kRom, kBoth, Outcome::stated, {Motion::flexion, Motion::extension})
                         .degrees(Motion::flexion, {}, 120));
  EXPECT_EQ(gap().reason, Reason::motions_missing);
  EXPECT_EQ(gap().motions, motions({Motion::extension}));
}

TEST_F(AuditTest, WhereNoResultIsNeededTheRemarkIsEnough) {
  Expectation e = knee_motion();
  e.needs_result = false;
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::stated, {Motion::flexion, Motion::extension}))
                  .gaps.empty());
}

// --- motions ---

TEST_F(AuditTest, FullMotionIsFullInEveryPlane) {
  EXPECT_TRUE(run(knee_motion(), LedgerOf().entry(Region::knee, kRom, kBoth)).gaps.empty());
}

TEST_F(AuditTest, OneNormalMotionIsThatMotionOnly) {
  run(knee_motion(), LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::normal, {Motion::flexion}));
  EXPECT_EQ(gap().motions, motions({Motion::extension}));
}

TEST_F(AuditTest, ReducedMotionLeavesEveryPlaneOpen) {
  run(knee_motion(), LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::abnormal));
  EXPECT_EQ(gap().reason, Reason::motions_missing);
  EXPECT_EQ(gap().motions, motions({Motion::flexion, Motion::extension}));
  EXPECT_DOUBLE_EQ(gap().credit, kPartialCredit.none_named);
}

TEST_F(AuditTest, ARangeOfAHingeJointIsBothItsEnds) {
  EXPECT_TRUE(run(knee_motion(), LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::stated).degrees({}, 0, 140))
                  .gaps.empty());
}

TEST_F(AuditTest, MotionMetOnOneSideAndPartlyOnTheOther) {
  run(knee_motion(), LedgerOf()
                         .entry(Region::knee, kRom, kLeft)
                         .entry(Region::knee, kRom, kRight, Outcome::abnormal, {Motion::flexion}));
  EXPECT_EQ(gap().side, kRight);
  EXPECT_EQ(gap().reason, Reason::motions_missing);
  EXPECT_DOUBLE_EQ(gap().credit, 0.75);
}

TEST_F(AuditTest, DifferentLacksOfLeftAndRightAreTwoGapsOfOneDemand) {
  const Audit& a = run(knee_motion(), LedgerOf()
                                          .entry(Region::knee, kRom, kLeft, Outcome::abnormal, {Motion::extension})
                                          .entry(Region::knee, kRom, kRight, Outcome::abnormal, {Motion::flexion}));
  ASSERT_EQ(a.gaps.size(), 2U);
  EXPECT_EQ(a.gaps[0].side, kLeft);
  EXPECT_EQ(a.gaps[0].motions, motions({Motion::flexion}));
  EXPECT_EQ(a.gaps[1].side, kRight);
  EXPECT_EQ(a.gaps[1].motions, motions({Motion::extension}));
  EXPECT_EQ(a.applicable, 1U);
  EXPECT_DOUBLE_EQ(a.score, 0.5);
  EXPECT_DOUBLE_EQ(a.gaps[0].credit, a.gaps[1].credit);
}

TEST_F(AuditTest, TheForearmTurnsForTheElbow) {
  Expectation e = expectation("elbow-motion", Region::elbow, kRom);
  e.motions = motions({Motion::flexion, Motion::supination, Motion::pronation});
  EXPECT_TRUE(run(e, LedgerOf()
                         .entry(Region::elbow, kRom, kBoth, Outcome::normal, {Motion::flexion})
                         .entry(Region::forearm, kRom, kBoth))
                  .gaps.empty());
  run(e, LedgerOf().entry(Region::forearm, kRom, kBoth));
  EXPECT_EQ(gap().motions, motions({Motion::flexion}));
  run(expectation("elbow-palpation", Region::elbow, Component::palpation),
      LedgerOf().entry(Region::forearm, Component::palpation, kBoth));
  EXPECT_EQ(gap().reason, Reason::not_mentioned);
}

// --- order and score ---

TEST_F(AuditTest, RequiredBeforeAdvisedThenHeavierThenAsInTheProfile) {
  const auto with = [](std::string id, Kind kind, double weight) {
    Expectation e = expectation(std::move(id), Region::knee, Component::palpation);
    e.kind = kind;
    e.weight = weight;
    return e;
  };
  const Audit& a = run({with("advised-heavy", Kind::advised, 9), with("light", Kind::required, 1),
                        with("heavy", Kind::required, 3), with("light-too", Kind::required, 1)},
                       LedgerOf());
  std::vector<std::string> ids;
  for (const Gap& g : a.gaps) ids.push_back(g.expectation->id);
  EXPECT_EQ(ids, (std::vector<std::string>{"heavy", "light", "light-too", "advised-heavy"}));
}

TEST_F(AuditTest, AdvisedGapsAloneLackNothingRequired) {
  Expectation e = knee_palpation();
  e.kind = Kind::advised;
  EXPECT_FALSE(run(e, LedgerOf()).lacks_required());
}

TEST_F(AuditTest, TheScoreIsEarnedWeightOverWeightAsked) {
  Expectation heavy = knee_palpation();
  heavy.weight = 3;
  Expectation light = expectation("knee-inspection", Region::knee, Component::inspection);
  light.weight = 1;
  const Audit& a = run(
      {heavy, light},
      LedgerOf().entry(Region::knee, Component::palpation, kBoth).entry(Region::knee, Component::inspection, kLeft));
  EXPECT_DOUBLE_EQ(a.score, (3.0 + 0.5) / 4.0);
  EXPECT_EQ(a.applicable, 2U);
  EXPECT_EQ(a.met, 1U);
}

// Left out: that something was not done, or is wanting here, rightly takes back what a wider remark had earned; and a
// side once named settles which one an unnamed side meant.
TEST_F(AuditTest, AFurtherRemarkNeverScoresLess) {
  std::vector<Ledger> notes;
  for (const Region region : {Region::knee, Region::lower_extremity, Region::extremities, Region::whole_body}) {
    for (const Side side : {kLeft, kRight, kBoth}) {
      notes.push_back(LedgerOf().entry(region, kRom, side, Outcome::normal));
      notes.push_back(LedgerOf().entry(region, kRom, side, Outcome::normal, {Motion::flexion}));
      notes.push_back(LedgerOf().entry(region, kRom, side, Outcome::stated));
      notes.push_back(LedgerOf().entry(region, kRom, side, Outcome::stated).degrees(Motion::extension, {}, 0));
      notes.push_back(LedgerOf().entry(region, Component::unspecified, side));
    }
  }
  for (const Specificity specificity : {Specificity::region, Specificity::limb, Specificity::whole_body}) {
    Expectation e = knee_motion();
    e.specificity = specificity;
    const Profile p = profile({e});
    for (const Ledger& first : notes) {
      for (const Ledger& second : notes) {
        Ledger both = first;
        both.entries.insert(both.entries.end(), second.entries.begin(), second.entries.end());
        EXPECT_GE(audit(p, both).score, audit(p, first).score - 1e-9);
      }
    }
  }
}

TEST_F(AuditTest, TheSameLedgerGivesTheSameAudit) {
  const Ledger ledger = LedgerOf()
                            .entry(Region::knee, kRom, kLeft, Outcome::abnormal, {Motion::flexion})
                            .entry(Region::knee, Component::palpation, Side::unstated);
  const Profile p = profile({knee_motion(), knee_palpation()});
  const Audit one = audit(p, ledger);
  const Audit two = audit(p, ledger);
  ASSERT_EQ(one.gaps.size(), two.gaps.size());
  for (std::size_t i = 0; i < one.gaps.size(); ++i) EXPECT_EQ(one.gaps[i].prompt, two.gaps[i].prompt);
}

}  // namespace
}  // namespace jointledger
