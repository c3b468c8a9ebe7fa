// What the audit needs to know of how the body hangs together: neighbours, what lies distally, and where the
// same motion is written under another name. Pure functions over static tables, thread-safe.
#pragma once

#include <span>

#include "ledger/terms.h"

namespace jointledger {

/// The joints that are looked at with this one, the one above and the one below; at most two, and none for a
/// group without ends. Source: anatomy and common practice ("the joint above and the joint below").
std::span<const Region> neighbours(Region region);

/// Whether `far` lies further down the same limb than `near`, or in the limb whose nerves leave `near`'s level of
/// the spine. Not so of a region and itself.
bool is_distal(Region far, Region near);

/// The motions of `region` that a note may as well write under `elsewhere`: supination under the forearm.
MotionSet motions_written_elsewhere(Region region, Region elsewhere);

/// The motions that a remark on `region` speaks of by naming `named`: "rotation" is both rotations.
MotionSet motions_meant(Region region, MotionSet named);

/// The motions that a range without a name gives ("0-140"): both ends of a hinge joint, else none.
MotionSet motions_of_unnamed_range(Region region);

}  // namespace jointledger
