// The single checks behind inconsistencies(). Each appends what it finds, in the order of the text.
#pragma once

#include <vector>

#include "audit/consistency.h"

namespace jointledger {

void find_contradictions(const Ledger& ledger, std::vector<Inconsistency>& out);
void find_side_conflicts(const Ledger& ledger, std::vector<Inconsistency>& out);
void find_side_slips(const Ledger& ledger, std::vector<Inconsistency>& out);
void find_implausible_values(const Ledger& ledger, const MotionLimits& limits, std::vector<Inconsistency>& out);
void find_missing_joints(const Ledger& ledger, std::vector<Inconsistency>& out);

}  // namespace jointledger
