// Regions and sides as the reader groups them.
#pragma once

#include "ledger/terms.h"

namespace jointledger {

/// Whether the region is one level of the spine.
inline bool has_level(Region region) {
  return region == Region::cervical_spine || region == Region::thoracic_spine || region == Region::lumbar_spine;
}

/// Whether the region is the spine or one of its levels.
inline bool is_spine(Region region) { return region == Region::spine || has_level(region); }

/// Whether both are of the arm, or both of the leg.
inline bool same_limb(Region a, Region b) {
  return (covers(Region::upper_extremity, a) && covers(Region::upper_extremity, b)) ||
         (covers(Region::lower_extremity, a) && covers(Region::lower_extremity, b));
}

/// Whether it is left or right.
inline bool is_one_side(Side side) { return side == Side::left || side == Side::right; }

/// Left for right and right for left; any other side as it is.
inline Side opposite(Side side) {
  if (side == Side::left) return Side::right;
  if (side == Side::right) return Side::left;
  return side;
}

}  // namespace jointledger
