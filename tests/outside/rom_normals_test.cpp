// The normal ranges of motion in lexicon/ranges.tsv against 38 CFR 4.71 and 4.71a, the rating schedule of the United
// States Department of Veterans Affairs, a federal regulation in the public domain:
//   4.71, Plate I: shoulder, elbow, forearm, wrist;
//   4.71, Plate II: hip, knee, ankle;
//   4.71a, General Rating Formula for Diseases and Injuries of the Spine, note 2 (and Plate V): neck and back, and the
//     combined ranges of 340 and 240 degrees;
//   4.71a, limitation of motion of the digits of the hand, note 1: the furthest joint of a finger.
// The figures below are from memory; the text of the regulation was not at hand when they were written. The two sums
// that note 2 gives bear the ten figures of the spine out.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "../reading/shipped.h"
#include "ledger/terms.h"
#include "lexicon/table.h"

namespace jointledger {
namespace {

using Motions = std::vector<std::pair<Motion, int>>;

struct Plate {
  std::string_view citation;  ///< as the source column begins
  Region region;
  std::string_view name;  ///< of the region, as notes write it
  Motions normal;
};

const Motions kThoracolumbar = {
    {Motion::flexion, 90}, {Motion::extension, 30}, {Motion::lateral_bending, 30}, {Motion::rotation, 30}};

const std::vector<Plate>& plates() {
  static const std::vector<Plate> kPlates = {
      {"38 CFR 4.71, Plate I",
       Region::shoulder,
       "Right shoulder",
       {{Motion::flexion, 180},
        {Motion::abduction, 180},
        {Motion::internal_rotation, 90},
        {Motion::external_rotation, 90}}},
      {"38 CFR 4.71, Plate I", Region::elbow, "Right elbow", {{Motion::flexion, 145}}},
      {"38 CFR 4.71, Plate I", Region::forearm, "Right forearm", {{Motion::pronation, 80}, {Motion::supination, 85}}},
      {"38 CFR 4.71, Plate I",
       Region::wrist,
       "Right wrist",
       {{Motion::extension, 70}, {Motion::flexion, 80}, {Motion::ulnar_deviation, 45}, {Motion::radial_deviation, 20}}},
      {"38 CFR 4.71, Plate II", Region::hip, "Right hip", {{Motion::flexion, 125}, {Motion::abduction, 45}}},
      {"38 CFR 4.71, Plate II", Region::knee, "Right knee", {{Motion::flexion, 140}}},
      {"38 CFR 4.71, Plate II",
       Region::ankle,
       "Right ankle",
       {{Motion::dorsiflexion, 20}, {Motion::plantarflexion, 45}}},
      {"38 CFR 4.71a, Plate V and note 2",
       Region::cervical_spine,
       "Cervical spine",
       {{Motion::flexion, 45}, {Motion::extension, 45}, {Motion::lateral_bending, 45}, {Motion::rotation, 80}}},
      {"38 CFR 4.71a, Plate V and note 2", Region::thoracic_spine, "Thoracic spine", kThoracolumbar},
      {"38 CFR 4.71a, Plate V and note 2", Region::lumbar_spine, "Lumbar spine", kThoracolumbar},
  };
  return kPlates;
}

struct Limit {
  int normal = 0;
  int implausible_above = 0;
  std::string source;
};
using Limits = std::map<std::pair<Region, Motion>, Limit>;

const Limits& limits() {
  static const Limits kLimits = [] {
    Limits limits;
    const auto table = read_table(std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "lexicon" / "ranges.tsv");
    for (const TableRow& row : table.value().rows) {
      const auto key = std::pair(region_named(row.cells.at(0)).value(), motion_named(row.cells.at(1)).value());
      const Limit limit = {std::stoi(row.cells.at(2)), std::stoi(row.cells.at(3)), row.cells.at(4)};
      EXPECT_TRUE(limits.emplace(key, limit).second) << "line " << row.line << " gives a motion again";
    }
    return limits;
  }();
  return kLimits;
}

int normal(Region region, Motion motion) { return limits().at({region, motion}).normal; }

/// "lateral_bending" as it stands in a note.
std::string words(Motion motion) {
  std::string text(name(motion));
  std::ranges::replace(text, '_', ' ');
  return text;
}

TEST(RomNormals, AgreeWithTheRegulation) {
  for (const Plate& plate : plates()) {
    for (const auto& [motion, degrees] : plate.normal) {
      const auto row = limits().find({plate.region, motion});
      ASSERT_NE(row, limits().end()) << plate.name << ' ' << name(motion);
      EXPECT_EQ(row->second.normal, degrees) << plate.name << ' ' << name(motion);
      EXPECT_TRUE(row->second.source.starts_with(plate.citation)) << row->second.source;
    }
  }
}

// Flexion, extension, and both sides of lateral flexion and rotation.
int combined(Region spine) {
  return normal(spine, Motion::flexion) + normal(spine, Motion::extension) +
         2 * normal(spine, Motion::lateral_bending) + 2 * normal(spine, Motion::rotation);
}

TEST(RomNormals, CombinedMotionOfTheSpineIsAsNoteTwoSays) {
  EXPECT_EQ(combined(Region::cervical_spine), 340);
  // The regulation takes the thoracic and the lumbar spine as one, and a note that names either means that one.
  EXPECT_EQ(combined(Region::thoracic_spine), 240);
  EXPECT_EQ(combined(Region::lumbar_spine), 240);
}

// Under another name or at the joint next to it, the same motion has the same figure.
TEST(RomNormals, OfOneMotionAreTheSameEverywhere) {
  for (const Region region : {Region::elbow, Region::wrist}) {
    for (const Motion motion : {Motion::pronation, Motion::supination}) {
      EXPECT_EQ(normal(region, motion), normal(Region::forearm, motion));
    }
  }
  EXPECT_EQ(normal(Region::wrist, Motion::dorsiflexion), normal(Region::wrist, Motion::extension));
  EXPECT_EQ(normal(Region::shoulder, Motion::elevation), normal(Region::shoulder, Motion::flexion));
  EXPECT_EQ(normal(Region::hand, Motion::flexion), 100);  // the joint in the middle of a finger
  for (const auto& [motion, degrees] : kThoracolumbar) EXPECT_EQ(normal(Region::spine, motion), degrees);
}

TEST(RomNormals, CiteTheRegulationOnlyForWhatItSays) {
  Limits rest = limits();
  for (const Plate& plate : plates()) {
    for (const auto& [motion, degrees] : plate.normal) rest.erase({plate.region, motion});
  }
  const std::vector<std::pair<Region, Motion>> by_another_name = {
      {Region::elbow, Motion::pronation},    {Region::elbow, Motion::supination},
      {Region::wrist, Motion::pronation},    {Region::wrist, Motion::supination},
      {Region::wrist, Motion::dorsiflexion}, {Region::shoulder, Motion::elevation},
      {Region::hand, Motion::flexion},       {Region::spine, Motion::flexion},
      {Region::spine, Motion::extension},    {Region::spine, Motion::lateral_bending},
      {Region::spine, Motion::rotation}};
  for (const auto& key : by_another_name) rest.erase(key);
  for (const auto& [key, limit] : rest) {
    EXPECT_TRUE(limit.source.starts_with("common practice, no source"))
        << name(key.first) << ' ' << name(key.second) << ": " << limit.source;
  }
}

// Healthy joints go beyond the normal figures; what is called implausible must leave room for them.
TEST(RomNormals, LeaveRoomBeforeTheImplausible) {
  for (const auto& [key, limit] : limits()) {
    EXPECT_GE(limit.implausible_above, limit.normal + 20) << name(key.first) << ' ' << name(key.second);
    EXPECT_LE(limit.implausible_above, 200) << name(key.first) << ' ' << name(key.second);
  }
}

TEST(RomNormals, AreReadAsWritten) {
  for (const Plate& plate : plates()) {
    for (const auto& [motion, degrees] : plate.normal) {
      const std::string text =
          std::string(plate.name) + " " + words(motion) + " " + std::to_string(degrees) + " degrees.";
      const Ledger ledger = testing::read_exam(text);
      ASSERT_EQ(ledger.entries.size(), 1U) << text;
      const Entry& entry = ledger.entries.front();
      EXPECT_EQ(entry.region, plate.region) << text;
      EXPECT_EQ(entry.component, Component::range_of_motion) << text;
      ASSERT_EQ(entry.degrees.size(), 1U) << text;
      EXPECT_EQ(entry.degrees.front().motion, motion) << text;
      EXPECT_EQ(entry.degrees.front().to, degrees) << text;
      EXPECT_FALSE(entry.degrees.front().lacking) << text;
    }
  }
}

}  // namespace
}  // namespace jointledger
