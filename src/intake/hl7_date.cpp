#include "intake/hl7_date.h"

#include <algorithm>

namespace jointledger {
namespace {

bool are_digits(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::string iso_date(std::string_view stamp) {
  const std::size_t zone_at = std::min(stamp.find_first_of("+-"), stamp.size());
  const std::string_view zone = stamp.substr(zone_at);
  const std::size_t point_at = std::min(stamp.substr(0, zone_at).find('.'), zone_at);
  const std::string_view digits = stamp.substr(0, point_at);
  const std::string_view fraction = stamp.substr(point_at, zone_at - point_at);
  const bool known_length = digits.size() >= 4 && digits.size() <= 14 && digits.size() % 2 == 0;
  const bool known_fraction = fraction.empty() || (digits.size() == 14 && fraction.size() > 1);
  const bool known_zone = zone.empty() || (zone.size() == 5 && digits.size() > 8);
  if (!known_length || !known_fraction || !known_zone || !are_digits(digits) ||
      !are_digits(fraction.substr(fraction.empty() ? 0 : 1)) || !are_digits(zone.substr(zone.empty() ? 0 : 1))) {
    return std::string(stamp);
  }
  std::string out(digits.substr(0, 4));
  constexpr std::string_view kBefore = "--T::";
  for (std::size_t at = 4; at < digits.size(); at += 2) {
    out.append(1, kBefore[at / 2 - 2]).append(digits.substr(at, 2));
  }
  if (digits.size() == 10) out.append(":00");  // ISO 8601 has no hour alone where a zone or an extended form is wanted
  out.append(fraction);
  if (!zone.empty()) out.append(zone.substr(0, 3)).append(":").append(zone.substr(3));
  return out;
}

}  // namespace jointledger
