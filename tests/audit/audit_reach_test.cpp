// How near a remark must be, and on which side, to count.
#include <gtest/gtest.h>

#include "audit/audit.h"
#include "audit/partial_credit.h"
#include "audit_fixture.h"
#include "builders.h"

namespace jointledger {
namespace {

using namespace testing;  // NOLINT(google-build-using-namespace): builders, meant to read like words

// --- specificity ---

TEST_F(AuditTest, TheLimbCountsInFullWhereAllowed) {
  Expectation e = knee_palpation();
  e.specificity = Specificity::limb;
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::lower_extremity, Component::palpation, kBoth)).gaps.empty());
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::extremities, Component::palpation, kBoth)).gaps.empty());
  run(e, LedgerOf().entry(Region::whole_body, Component::palpation, Side::midline));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_EQ(run(e, LedgerOf().entry(Region::upper_extremity, Component::palpation, kBoth)).gaps.size(), 1U);
}

TEST_F(AuditTest, TheWholeBodyCountsInFullWhereAllowed) {
  Expectation e = knee_palpation();
  e.specificity = Specificity::whole_body;
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::whole_body, Component::palpation, Side::midline)).gaps.empty());
}

TEST_F(AuditTest, AnUnspecifiedRemarkNeverCountsHoweverWideIsAllowed) {
  Expectation e = knee_palpation();
  e.specificity = Specificity::whole_body;
  run(e, LedgerOf().entry(Region::whole_body, Component::unspecified, Side::midline));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
}

TEST_F(AuditTest, TheExactRegionIsCreditedFirst) {
  Expectation e = knee_palpation();
  e.specificity = Specificity::limb;
  const Audit& a = run(e, LedgerOf()
                              .entry(Region::knee, Component::palpation, kBoth)
                              .entry(Region::lower_extremity, Component::palpation, kBoth));
  ASSERT_EQ(a.credits.size(), 1U);
  EXPECT_EQ(a.credits[0].entries, std::vector<std::uint32_t>{0});
}

TEST_F(AuditTest, AWiderRemarkFillsInWhatTheExactOneLeavesOpen) {
  Expectation e = knee_motion();
  e.specificity = Specificity::limb;
  EXPECT_TRUE(run(e, LedgerOf()
                         .entry(Region::knee, kRom, kBoth, Outcome::normal, {Motion::flexion})
                         .entry(Region::lower_extremity, kRom, kBoth))
                  .gaps.empty());
  // "Full motion of all limbs except the knee" leaves open which motions of the knee are wanting.
  run(e, LedgerOf().entry(Region::knee, kRom, kBoth, Outcome::abnormal).entry(Region::extremities, kRom, kBoth));
  EXPECT_EQ(gap().reason, Reason::motions_missing);
}

TEST_F(AuditTest, AskedOfAGroupAnyPartOfItWillDo) {
  EXPECT_TRUE(run(expectation("x", Region::lower_extremity, Component::strength),
                  LedgerOf().entry(Region::knee, Component::strength, kBoth))
                  .gaps.empty());
}

TEST_F(AuditTest, DistallyCountsWhatLiesFurtherDown) {
  Expectation e = expectation("x", Region::knee, Component::sensation);
  const Ledger foot = LedgerOf().entry(Region::foot, Component::sensation, kBoth);
  EXPECT_EQ(run(e, foot).gaps.size(), 1U);
  e.distally = true;
  EXPECT_TRUE(run(e, foot).gaps.empty());
  EXPECT_EQ(run(e, LedgerOf().entry(Region::hip, Component::sensation, kBoth)).gaps.size(), 1U);
}

// --- sides ---

TEST_F(AuditTest, AnEntryWithoutASideIsOneSideOnly) {
  run(knee_palpation(), LedgerOf().entry(Region::knee, Component::palpation, Side::unstated));
  EXPECT_EQ(gap().reason, Reason::one_side_only);
  EXPECT_EQ(gap().side, Side::unstated);
  EXPECT_EQ(gap().nearest, (std::vector<Span>{{0, 1}}));
  EXPECT_DOUBLE_EQ(gap().credit, 0.5);
}

TEST_F(AuditTest, AnEntryWithoutASideSpeaksForTheSideComplainedOf) {
  run(knee_palpation(),
      LedgerOf().entry(Region::knee, Component::palpation, Side::unstated).complaint(Region::knee, kLeft));
  EXPECT_EQ(gap().reason, Reason::one_side_only);
  EXPECT_EQ(gap().side, kRight);
}

TEST_F(AuditTest, AnEntryWithoutASideSpeaksForTheSilentSide) {
  EXPECT_TRUE(run(knee_palpation(), LedgerOf()
                                        .entry(Region::knee, Component::inspection, kBoth)
                                        .entry(Region::knee, Component::palpation, kLeft)
                                        .entry(Region::knee, Component::palpation, Side::unstated))
                  .gaps.empty());
}

TEST_F(AuditTest, ABareRemarkWithoutASideStandsForBoth) {
  run(knee_palpation(), LedgerOf().entry(Region::knee, Component::unspecified, Side::unstated));
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_EQ(gap().side, kBoth);
}

TEST_F(AuditTest, AnySideIsEnoughWhereAnyIsAsked) {
  EXPECT_TRUE(
      run(on_one_side(knee_palpation()), LedgerOf().entry(Region::knee, Component::palpation, kRight)).gaps.empty());
  run(on_one_side(knee_palpation()), LedgerOf());
  EXPECT_EQ(gap().side, Side::unstated);
  EXPECT_EQ(gap().reason, Reason::not_mentioned);
}

TEST_F(AuditTest, TheMidlineIsMetOnWhateverSide) {
  const Expectation e = expectation("x", Region::lumbar_spine, Component::palpation);
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::lumbar_spine, Component::palpation, kLeft)).gaps.empty());
  EXPECT_EQ(audit_.credits.front().side, Side::midline);
  run(e, LedgerOf());
  EXPECT_EQ(gap().side, Side::midline);
}

TEST_F(AuditTest, AMidlineRemarkMeetsBothSidesOfTheJaw) {
  Expectation e = expectation("x", Region::temporomandibular, Component::palpation);
  e.sides = Sides::both;
  EXPECT_TRUE(run(e, LedgerOf().entry(Region::temporomandibular, Component::palpation, Side::midline)).gaps.empty());
  run(e, LedgerOf().entry(Region::temporomandibular, Component::palpation, kLeft));
  EXPECT_EQ(gap().side, kRight);
}

TEST_F(AuditTest, TheWrongSideExaminedIsOneSideOnly) {
  Expectation e = knee_palpation();
  e.applies = Applies::if_complaint;
  e.sides = Sides::complaint_side;
  const Audit& a = run(e, LedgerOf().entry(Region::knee, Component::palpation, kLeft).complaint(Region::knee, kRight));
  EXPECT_EQ(gap().reason, Reason::one_side_only);
  EXPECT_EQ(gap().side, kRight);
  EXPECT_DOUBLE_EQ(a.score, 0.0);
}

TEST_F(AuditTest, TheOtherSideIsComparedOrMissed) {
  Expectation e = knee_palpation();
  e.applies = Applies::if_complaint;
  e.sides = Sides::other_side;
  EXPECT_TRUE(
      run(e, LedgerOf().entry(Region::knee, Component::palpation, kBoth).complaint(Region::knee, kRight)).gaps.empty());
  run(e, LedgerOf().entry(Region::knee, Component::palpation, kRight).complaint(Region::knee, kRight));
  EXPECT_EQ(gap().side, kLeft);
  EXPECT_EQ(gap().reason, Reason::one_side_only);
}

TEST_F(AuditTest, OneSideExactAndABlanketForTheOther) {
  run(knee_palpation(), LedgerOf()
                            .entry(Region::knee, Component::palpation, kLeft)
                            .entry(Region::lower_extremity, Component::palpation, kBoth));
  EXPECT_EQ(gap().side, kRight);
  EXPECT_EQ(gap().reason, Reason::blanket_only);
  EXPECT_DOUBLE_EQ(gap().credit, (1.0 + kPartialCredit.limb_only) / 2);
}

}  // namespace
}  // namespace jointledger
