#include "audit/anatomy.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "builders.h"

namespace jointledger {
namespace {

using testing::motions;

std::vector<Region> around(Region region) {
  const auto found = neighbours(region);
  return {found.begin(), found.end()};
}

TEST(Anatomy, NeighboursAreTheJointAboveAndTheJointBelow) {
  EXPECT_EQ(around(Region::knee), (std::vector{Region::hip, Region::ankle}));
  EXPECT_EQ(around(Region::elbow), (std::vector{Region::shoulder, Region::wrist}));
  EXPECT_EQ(around(Region::foot), (std::vector{Region::ankle}));
  EXPECT_TRUE(around(Region::whole_body).empty());
}

TEST(Anatomy, NoRegionIsItsOwnNeighbourAndNeighboursArePlaces) {
  for (std::size_t i = 0; i < kRegionCount; ++i) {
    const auto region = static_cast<Region>(i);
    for (const Region other : neighbours(region)) {
      EXPECT_NE(other, region) << name(region);
      EXPECT_FALSE(is_group(other)) << name(region);
    }
  }
}

TEST(Anatomy, DistalRunsFromTheTrunkOutwards) {
  EXPECT_TRUE(is_distal(Region::foot, Region::knee));
  EXPECT_TRUE(is_distal(Region::hand, Region::shoulder));
  EXPECT_FALSE(is_distal(Region::hip, Region::knee));
  EXPECT_FALSE(is_distal(Region::knee, Region::knee));
  EXPECT_FALSE(is_distal(Region::foot, Region::shoulder));
  EXPECT_FALSE(is_distal(Region::lower_extremity, Region::knee));  // the limb as a whole: for specificity to allow
}

TEST(Anatomy, DistalToTheSpineIsTheLimbThatItSupplies) {
  EXPECT_TRUE(is_distal(Region::hand, Region::cervical_spine));
  EXPECT_TRUE(is_distal(Region::lower_extremity, Region::lumbar_spine));
  EXPECT_FALSE(is_distal(Region::foot, Region::cervical_spine));
  EXPECT_FALSE(is_distal(Region::hand, Region::lumbar_spine));
}

TEST(Anatomy, SomeMotionsAreWrittenUnderANeighbour) {
  EXPECT_EQ(motions_written_elsewhere(Region::elbow, Region::forearm),
            motions({Motion::supination, Motion::pronation}));
  EXPECT_TRUE(motions_written_elsewhere(Region::elbow, Region::wrist).empty());
}

TEST(Anatomy, RotationMeansBothRotations) {
  const MotionSet meant = motions_meant(Region::hip, motions({Motion::rotation}));
  EXPECT_TRUE(meant.contains(Motion::internal_rotation));
  EXPECT_TRUE(meant.contains(Motion::external_rotation));
  EXPECT_FALSE(motions_meant(Region::hip, motions({Motion::internal_rotation})).contains(Motion::external_rotation));
}

TEST(Anatomy, WristDorsiflexionIsExtension) {
  EXPECT_TRUE(motions_meant(Region::wrist, motions({Motion::dorsiflexion})).contains(Motion::extension));
  EXPECT_FALSE(motions_meant(Region::ankle, motions({Motion::dorsiflexion})).contains(Motion::extension));
}

}  // namespace
}  // namespace jointledger
