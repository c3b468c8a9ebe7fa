// The vocabulary in numbers and names.
#include <span>
#include <string_view>

#include "audit/audit.h"
#include "jointledger.h"
#include "ledger/terms.h"

namespace jointledger {
namespace {

// The numbers of the C interface are those of the vocabulary, and the compiler sees to it: programs that are out there
// know a value by its number, so whoever moves one there has to keep it here.
template <class Value>
constexpr bool same(Value value, int number) {
  return static_cast<int>(value) == number;
}

static_assert(same(Region::temporomandibular, JOINTLEDGER_REGION_TEMPOROMANDIBULAR));
static_assert(same(Region::cervical_spine, JOINTLEDGER_REGION_CERVICAL_SPINE));
static_assert(same(Region::thoracic_spine, JOINTLEDGER_REGION_THORACIC_SPINE));
static_assert(same(Region::lumbar_spine, JOINTLEDGER_REGION_LUMBAR_SPINE));
static_assert(same(Region::pelvis, JOINTLEDGER_REGION_PELVIS));
static_assert(same(Region::chest_wall, JOINTLEDGER_REGION_CHEST_WALL));
static_assert(same(Region::shoulder, JOINTLEDGER_REGION_SHOULDER));
static_assert(same(Region::upper_arm, JOINTLEDGER_REGION_UPPER_ARM));
static_assert(same(Region::elbow, JOINTLEDGER_REGION_ELBOW));
static_assert(same(Region::forearm, JOINTLEDGER_REGION_FOREARM));
static_assert(same(Region::wrist, JOINTLEDGER_REGION_WRIST));
static_assert(same(Region::hand, JOINTLEDGER_REGION_HAND));
static_assert(same(Region::hip, JOINTLEDGER_REGION_HIP));
static_assert(same(Region::thigh, JOINTLEDGER_REGION_THIGH));
static_assert(same(Region::knee, JOINTLEDGER_REGION_KNEE));
static_assert(same(Region::lower_leg, JOINTLEDGER_REGION_LOWER_LEG));
static_assert(same(Region::ankle, JOINTLEDGER_REGION_ANKLE));
static_assert(same(Region::foot, JOINTLEDGER_REGION_FOOT));
static_assert(same(Region::spine, JOINTLEDGER_REGION_SPINE));
static_assert(same(Region::upper_extremity, JOINTLEDGER_REGION_UPPER_EXTREMITY));
static_assert(same(Region::lower_extremity, JOINTLEDGER_REGION_LOWER_EXTREMITY));
static_assert(same(Region::extremities, JOINTLEDGER_REGION_EXTREMITIES));
static_assert(same(Region::whole_body, JOINTLEDGER_REGION_WHOLE_BODY));
static_assert(kRegionCount == JOINTLEDGER_REGION_WHOLE_BODY + 1);

static_assert(same(Component::inspection, JOINTLEDGER_COMPONENT_INSPECTION));
static_assert(same(Component::palpation, JOINTLEDGER_COMPONENT_PALPATION));
static_assert(same(Component::range_of_motion, JOINTLEDGER_COMPONENT_RANGE_OF_MOTION));
static_assert(same(Component::strength, JOINTLEDGER_COMPONENT_STRENGTH));
static_assert(same(Component::stability, JOINTLEDGER_COMPONENT_STABILITY));
static_assert(same(Component::special_test, JOINTLEDGER_COMPONENT_SPECIAL_TEST));
static_assert(same(Component::sensation, JOINTLEDGER_COMPONENT_SENSATION));
static_assert(same(Component::reflexes, JOINTLEDGER_COMPONENT_REFLEXES));
static_assert(same(Component::perfusion, JOINTLEDGER_COMPONENT_PERFUSION));
static_assert(same(Component::gait, JOINTLEDGER_COMPONENT_GAIT));
static_assert(same(Component::unspecified, JOINTLEDGER_COMPONENT_UNSPECIFIED));
static_assert(kComponentCount == JOINTLEDGER_COMPONENT_UNSPECIFIED + 1);

static_assert(same(Side::left, JOINTLEDGER_SIDE_LEFT));
static_assert(same(Side::right, JOINTLEDGER_SIDE_RIGHT));
static_assert(same(Side::both, JOINTLEDGER_SIDE_BOTH));
static_assert(same(Side::midline, JOINTLEDGER_SIDE_MIDLINE));
static_assert(same(Side::unstated, JOINTLEDGER_SIDE_UNSTATED));
static_assert(kSideCount == JOINTLEDGER_SIDE_UNSTATED + 1);

static_assert(same(Outcome::not_done, JOINTLEDGER_OUTCOME_NOT_DONE));
static_assert(same(Outcome::stated, JOINTLEDGER_OUTCOME_STATED));
static_assert(same(Outcome::normal, JOINTLEDGER_OUTCOME_NORMAL));
static_assert(same(Outcome::abnormal, JOINTLEDGER_OUTCOME_ABNORMAL));
static_assert(kOutcomeCount == JOINTLEDGER_OUTCOME_ABNORMAL + 1);

static_assert(same(Motion::flexion, JOINTLEDGER_MOTION_FLEXION));
static_assert(same(Motion::extension, JOINTLEDGER_MOTION_EXTENSION));
static_assert(same(Motion::abduction, JOINTLEDGER_MOTION_ABDUCTION));
static_assert(same(Motion::adduction, JOINTLEDGER_MOTION_ADDUCTION));
static_assert(same(Motion::internal_rotation, JOINTLEDGER_MOTION_INTERNAL_ROTATION));
static_assert(same(Motion::external_rotation, JOINTLEDGER_MOTION_EXTERNAL_ROTATION));
static_assert(same(Motion::rotation, JOINTLEDGER_MOTION_ROTATION));
static_assert(same(Motion::lateral_bending, JOINTLEDGER_MOTION_LATERAL_BENDING));
static_assert(same(Motion::supination, JOINTLEDGER_MOTION_SUPINATION));
static_assert(same(Motion::pronation, JOINTLEDGER_MOTION_PRONATION));
static_assert(same(Motion::radial_deviation, JOINTLEDGER_MOTION_RADIAL_DEVIATION));
static_assert(same(Motion::ulnar_deviation, JOINTLEDGER_MOTION_ULNAR_DEVIATION));
static_assert(same(Motion::dorsiflexion, JOINTLEDGER_MOTION_DORSIFLEXION));
static_assert(same(Motion::plantarflexion, JOINTLEDGER_MOTION_PLANTARFLEXION));
static_assert(same(Motion::inversion, JOINTLEDGER_MOTION_INVERSION));
static_assert(same(Motion::eversion, JOINTLEDGER_MOTION_EVERSION));
static_assert(same(Motion::opening, JOINTLEDGER_MOTION_OPENING));
static_assert(same(Motion::opposition, JOINTLEDGER_MOTION_OPPOSITION));
static_assert(same(Motion::circumduction, JOINTLEDGER_MOTION_CIRCUMDUCTION));
static_assert(same(Motion::elevation, JOINTLEDGER_MOTION_ELEVATION));
static_assert(same(Motion::depression, JOINTLEDGER_MOTION_DEPRESSION));
static_assert(same(Motion::protrusion, JOINTLEDGER_MOTION_PROTRUSION));
static_assert(same(Motion::lateral_excursion, JOINTLEDGER_MOTION_LATERAL_EXCURSION));
static_assert(same(Motion::protraction, JOINTLEDGER_MOTION_PROTRACTION));
static_assert(same(Motion::retraction, JOINTLEDGER_MOTION_RETRACTION));
static_assert(kMotionCount == JOINTLEDGER_MOTION_RETRACTION + 1);

static_assert(same(Kind::required, JOINTLEDGER_KIND_REQUIRED));
static_assert(same(Kind::advised, JOINTLEDGER_KIND_ADVISED));

static_assert(same(Reason::not_mentioned, JOINTLEDGER_REASON_NOT_MENTIONED));
static_assert(same(Reason::one_side_only, JOINTLEDGER_REASON_ONE_SIDE_ONLY));
static_assert(same(Reason::motions_missing, JOINTLEDGER_REASON_MOTIONS_MISSING));
static_assert(same(Reason::structures_missing, JOINTLEDGER_REASON_STRUCTURES_MISSING));
static_assert(same(Reason::no_result_stated, JOINTLEDGER_REASON_NO_RESULT_STATED));
static_assert(same(Reason::blanket_only, JOINTLEDGER_REASON_BLANKET_ONLY));
static_assert(same(Reason::deferred_without_reason, JOINTLEDGER_REASON_DEFERRED_WITHOUT_REASON));
static_assert(kReasonCount == JOINTLEDGER_REASON_DEFERRED_WITHOUT_REASON + 1);

static_assert(same(Check::contradiction, JOINTLEDGER_CHECK_CONTRADICTION));
static_assert(same(Check::side_conflict, JOINTLEDGER_CHECK_SIDE_CONFLICT));
static_assert(same(Check::implausible_value, JOINTLEDGER_CHECK_IMPLAUSIBLE_VALUE));
static_assert(same(Check::missing_joint, JOINTLEDGER_CHECK_MISSING_JOINT));
static_assert(same(Check::side_slip, JOINTLEDGER_CHECK_SIDE_SLIP));
static_assert(same(Check::copied_exam, JOINTLEDGER_CHECK_COPIED_EXAM));
static_assert(kCheckCount == JOINTLEDGER_CHECK_COPIED_EXAM + 1);

/// Names are string literals, so that each ends in a NUL.
const char* name_at(std::span<const std::string_view> names, int value) {
  return value >= 0 && static_cast<std::size_t>(value) < names.size() ? names[static_cast<std::size_t>(value)].data()
                                                                      : nullptr;
}

}  // namespace
}  // namespace jointledger

using namespace jointledger;

const char* jointledger_region_name(int value) noexcept { return name_at(region_names(), value); }
const char* jointledger_component_name(int value) noexcept { return name_at(component_names(), value); }
const char* jointledger_side_name(int value) noexcept { return name_at(side_names(), value); }
const char* jointledger_outcome_name(int value) noexcept { return name_at(outcome_names(), value); }
const char* jointledger_motion_name(int value) noexcept { return name_at(motion_names(), value); }
const char* jointledger_kind_name(int value) noexcept { return name_at(kind_names(), value); }
const char* jointledger_reason_name(int value) noexcept {
  return value >= 0 && value < static_cast<int>(kReasonCount) ? name(static_cast<Reason>(value)).data() : nullptr;
}
const char* jointledger_check_name(int value) noexcept { return name_at(check_names(), value); }
