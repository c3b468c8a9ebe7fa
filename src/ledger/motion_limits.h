// How far the joints move: lexicon/ranges.tsv.
#pragma once

#include <vector>

#include "ledger/terms.h"

namespace jointledger {

/// One motion of one region, in degrees.
struct MotionLimit {
  Region region = Region::whole_body;
  Motion motion = Motion::flexion;
  int normal = 0;
  int implausible_above = 0;  ///< no joint goes further; a figure above it is a slip of the pen
};
using MotionLimits = std::vector<MotionLimit>;

}  // namespace jointledger
