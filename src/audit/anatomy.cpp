#include "audit/anatomy.h"

#include <array>
#include <initializer_list>

namespace jointledger {
namespace {

constexpr MotionSet set_of(std::initializer_list<Motion> motions) {
  MotionSet set;
  for (const Motion m : motions) set.insert(m);
  return set;
}

bool is_upper(Region r) { return r == Region::upper_extremity || covers(Region::upper_extremity, r); }
bool is_lower(Region r) { return r == Region::lower_extremity || covers(Region::lower_extremity, r); }

struct SharedMotions {
  Region region;
  Region elsewhere;
  MotionSet motions;
};

// The forearm turns at the elbow and at the wrist; the heel turns below the ankle, and most notes say "ankle".
constexpr std::array kSharedMotions = {
    SharedMotions{Region::elbow, Region::forearm, set_of({Motion::supination, Motion::pronation})},
    SharedMotions{Region::forearm, Region::elbow, set_of({Motion::supination, Motion::pronation})},
    SharedMotions{Region::ankle, Region::foot, set_of({Motion::inversion, Motion::eversion})},
    SharedMotions{Region::foot, Region::ankle, set_of({Motion::inversion, Motion::eversion})},
};

}  // namespace

std::span<const Region> neighbours(Region region) {
  using enum Region;
  static constexpr std::array kOfJaw = {cervical_spine};
  static constexpr std::array kOfNeck = {thoracic_spine, shoulder};
  static constexpr std::array kOfThoracicSpine = {cervical_spine, lumbar_spine};
  static constexpr std::array kOfLumbarSpine = {thoracic_spine, hip};
  static constexpr std::array kOfPelvis = {lumbar_spine, hip};
  static constexpr std::array kOfChestWall = {thoracic_spine};
  static constexpr std::array kOfShoulder = {cervical_spine, elbow};
  static constexpr std::array kOfUpperArm = {shoulder, elbow};
  static constexpr std::array kOfElbow = {shoulder, wrist};
  static constexpr std::array kOfForearm = {elbow, wrist};
  static constexpr std::array kOfWrist = {elbow, hand};
  static constexpr std::array kOfHand = {wrist};
  static constexpr std::array kOfHip = {lumbar_spine, knee};
  static constexpr std::array kOfThigh = {hip, knee};
  static constexpr std::array kOfKnee = {hip, ankle};
  static constexpr std::array kOfLowerLeg = {knee, ankle};
  static constexpr std::array kOfAnkle = {knee, foot};
  static constexpr std::array kOfFoot = {ankle};
  static constexpr std::array kOfSpine = {hip};
  static constexpr std::array kOfUpperLimb = {cervical_spine};
  static constexpr std::array kOfLowerLimb = {lumbar_spine};
  switch (region) {
    case temporomandibular:
      return kOfJaw;
    case cervical_spine:
      return kOfNeck;
    case thoracic_spine:
      return kOfThoracicSpine;
    case lumbar_spine:
      return kOfLumbarSpine;
    case pelvis:
      return kOfPelvis;
    case chest_wall:
      return kOfChestWall;
    case shoulder:
      return kOfShoulder;
    case upper_arm:
      return kOfUpperArm;
    case elbow:
      return kOfElbow;
    case forearm:
      return kOfForearm;
    case wrist:
      return kOfWrist;
    case hand:
      return kOfHand;
    case hip:
      return kOfHip;
    case thigh:
      return kOfThigh;
    case knee:
      return kOfKnee;
    case lower_leg:
      return kOfLowerLeg;
    case ankle:
      return kOfAnkle;
    case foot:
      return kOfFoot;
    case spine:
      return kOfSpine;
    case upper_extremity:
      return kOfUpperLimb;
    case lower_extremity:
      return kOfLowerLimb;
    case extremities:
    case whole_body:
      break;
  }
  return {};
}

bool is_distal(Region far, Region near) {
  switch (near) {
    case Region::cervical_spine:
      return is_upper(far);
    case Region::thoracic_spine:
    case Region::lumbar_spine:
    case Region::pelvis:
      return is_lower(far);
    case Region::spine:
      return is_upper(far) || is_lower(far);
    default:
      break;
  }
  // Within a limb the regions are numbered from the trunk outwards.
  if (is_group(near) || is_group(far)) return false;
  return far > near && ((is_upper(near) && is_upper(far)) || (is_lower(near) && is_lower(far)));
}

MotionSet motions_written_elsewhere(Region region, Region elsewhere) {
  for (const SharedMotions& row : kSharedMotions) {
    if (row.region == region && row.elsewhere == elsewhere) return row.motions;
  }
  return {};
}

MotionSet motions_meant(Region region, MotionSet named) {
  MotionSet meant = named;
  if (named.contains(Motion::rotation)) meant.insert(set_of({Motion::internal_rotation, Motion::external_rotation}));
  // Bending the wrist back is called dorsiflexion in one school and extension in the other.
  if (region == Region::wrist && named.contains(Motion::dorsiflexion)) meant.insert(Motion::extension);
  if (region == Region::wrist && named.contains(Motion::extension)) meant.insert(Motion::dorsiflexion);
  return meant;
}

MotionSet motions_of_unnamed_range(Region region) {
  if (region != Region::knee && region != Region::elbow) return {};
  return set_of({Motion::flexion, Motion::extension});
}

}  // namespace jointledger
