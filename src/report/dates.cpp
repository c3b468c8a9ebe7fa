#include "report/dates.h"

#include <charconv>
#include <chrono>

namespace jointledger {
namespace {

constexpr std::size_t kLength = 10;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The number that `length` digits stand for.
std::uint32_t digits(std::string_view text, std::size_t at, std::size_t length) {
  std::uint32_t value = 0;
  std::from_chars(text.data() + at, text.data() + at + length, value);
  return value;
}

}  // namespace

bool is_date(std::string_view text) {
  if (text.size() != kLength) return false;
  for (std::size_t i = 0; i < kLength; ++i) {
    if (i == 4 || i == 7 ? text[i] != '-' : !is_digit(text[i])) return false;
  }
  const std::chrono::year_month_day day(std::chrono::year(static_cast<int>(digits(text, 0, 4))),
                                        std::chrono::month(digits(text, 5, 2)), std::chrono::day(digits(text, 8, 2)));
  return day.ok() && day.year() > std::chrono::year(0);
}

std::string_view date_at_start(std::string_view text) {
  const std::string_view date = text.substr(0, kLength);
  // "2031-03-041" is no date and some more.
  if (text.size() > kLength && is_digit(text[kLength])) return {};
  return is_date(date) ? date : std::string_view();
}

std::uint32_t number_of_date(std::string_view date) {
  if (date.empty()) return 0;
  return digits(date, 0, 4) * 10'000 + digits(date, 5, 2) * 100 + digits(date, 8, 2);
}

std::string date_of_number(std::uint32_t number) {
  std::string text = "0000-00-00";
  for (std::size_t i = text.size(); i-- > 0;) {
    if (text[i] == '-') continue;
    text[i] = static_cast<char>('0' + number % 10);
    number /= 10;
  }
  return text;
}

}  // namespace jointledger
