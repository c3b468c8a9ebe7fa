// A note held against itself: what in it does not hold together.
//
// Pure functions of their arguments, thread-safe. They see the ledger only, never the text, and say nothing of the
// patient: each finding puts two places of the note side by side and asks which one holds. The score is not touched.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "audit/checks.h"
#include "ledger/ledger.h"
#include "ledger/motion_limits.h"

namespace jointledger {

/// Two places of a note that do not hold together, or one and what it is held against.
struct Inconsistency {
  Check check = Check::contradiction;
  Region region = Region::whole_body;  ///< whole_body for a copied exam
  Side side = Side::unstated;
  std::optional<Component> component;  ///< where it is of one
  std::vector<Span> first;             ///< the words, ascending; never empty
  std::vector<Span> second;            ///< the words against them; empty where it is a limit or another note
  std::string message;                 ///< asks, in plain words; never states a finding
  std::string other_note;              ///< of a copied exam: the id of the earlier note
  double share = 0.0;                  ///< of a copied exam: how much of it stands in the earlier one, 0..1
};

/// All of a ledger but those switched off, in the order of the checks and then of the text. Without `limits` no motion
/// is out of range. Copied exams take two notes: see copied_exam(). Contradictions are sought among the first 4096
/// remarks of a note.
std::vector<Inconsistency> inconsistencies(const Ledger& ledger, const MotionLimits& limits, CheckSet off);

/// The finding that an exam repeats that of `other_note`; `exam` is the exam's text in this note.
Inconsistency copied_exam(std::span<const Span> exam, std::string_view other_note, double share);

}  // namespace jointledger
