// Is a JSON document as its JSON Schema says?
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace jointledger::testing {

/// Empty if it is, else what is wrong, a line each.
std::string schema_faults(const nlohmann::json& document, const nlohmann::json& schema);

}  // namespace jointledger::testing
