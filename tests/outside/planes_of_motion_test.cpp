// The planes in which each joint moves, as examiners commonly name them. Common practice, no source: textbooks differ
// in what they call a motion of its own (elevation, horizontal adduction, combined motions of the foot), not in these.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "../reading/cells.h"
#include "../reading/shipped.h"
#include "audit/profile.h"
#include "ledger/terms.h"

namespace jointledger {
namespace {

using testing::cells_of;
using testing::read_exam;
using testing::text_of;

struct Plane {
  Motion motion;
  std::string_view words;
};

struct Joint {
  Region region;
  std::string_view name;  ///< as a note begins with it
  Side side;
  std::vector<Plane> planes;
};

const std::vector<Plane> kSpine = {{Motion::flexion, "flexion"},
                                   {Motion::extension, "extension"},
                                   {Motion::lateral_bending, "lateral bending"},
                                   {Motion::lateral_bending, "side bending"},
                                   {Motion::lateral_bending, "lateral flexion"},
                                   {Motion::rotation, "rotation"}};
const std::vector<Plane> kBall = {{Motion::flexion, "flexion"},
                                  {Motion::extension, "extension"},
                                  {Motion::abduction, "abduction"},
                                  {Motion::adduction, "adduction"},
                                  {Motion::internal_rotation, "internal rotation"},
                                  {Motion::external_rotation, "external rotation"}};
const std::vector<Plane> kForearm = {{Motion::supination, "supination"}, {Motion::pronation, "pronation"}};

const std::vector<Joint>& joints() {
  static const std::vector<Joint> kJoints = {
      {Region::temporomandibular,
       "Jaw",
       Side::midline,
       {{Motion::opening, "opening"},
        {Motion::protrusion, "protrusion"},
        {Motion::lateral_excursion, "lateral excursion"}}},
      {Region::cervical_spine, "Cervical spine", Side::midline, kSpine},
      {Region::thoracic_spine, "Thoracic spine", Side::midline, kSpine},
      {Region::lumbar_spine, "Lumbar spine", Side::midline, kSpine},
      {Region::shoulder, "Right shoulder", Side::right, kBall},
      {Region::elbow,
       "Left elbow",
       Side::left,
       {{Motion::flexion, "flexion"},
        {Motion::extension, "extension"},
        {Motion::supination, "supination"},
        {Motion::pronation, "pronation"}}},
      {Region::forearm, "Left forearm", Side::left, kForearm},
      {Region::wrist,
       "Right wrist",
       Side::right,
       {{Motion::flexion, "flexion"},
        {Motion::flexion, "palmar flexion"},
        {Motion::extension, "extension"},
        {Motion::radial_deviation, "radial deviation"},
        {Motion::ulnar_deviation, "ulnar deviation"}}},
      {Region::hand,
       "Left thumb",
       Side::left,
       {{Motion::flexion, "flexion"},
        {Motion::extension, "extension"},
        {Motion::abduction, "abduction"},
        {Motion::adduction, "adduction"},
        {Motion::opposition, "opposition"}}},
      {Region::hip, "Right hip", Side::right, kBall},
      {Region::knee, "Left knee", Side::left, {{Motion::flexion, "flexion"}, {Motion::extension, "extension"}}},
      {Region::ankle,
       "Right ankle",
       Side::right,
       {{Motion::dorsiflexion, "dorsiflexion"},
        {Motion::plantarflexion, "plantar flexion"},
        {Motion::plantarflexion, "plantarflexion"},
        {Motion::inversion, "inversion"},
        {Motion::eversion, "eversion"}}},
      {Region::foot, "Left foot", Side::left, {{Motion::inversion, "inversion"}, {Motion::eversion, "eversion"}}},
      {Region::foot, "Left second toe", Side::left, {{Motion::flexion, "flexion"}, {Motion::extension, "extension"}}},
  };
  return kJoints;
}

std::string normal_motion(Region region, Side side, std::string_view motions) {
  std::string text;
  text.append(name(region)).append(" range_of_motion ").append(name(side)).append(" normal [");
  return text.append(motions).append("]");
}

TEST(PlanesOfMotion, AreReadAtTheirJoint) {
  for (const Joint& joint : joints()) {
    for (const Plane& plane : joint.planes) {
      const std::string text = std::string(joint.name) + " " + std::string(plane.words) + " is full.";
      EXPECT_EQ(text_of(cells_of(read_exam(text))), normal_motion(joint.region, joint.side, name(plane.motion)))
          << text;
    }
  }
}

TEST(PlanesOfMotion, AreReadTogether) {
  for (const Joint& joint : joints()) {
    std::string listed;
    MotionSet motions;
    for (const Plane& plane : joint.planes) {
      listed.append(listed.empty() ? "" : ", ").append(plane.words);
      motions.insert(plane.motion);
    }
    const std::string text = std::string(joint.name) + ": full " + listed + ".";
    const auto cells = cells_of(read_exam(text));
    ASSERT_EQ(cells.size(), 1U) << text;
    EXPECT_EQ(cells.begin()->first.region, joint.region) << text;
    EXPECT_EQ(cells.begin()->second.motions, motions) << text;
  }
}

// Motions that only one joint makes are that joint's where the note names none.
TEST(PlanesOfMotion, NameTheirJointWhereOnlyOneHasThem) {
  struct Case {
    std::string_view text;
    Region region;
    std::string_view motion;
  };
  for (const Case& c : {Case{"Supination is full.", Region::elbow, "supination"},
                        {"Pronation is full.", Region::elbow, "pronation"},
                        {"Radial deviation is full.", Region::wrist, "radial_deviation"},
                        {"Ulnar deviation is full.", Region::wrist, "ulnar_deviation"},
                        {"Dorsiflexion is full.", Region::ankle, "dorsiflexion"},
                        {"Plantar flexion is full.", Region::ankle, "plantarflexion"},
                        {"Thumb opposition is full.", Region::hand, "opposition"}}) {
    EXPECT_EQ(text_of(cells_of(read_exam(c.text))), normal_motion(c.region, Side::unstated, c.motion)) << c.text;
  }
  EXPECT_EQ(text_of(cells_of(read_exam("Mouth opening is full."))),
            normal_motion(Region::temporomandibular, Side::midline, "opening"));
}

// What a profile asks to be documented of a joint is what the joint can do.
TEST(PlanesOfMotion, ProfilesAskForNoOthers) {
  const ProfileShelf shelf = load_profiles(std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "rules");
  ASSERT_FALSE(shelf.profiles.empty());
  std::size_t checked = 0;
  for (const Profile& profile : shelf.profiles) {
    for (const Expectation& e : profile.expectations) {
      for (const Region region : e.regions) {
        MotionSet possible;
        for (const Joint& joint : joints()) {
          if (joint.region != region) continue;
          for (const Plane& plane : joint.planes) possible.insert(plane.motion);
        }
        if (e.motions.empty()) continue;
        EXPECT_TRUE(e.motions.without(possible).empty()) << profile.name << ": " << e.id;
        ++checked;
      }
    }
  }
  EXPECT_GE(checked, 10U);
}

}  // namespace
}  // namespace jointledger
