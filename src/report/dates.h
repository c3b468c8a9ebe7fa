// Days of the calendar as ISO 8601 writes them, YYYY-MM-DD, of the years 1 to 9999. Pure functions.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace jointledger {

bool is_date(std::string_view text);

/// The date at the start of a text ("2031-03-04T10:15Z"); empty if there is none.
std::string_view date_at_start(std::string_view text);

/// As yyyymmdd, to compare and to keep; 0 for an empty text. `date` is empty or a date.
std::uint32_t number_of_date(std::string_view date);

/// And back; `number` is not 0.
std::string date_of_number(std::uint32_t number);

}  // namespace jointledger
