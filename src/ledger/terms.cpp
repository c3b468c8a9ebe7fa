#include "ledger/terms.h"

#include <algorithm>
#include <array>

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::array<std::string_view, kRegionCount> kRegions = {"temporomandibular"sv,
                                                                 "cervical_spine"sv,
                                                                 "thoracic_spine"sv,
                                                                 "lumbar_spine"sv,
                                                                 "pelvis"sv,
                                                                 "chest_wall"sv,
                                                                 "shoulder"sv,
                                                                 "upper_arm"sv,
                                                                 "elbow"sv,
                                                                 "forearm"sv,
                                                                 "wrist"sv,
                                                                 "hand"sv,
                                                                 "hip"sv,
                                                                 "thigh"sv,
                                                                 "knee"sv,
                                                                 "lower_leg"sv,
                                                                 "ankle"sv,
                                                                 "foot"sv,
                                                                 "spine"sv,
                                                                 "upper_extremity"sv,
                                                                 "lower_extremity"sv,
                                                                 "extremities"sv,
                                                                 "whole_body"sv};
constexpr std::array<std::string_view, kComponentCount> kComponents = {
    "inspection"sv, "palpation"sv, "range_of_motion"sv, "strength"sv, "stability"sv,  "special_test"sv,
    "sensation"sv,  "reflexes"sv,  "perfusion"sv,       "gait"sv,     "unspecified"sv};
constexpr std::array<std::string_view, kSideCount> kSides = {"left"sv, "right"sv, "both"sv, "midline"sv, "unstated"sv};
constexpr std::array<std::string_view, kOutcomeCount> kOutcomes = {"not_done"sv, "stated"sv, "normal"sv, "abnormal"sv};
constexpr std::array<std::string_view, kMotionCount> kMotions = {
    "flexion"sv,           "extension"sv,       "abduction"sv,         "adduction"sv,      "internal_rotation"sv,
    "external_rotation"sv, "rotation"sv,        "lateral_bending"sv,   "supination"sv,     "pronation"sv,
    "radial_deviation"sv,  "ulnar_deviation"sv, "dorsiflexion"sv,      "plantarflexion"sv, "inversion"sv,
    "eversion"sv,          "opening"sv,         "opposition"sv,        "circumduction"sv,  "elevation"sv,
    "depression"sv,        "protrusion"sv,      "lateral_excursion"sv, "protraction"sv,    "retraction"sv};

template <class Value, std::size_t N>
std::optional<Value> find(const std::array<std::string_view, N>& names, std::string_view text) {
  const auto at = std::ranges::find(names, text);
  if (at == names.end()) return std::nullopt;
  return static_cast<Value>(at - names.begin());
}

bool within(Region value, Region first, Region last) { return value >= first && value <= last; }

}  // namespace

std::string_view name(Region value) { return kRegions[static_cast<std::size_t>(value)]; }
std::string_view name(Component value) { return kComponents[static_cast<std::size_t>(value)]; }
std::string_view name(Side value) { return kSides[static_cast<std::size_t>(value)]; }
std::string_view name(Outcome value) { return kOutcomes[static_cast<std::size_t>(value)]; }
std::string_view name(Motion value) { return kMotions[static_cast<std::size_t>(value)]; }

std::optional<Region> region_named(std::string_view text) { return find<Region>(kRegions, text); }
std::optional<Component> component_named(std::string_view text) { return find<Component>(kComponents, text); }
std::optional<Side> side_named(std::string_view text) { return find<Side>(kSides, text); }
std::optional<Outcome> outcome_named(std::string_view text) { return find<Outcome>(kOutcomes, text); }
std::optional<Motion> motion_named(std::string_view text) { return find<Motion>(kMotions, text); }

std::span<const std::string_view> region_names() { return kRegions; }
std::span<const std::string_view> component_names() { return kComponents; }
std::span<const std::string_view> side_names() { return kSides; }
std::span<const std::string_view> outcome_names() { return kOutcomes; }
std::span<const std::string_view> motion_names() { return kMotions; }

bool is_paired(Region value) {
  return within(value, Region::shoulder, Region::foot) || within(value, Region::upper_extremity, Region::extremities);
}

bool is_group(Region value) { return value >= Region::spine; }

bool covers(Region wide, Region narrow) {
  if (wide == narrow) return true;
  switch (wide) {
    case Region::whole_body:
      return true;
    case Region::extremities:
      return is_paired(narrow);
    case Region::upper_extremity:
      return within(narrow, Region::shoulder, Region::hand);
    case Region::lower_extremity:
      return within(narrow, Region::hip, Region::foot);
    case Region::spine:
      return within(narrow, Region::cervical_spine, Region::lumbar_spine);
    default:
      return false;
  }
}

}  // namespace jointledger
