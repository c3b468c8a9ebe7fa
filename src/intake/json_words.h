// What is wrong with JSON, in words that quote nothing of it, and how deep it may be.
#pragma once

#include <simdjson.h>

#include <cstddef>
#include <string_view>

namespace jointledger {

/// Nothing that is known of a note is nested deeper; what is means harm.
inline constexpr std::size_t kDeepestJson = 100;

/// "a string is not closed". For any error of simdjson but SUCCESS and UTF8_ERROR.
std::string_view words_for(simdjson::error_code error);

}  // namespace jointledger
