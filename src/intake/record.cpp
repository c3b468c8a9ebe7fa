#include "intake/record.h"

#include <algorithm>

#include "text/utf8.h"

namespace jointledger {

std::string name_of(const Record& record) {
  std::string name = record.input == "-" ? "standard input" : record.input;
  if (record.place.line > 0) name.append(":").append(std::to_string(record.place.line));
  return name;
}

std::string name_of(const Record& record, std::string_view id, std::string_view kind) {
  constexpr std::size_t kLongestId = 64;
  std::string name = name_of(record);
  const bool is_id =
      !id.empty() && id.size() <= kLongestId && id.find_first_of(" \t\r\n\f\v") == std::string_view::npos;
  if (is_id && !first_invalid_utf8(id)) name.append(" (").append(kind).append(" ").append(id).append(")");
  return name;
}

Place place_in(const Record& record, std::size_t at) {
  const auto end = record.bytes.begin() + static_cast<std::ptrdiff_t>(std::min(at, record.bytes.size()));
  const auto breaks = static_cast<std::uint64_t>(std::count(record.bytes.begin(), end, '\n'));
  return {std::max<std::uint64_t>(record.place.line, 1) + breaks, record.place.offset + at};
}

}  // namespace jointledger
