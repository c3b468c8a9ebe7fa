// A profile: a named set of expectations for one purpose. One TOML file in rules/ each.
//
// A Profile is immutable once loaded and may be shared by all threads. It owns its strings.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "audit/checks.h"
#include "ledger/terms.h"

namespace jointledger {

/// When an expectation applies. With `regions` empty it is asked of every region to which the word applies:
/// each complaint, each region examined, each neighbour. With `regions` given, of each of those to which it applies;
/// a group in the list is then a complaint of the group ("leg pain"), not of a joint in it.
enum class Applies : std::uint8_t {
  always,
  if_examined,   ///< the ledger has an entry for the region itself that is not `not_done`
  if_complaint,  ///< the region is a complaint of the note
  if_injury,     ///< the region is a complaint and the history speaks of an injury
  if_neighbour,  ///< the joint above or below is a complaint, and the region itself is not
};

/// Which sides it asks for, once it applies.
enum class Sides : std::uint8_t {
  region_default,  ///< both for a paired region, midline for the others
  both,
  complaint_side,  ///< the side complained of (both sides where the complaint has none)
  other_side,      ///< the side not complained of; asks nothing where there is none, as of the spine
  any,             ///< one remark on whatever side is enough
};

/// How near a remark must be to count in full.
enum class Specificity : std::uint8_t {
  region,      ///< names this joint or segment
  limb,        ///< or its limb, the extremities, or the spine as a whole
  whole_body,  ///< or the whole body
};

enum class Kind : std::uint8_t { required, advised };

struct Expectation {
  std::string id;  ///< unique within its profile, e.g. "shoulder-motion"
  Applies applies = Applies::always;
  std::vector<Region> regions;          ///< asked of each of them; empty: see Applies, never empty with `always`
  std::vector<Component> components;    ///< any one of them meets it (strength, stability or a named test)
  MotionSet motions;                    ///< each must be named, or the motion be called full; empty: any
  std::vector<std::string> structures;  ///< structure ids that must be named
  Sides sides = Sides::region_default;
  Specificity specificity = Specificity::region;
  bool distally = false;     ///< a remark further down the limb counts as one on the region (sensation at the foot)
  bool needs_result = true;  ///< a remark without a result ("ROM tested") does not meet it
  double weight = 1.0;       ///< more than 0, at most kHeaviest
  Kind kind = Kind::required;
  std::string asks;  ///< one line: what should be in the note
  std::string why;
  std::string source;  ///< a citation, or "common practice, no source"
};
inline constexpr double kHeaviest = 10.0;

struct Profile {
  std::string name;     ///< the file's stem, e.g. "screening"
  std::string title;    ///< one line for a listing
  std::string purpose;  ///< who should use it for what
  std::string caution;  ///< what it does not say; shown with each audit
  std::vector<Expectation> expectations;
  CheckSet checks_off;  ///< checks of the note against itself that are not made
};

/// The name used in profile files, e.g. "if_complaint". Static storage.
std::string_view name(Applies value);
std::string_view name(Sides value);
std::string_view name(Specificity value);
std::string_view name(Kind value);

/// All names of a set, in the order of its values. Static storage.
std::span<const std::string_view> applies_names();
std::span<const std::string_view> sides_names();
std::span<const std::string_view> specificity_names();
std::span<const std::string_view> kind_names();

/// One thing wrong with a profile file. `line` counts from 1; 0 where the file could not be read at all.
struct ProfileFault {
  std::string file;
  std::uint32_t line = 0;
  std::string message;  ///< with a suggestion where a near name exists
};

/// What a caller knows that a profile can be held against. Profiles name structures by the ids of the
/// lexicon, which this room does not see: give its ids here to have them checked.
struct ProfileChecks {
  std::optional<std::span<const std::string_view>> structures;
};

using ProfileOrFaults = std::variant<Profile, std::vector<ProfileFault>>;

/// Reads and checks the text of one profile; either the profile or every fault found, by line (unknown keys,
/// regions, motions, values out of range, duplicate ids). `file` is the name that faults are reported under;
/// its stem must be the profile's name. Never throws but for lack of memory.
ProfileOrFaults parse_profile(std::string_view toml, std::string_view file, const ProfileChecks& checks = {});

/// The same for a file on disk.
ProfileOrFaults load_profile(const std::filesystem::path& file, const ProfileChecks& checks = {});

/// All profiles of a folder, sorted by name, and the faults of the files that could not be loaded.
struct ProfileShelf {
  std::vector<Profile> profiles;
  std::vector<ProfileFault> faults;
};
ProfileShelf load_profiles(const std::filesystem::path& folder, const ProfileChecks& checks = {});

}  // namespace jointledger
