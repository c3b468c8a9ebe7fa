// One demand, on one side, looked up in a ledger.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "audit/audit.h"
#include "audit/demand.h"

namespace jointledger {

/// What the ledger has to offer for one side of a demand.
struct Finding {
  bool met = false;
  bool seen = false;  ///< examined on this side, and said so closely enough, though perhaps not in full
  Reason reason = Reason::not_mentioned;     ///< where not met; never `one_side_only`, which takes both sides to tell
  double credit = 0.0;                       ///< share of this side that is earned, 0..1
  MotionSet motions;                         ///< those that are missing
  std::vector<std::string_view> structures;  ///< those that are missing
  std::vector<std::uint32_t> entries;        ///< those that meet it or come nearest, ascending
};

/// Entries whose side is not stated and cannot be told speak for one side, and the caller decides for which:
/// `count_unsided` says whether they speak for this one. `side` is one of `demand.sides`, or the opposite of one.
Finding look_up(const Demand& demand, const Ledger& ledger, Side side, bool count_unsided);

}  // namespace jointledger
