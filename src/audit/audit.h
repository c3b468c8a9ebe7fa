// A ledger held against a profile: gaps, credits and score.
//
// Pure functions of their arguments, thread-safe. The audit sees the ledger only, never the text.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "audit/consistency.h"
#include "audit/profile.h"
#include "ledger/ledger.h"
#include "ledger/motion_limits.h"

namespace jointledger {

/// Why an expectation is not met.
enum class Reason : std::uint8_t {
  not_mentioned,
  one_side_only,  ///< nothing on this side, while the other was examined
  motions_missing,
  structures_missing,
  no_result_stated,
  blanket_only,             ///< only a remark on the limb, the whole body, or "unremarkable"
  deferred_without_reason,  ///< the note says that it was not done
};
inline constexpr std::size_t kReasonCount = 7;
std::string_view name(Reason value);    ///< as in output, e.g. "one_side_only"
std::string_view phrase(Reason value);  ///< in plain words, e.g. "one side only"

/// One expectation, for one region and side, that the ledger does not meet.
/// Where left and right lack the same thing they are one gap with side `both`; where they lack different things
/// they are two.
struct Gap {
  const Expectation* expectation = nullptr;  ///< borrowed from the Profile
  Region region = Region::whole_body;
  /// `midline` for the spine and the like. `unstated` where any side would do; and, with the reason
  /// `one_side_only`, where the note examines one side without saying which.
  Side side = Side::both;
  std::vector<Component> components;         ///< any one of them would close it
  MotionSet motions;                         ///< those that are missing
  std::vector<std::string_view> structures;  ///< those that are missing; borrowed from the Profile
  Reason reason = Reason::not_mentioned;
  std::vector<Span> nearest;  ///< the words that came nearest, ascending; may be empty
  /// Share that the note earns all the same of the expectation for this region, both sides taken together, 0..1.
  /// Two gaps of the same expectation and region carry the same figure.
  double credit = 0.0;
  std::string prompt;  ///< a line with blanks that would close it; never states a finding
};

/// An expectation that is met, for one region on all sides asked, and by which entries of the ledger.
struct Credit {
  const Expectation* expectation = nullptr;
  Region region = Region::whole_body;
  Side side = Side::both;              ///< the side asked for; `unstated` where any would do
  std::vector<std::uint32_t> entries;  ///< indices into Ledger::entries, ascending
};

struct Audit {
  const Profile* profile = nullptr;  ///< borrowed
  double score = 1.0;                ///< earned weight / applicable weight, 0..1; 1 where nothing applies
  std::uint32_t applicable = 0;      ///< demands made: (expectation, region) pairs that applied
  std::uint32_t met = 0;             ///< of those, how many are met on all sides asked
  std::vector<Gap> gaps;             ///< required before advised, then heavier first, then profile order
  std::vector<Credit> credits;       ///< profile order; one for each that is met
  /// What in the note does not hold together, but for what the profile switches off; the score leaves it out. Copied
  /// exams are added by whoever sees more than one note.
  std::vector<Inconsistency> inconsistencies;
  /// Entries of the ledger that are less certain than was asked for: they earn nothing, and a person should look.
  std::vector<std::uint32_t> doubtful;  ///< indices into Ledger::entries, ascending
  /// Whether a gap of the required kind is among them.
  bool lacks_required() const;
};

/// Never throws but for lack of memory. `profile` and `ledger` must outlive the result. Without `limits` no motion is
/// called implausible. Entries whose certainty is below `least_certainty` (0..1) count as if they were not there.
Audit audit(const Profile& profile, const Ledger& ledger, const MotionLimits& limits = {},
            float least_certainty = 0.0F);

}  // namespace jointledger
