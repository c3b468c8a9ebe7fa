#include "ledger/terms.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {
namespace {

template <class Value>
void expect_names(std::span<const std::string_view> names, std::size_t count,
                  std::optional<Value> (*named)(std::string_view)) {
  ASSERT_EQ(names.size(), count);
  EXPECT_EQ(std::set<std::string_view>(names.begin(), names.end()).size(), count);
  for (std::size_t i = 0; i < count; ++i) {
    const auto value = static_cast<Value>(i);
    EXPECT_EQ(name(value), names[i]);
    EXPECT_EQ(named(names[i]), value) << names[i];
    EXPECT_EQ(names[i].find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string_view::npos) << names[i];
  }
  for (const std::string_view no_name : {"", "Knee", "knee ", "no such thing"}) EXPECT_FALSE(named(no_name)) << no_name;
}

TEST(Terms, NamesAreTheirOwn) {
  expect_names<Region>(region_names(), kRegionCount, region_named);
  expect_names<Component>(component_names(), kComponentCount, component_named);
  expect_names<Side>(side_names(), kSideCount, side_named);
  expect_names<Outcome>(outcome_names(), kOutcomeCount, outcome_named);
  expect_names<Motion>(motion_names(), kMotionCount, motion_named);
}

TEST(Terms, OutcomesAreRanked) {
  EXPECT_LT(Outcome::not_done, Outcome::stated);
  EXPECT_LT(Outcome::stated, Outcome::normal);
  EXPECT_LT(Outcome::normal, Outcome::abnormal);
}

std::string regions_where(bool (*holds)(Region)) {
  std::string text;
  for (std::size_t i = 0; i < kRegionCount; ++i) {
    const auto region = static_cast<Region>(i);
    if (holds(region)) text.append(text.empty() ? "" : " ").append(name(region));
  }
  return text;
}

TEST(Terms, LimbsArePaired) {
  EXPECT_EQ(regions_where(is_paired),
            "shoulder upper_arm elbow forearm wrist hand hip thigh knee lower_leg ankle foot upper_extremity "
            "lower_extremity extremities");
}

TEST(Terms, GroupsAreKnown) {
  EXPECT_EQ(regions_where(is_group), "spine upper_extremity lower_extremity extremities whole_body");
}

TEST(Terms, GroupsCoverTheirParts) {
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::spine, r); }),
            "cervical_spine thoracic_spine lumbar_spine spine");
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::upper_extremity, r); }),
            "shoulder upper_arm elbow forearm wrist hand upper_extremity");
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::lower_extremity, r); }),
            "hip thigh knee lower_leg ankle foot lower_extremity");
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::extremities, r); }), regions_where(is_paired));
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::knee, r); }), "knee");
  EXPECT_EQ(regions_where([](Region r) { return covers(Region::whole_body, r); }),
            regions_where([](Region) { return true; }));
}

TEST(MotionSet, IsASet) {
  MotionSet set;
  EXPECT_TRUE(set.empty());
  set.insert(Motion::flexion);
  set.insert(Motion::flexion);
  set.insert(Motion::retraction);  // the last one
  EXPECT_FALSE(set.empty());
  EXPECT_TRUE(set.contains(Motion::flexion));
  EXPECT_TRUE(set.contains(Motion::retraction));
  EXPECT_FALSE(set.contains(Motion::extension));

  MotionSet flexion;
  flexion.insert(Motion::flexion);
  const MotionSet rest = set.without(flexion);
  EXPECT_FALSE(rest.contains(Motion::flexion));
  EXPECT_TRUE(rest.contains(Motion::retraction));
  EXPECT_TRUE(flexion.without(set).empty());

  MotionSet both = rest;
  both.insert(flexion);
  EXPECT_EQ(both, set);
}

}  // namespace
}  // namespace jointledger
