#include "audit/consistency.h"

#include <cmath>

#include "audit/consistency_checks.h"

namespace jointledger {

std::vector<Inconsistency> inconsistencies(const Ledger& ledger, const MotionLimits& limits, CheckSet off) {
  std::vector<Inconsistency> out;
  if (!off.contains(Check::contradiction)) find_contradictions(ledger, out);
  if (!off.contains(Check::side_conflict)) find_side_conflicts(ledger, out);
  if (!off.contains(Check::implausible_value)) find_implausible_values(ledger, limits, out);
  if (!off.contains(Check::missing_joint)) find_missing_joints(ledger, out);
  if (!off.contains(Check::side_slip)) find_side_slips(ledger, out);
  return out;
}

Inconsistency copied_exam(std::span<const Span> exam, std::string_view other_note, double share) {
  Inconsistency found;
  found.check = Check::copied_exam;
  found.first.assign(exam.begin(), exam.end());
  found.message = std::to_string(std::lround(share * 100)) + " % of this exam stands in the same words in the note " +
                  std::string(other_note) + ". Was all of it examined again at this visit?";
  found.other_note = other_note;
  found.share = share;
  return found;
}

}  // namespace jointledger
