// The checks of a note against itself, by name: what a profile can switch off.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace jointledger {

enum class Check : std::uint8_t {
  contradiction,      ///< normal and abnormal for the same thing, without a word of change
  side_conflict,      ///< the complaint, the exam and the assessment are not of the same side
  implausible_value,  ///< a motion beyond what the joint can do, or a grade off its scale
  missing_joint,      ///< a joint said to be gone or fused, and examined as normal
  side_slip,          ///< the other side named under a heading with a side
  copied_exam,        ///< the exam repeats that of an earlier note
};
inline constexpr std::size_t kCheckCount = 6;

/// The id used in output and profiles, e.g. "side-conflict". Static storage.
std::string_view name(Check value);
std::span<const std::string_view> check_names();

/// What it looks for, one line in plain words. Static storage.
std::string_view phrase(Check value);

/// A set of checks.
class CheckSet {
 public:
  constexpr void insert(Check c) { bits_ |= bit(c); }
  constexpr bool contains(Check c) const { return (bits_ & bit(c)) != 0; }
  constexpr bool operator==(const CheckSet&) const = default;

 private:
  static constexpr unsigned bit(Check c) { return 1U << static_cast<unsigned>(c); }
  unsigned bits_ = 0;
};

}  // namespace jointledger
