// What the outputs call this program.
#pragma once

#include <string_view>

namespace jointledger {

/// "Jointledger 1.2.3".
inline constexpr std::string_view kSystem = "Jointledger " JOINTLEDGER_VERSION;

}  // namespace jointledger
