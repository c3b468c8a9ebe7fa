// From the expectations of a profile to the demands that it makes of one ledger.
#pragma once

#include <boost/container/static_vector.hpp>
#include <vector>

#include "audit/profile.h"
#include "ledger/ledger.h"

namespace jointledger {

/// One expectation, asked of one region of one ledger.
struct Demand {
  const Expectation* expectation = nullptr;
  Region region = Region::whole_body;
  /// The sides to be documented: left and right, one of them, `midline`, or `unstated` where any side will do.
  boost::container::static_vector<Side, 2> sides;
  /// The side that an entry without one is taken for: the side complained of, or the only side of this region that
  /// the ledger names; `unstated` where neither tells.
  Side unsided_means = Side::unstated;
};

/// Every demand that applies, in the order of the profile.
std::vector<Demand> demands(const Profile& profile, const Ledger& ledger);

/// The other one of left and right; any other value as it is.
Side opposite(Side side);

}  // namespace jointledger
