// Taking a profile from the shelf by the name that a person typed.
#pragma once

#include <string_view>
#include <vector>

#include "app/command.h"
#include "audit/profile.h"

namespace jointledger {

std::vector<std::string_view> names_of(const ProfileShelf& shelf);

/// The profile of that name. Null if there is none; then that has been said, with the names that there are, and with
/// the faults of the shelf, one of which may be the reason.
const Profile* choose_profile(const ProfileShelf& shelf, std::string_view name, Console& console);

}  // namespace jointledger
