// The vocabulary of the ledger: regions, components, sides, outcomes, motions.
//
// These are closed sets: they are what a profile may ask about and what a coding may contain, so they
// live in code. Everything that says how people *write* about them lives in lexicon/.
// All functions are pure and thread-safe.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace jointledger {

/// A place on the body. The last five are groups, used when the note names no joint.
enum class Region : std::uint8_t {
  temporomandibular,
  cervical_spine,
  thoracic_spine,
  lumbar_spine,
  pelvis,
  chest_wall,
  shoulder,
  upper_arm,
  elbow,
  forearm,
  wrist,
  hand,
  hip,
  thigh,
  knee,
  lower_leg,
  ankle,
  foot,
  spine,
  upper_extremity,
  lower_extremity,
  extremities,
  whole_body,
};
inline constexpr std::size_t kRegionCount = 23;

/// A part of the exam. `unspecified` is a blanket remark ("left hip: normal") and satisfies nothing.
enum class Component : std::uint8_t {
  inspection,
  palpation,
  range_of_motion,
  strength,
  stability,
  special_test,
  sensation,
  reflexes,
  perfusion,
  gait,
  unspecified,
};
inline constexpr std::size_t kComponentCount = 11;

enum class Side : std::uint8_t { left, right, both, midline, unstated };
inline constexpr std::size_t kSideCount = 5;

/// What the note says came of it, in the order in which remarks on one cell win over each other:
/// a later value beats an earlier one.
enum class Outcome : std::uint8_t { not_done, stated, normal, abnormal };
inline constexpr std::size_t kOutcomeCount = 4;

enum class Motion : std::uint8_t {
  flexion,
  extension,
  abduction,
  adduction,
  internal_rotation,
  external_rotation,
  rotation,
  lateral_bending,
  supination,
  pronation,
  radial_deviation,
  ulnar_deviation,
  dorsiflexion,
  plantarflexion,
  inversion,
  eversion,
  opening,
  opposition,
  circumduction,
  elevation,
  depression,
  protrusion,
  lateral_excursion,
  protraction,
  retraction,
};
inline constexpr std::size_t kMotionCount = 25;

/// The name used in every file format and option, e.g. "range_of_motion". Static storage.
std::string_view name(Region value);
std::string_view name(Component value);
std::string_view name(Side value);
std::string_view name(Outcome value);
std::string_view name(Motion value);

/// The value with that name, exact match; nothing if there is none.
std::optional<Region> region_named(std::string_view text);
std::optional<Component> component_named(std::string_view text);
std::optional<Side> side_named(std::string_view text);
std::optional<Outcome> outcome_named(std::string_view text);
std::optional<Motion> motion_named(std::string_view text);

/// All names of a set, in the order of its values, for messages and suggestions. Static storage.
std::span<const std::string_view> region_names();
std::span<const std::string_view> component_names();
std::span<const std::string_view> side_names();
std::span<const std::string_view> outcome_names();
std::span<const std::string_view> motion_names();

/// Whether the region comes in a left and a right (shoulder, hand, lower_extremity, extremities ...).
/// The spine, pelvis, chest wall, jaw and whole body do not: they are `midline` unless a side is stated.
bool is_paired(Region value);

/// Whether the region is a group rather than a place (spine, upper_extremity, ..., whole_body).
bool is_group(Region value);

/// Whether a remark about `wide` speaks of `narrow` too: itself, its limb or spine, the extremities, the body.
/// covers(upper_extremity, elbow), covers(spine, lumbar_spine), covers(extremities, knee), covers(whole_body, x).
bool covers(Region wide, Region narrow);

/// A set of motions.
class MotionSet {
 public:
  constexpr MotionSet() = default;
  constexpr void insert(Motion m) { bits_ |= bit(m); }
  constexpr void insert(MotionSet other) { bits_ |= other.bits_; }
  constexpr bool contains(Motion m) const { return (bits_ & bit(m)) != 0; }
  constexpr bool empty() const { return bits_ == 0; }
  /// Those of this set that `other` lacks.
  constexpr MotionSet without(MotionSet other) const { return MotionSet(bits_ & ~other.bits_); }
  constexpr bool operator==(const MotionSet&) const = default;

 private:
  constexpr explicit MotionSet(std::uint32_t bits) : bits_(bits) {}
  static constexpr std::uint32_t bit(Motion m) { return std::uint32_t{1} << static_cast<unsigned>(m); }
  std::uint32_t bits_ = 0;
};

}  // namespace jointledger
