// The profiles in rules/: that they load, what they promise, and what they ask of plain ledgers.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "audit/audit.h"
#include "builders.h"

namespace jointledger {
namespace {

using testing::LedgerOf;

class ShippedProfiles : public ::testing::Test {
 protected:
  static void SetUpTestSuite() { shelf_ = load_profiles(std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "rules"); }
  static const Profile& named(std::string_view name) {
    const auto at = std::ranges::find(shelf_.profiles, name, &Profile::name);
    EXPECT_NE(at, shelf_.profiles.end()) << name;
    static const Profile kNone;
    return at == shelf_.profiles.end() ? kNone : *at;
  }
  static inline ProfileShelf shelf_;
};

std::set<std::string> missing(const Audit& audit) {
  std::set<std::string> ids;
  for (const Gap& gap : audit.gaps) ids.insert(gap.expectation->id);
  return ids;
}

TEST_F(ShippedProfiles, LoadWithoutFault) {
  for (const ProfileFault& fault : shelf_.faults) {
    ADD_FAILURE() << fault.file << ":" << fault.line << ": " << fault.message;
  }
  EXPECT_FALSE(named("screening").expectations.empty());
  EXPECT_FALSE(named("complaint").expectations.empty());
}

TEST_F(ShippedProfiles, EachSaysWhatItIsNot) {
  for (const Profile& profile : shelf_.profiles) {
    SCOPED_TRACE(profile.name);
    EXPECT_NE(profile.caution.find("not the care"), std::string::npos);
    EXPECT_NE(profile.caution.find("diagnosis"), std::string::npos);
    EXPECT_NE(profile.caution.find("Local policy"), std::string::npos);
    EXPECT_NE(profile.caution.find("payer"), std::string::npos);
    EXPECT_NE(profile.caution.find("licensed"), std::string::npos);
  }
}

TEST_F(ShippedProfiles, EachExpectationSaysWhyAndOnWhoseWord) {
  for (const Profile& profile : shelf_.profiles) {
    for (const Expectation& e : profile.expectations) {
      SCOPED_TRACE(profile.name + " " + e.id);
      EXPECT_FALSE(e.asks.empty());
      EXPECT_EQ(e.why.back(), '.');
      EXPECT_TRUE(e.source == "common practice, no source" || e.source.starts_with("38 CFR 4.")) << e.source;
    }
  }
}

TEST_F(ShippedProfiles, MotionsOfTheScreeningNameTheirTable) {
  for (const Expectation& e : named("screening").expectations) {
    if (e.components != std::vector{Component::range_of_motion}) continue;
    EXPECT_FALSE(e.motions.empty()) << e.id;
  }
}

TEST_F(ShippedProfiles, ScreeningAsksInspectionPalpationAndMotionOfEveryJoint) {
  const Region kJoints[] = {Region::temporomandibular,
                            Region::cervical_spine,
                            Region::shoulder,
                            Region::elbow,
                            Region::wrist,
                            Region::hand,
                            Region::lumbar_spine,
                            Region::hip,
                            Region::knee,
                            Region::ankle,
                            Region::foot};
  for (const Region joint : kJoints) {
    for (const Component component : {Component::inspection, Component::palpation, Component::range_of_motion}) {
      const auto asks = [&](const Expectation& e) {
        return e.applies == Applies::always && e.components == std::vector{component} &&
               std::ranges::find(e.regions, joint) != e.regions.end();
      };
      EXPECT_TRUE(std::ranges::any_of(named("screening").expectations, asks)) << name(joint) << name(component);
    }
  }
}

TEST_F(ShippedProfiles, AnEmptyNoteEarnsNothingOfTheScreening) {
  const Audit result = audit(named("screening"), Ledger{});
  EXPECT_DOUBLE_EQ(result.score, 0.0);
  EXPECT_EQ(result.met, 0U);
  EXPECT_EQ(result.gaps.size(), result.applicable);
  EXPECT_TRUE(result.lacks_required());
}

TEST_F(ShippedProfiles, AFullNoteEarnsAllOfTheScreening) {
  LedgerOf ledger;
  for (std::size_t r = 0; r < kRegionCount; ++r) {
    const auto region = static_cast<Region>(r);
    if (is_group(region)) continue;
    for (const Component c : {Component::inspection, Component::palpation, Component::range_of_motion}) {
      ledger.entry(region, c, is_paired(region) ? Side::both : Side::midline);
    }
  }
  const Audit result = audit(named("screening"), ledger);
  EXPECT_DOUBLE_EQ(result.score, 1.0);
  EXPECT_TRUE(result.gaps.empty());
}

TEST_F(ShippedProfiles, OneBlanketSentenceEarnsNextToNothing) {
  const Ledger blanket = LedgerOf().entry(Region::whole_body, Component::unspecified, Side::midline);
  EXPECT_DOUBLE_EQ(audit(named("screening"), blanket).score, 0.0);
}

TEST_F(ShippedProfiles, ANoteWithoutAComplaintIsAskedForNothing) {
  const Audit result = audit(named("complaint"), LedgerOf().entry(Region::knee, Component::palpation, Side::left));
  EXPECT_EQ(result.applicable, 0U);
  EXPECT_FALSE(result.lacks_required());
}

TEST_F(ShippedProfiles, AKneeWithoutInjury) {
  const Audit result = audit(named("complaint"), LedgerOf().complaint(Region::knee, Side::right));
  EXPECT_EQ(missing(result), (std::set<std::string>{"inspection", "palpation", "knee-motion", "limb-function",
                                                    "other-side", "neighbours"}));
  EXPECT_EQ(result.applicable, 7U);  // two neighbours
}

TEST_F(ShippedProfiles, AKneeWellDocumented) {
  const Ledger ledger = LedgerOf()
                            .complaint(Region::knee, Side::right, true)
                            .entry(Region::knee, Component::inspection, Side::right, Outcome::abnormal)
                            .entry(Region::knee, Component::palpation, Side::unstated, Outcome::abnormal)
                            .entry(Region::knee, Component::range_of_motion, Side::right, Outcome::abnormal,
                                   {Motion::flexion, Motion::extension})
                            .entry(Region::knee, Component::stability, Side::right)
                            .entry(Region::knee, Component::inspection, Side::left)
                            .entry(Region::hip, Component::range_of_motion, Side::right)
                            .entry(Region::ankle, Component::inspection, Side::both)
                            .entry(Region::lower_extremity, Component::sensation, Side::right)
                            .entry(Region::foot, Component::perfusion, Side::right);
  const Audit result = audit(named("complaint"), ledger);
  EXPECT_EQ(missing(result), std::set<std::string>{});
  EXPECT_DOUBLE_EQ(result.score, 1.0);
}

TEST_F(ShippedProfiles, AnInjuredKneeAsksForSensationAndPerfusionFirst) {
  const Audit result = audit(named("complaint"), LedgerOf().complaint(Region::knee, Side::right, true));
  ASSERT_GE(result.gaps.size(), 2U);
  EXPECT_EQ(result.gaps[0].expectation->id, "injury-sensation");
  EXPECT_EQ(result.gaps[1].expectation->id, "injury-perfusion");
  EXPECT_EQ(result.gaps[0].side, Side::right);
}

TEST_F(ShippedProfiles, ALowBackIsToldByTheLegs) {
  const Ledger ledger = LedgerOf()
                            .complaint(Region::lumbar_spine, Side::midline)
                            .entry(Region::spine, Component::inspection, Side::midline)
                            .entry(Region::lumbar_spine, Component::palpation, Side::left, Outcome::abnormal)
                            .entry(Region::lumbar_spine, Component::range_of_motion, Side::midline)
                            .entry(Region::lower_extremity, Component::strength, Side::both);
  EXPECT_EQ(missing(audit(named("complaint"), ledger)), std::set<std::string>{"neighbours"});
}

TEST_F(ShippedProfiles, EveryComplaintIsAskedForOnceByEachExpectation) {
  for (std::size_t r = 0; r < kRegionCount; ++r) {
    const auto region = static_cast<Region>(r);
    if (region == Region::whole_body) continue;
    const Ledger ledger = LedgerOf().complaint(region, is_paired(region) ? Side::left : Side::midline, true);
    const Audit result = audit(named("complaint"), ledger);
    EXPECT_TRUE(result.lacks_required()) << name(region);
    std::set<std::pair<std::string, Region>> seen;
    for (const Gap& gap : result.gaps) {
      EXPECT_TRUE(seen.emplace(gap.expectation->id, gap.region).second) << name(region) << " " << gap.expectation->id;
      if (gap.expectation->applies == Applies::if_neighbour) continue;
      EXPECT_EQ(gap.region, region) << gap.expectation->id;
    }
  }
}

}  // namespace
}  // namespace jointledger
