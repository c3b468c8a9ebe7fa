#include "intake/record.h"

#include <algorithm>

namespace jointledger {

std::string name_of(const Record& record) {
  std::string name = record.input == "-" ? "standard input" : record.input;
  if (record.place.line > 0) name.append(":").append(std::to_string(record.place.line));
  return name;
}

Place place_in(const Record& record, std::size_t at) {
  const auto end = record.bytes.begin() + static_cast<std::ptrdiff_t>(std::min(at, record.bytes.size()));
  const auto breaks = static_cast<std::uint64_t>(std::count(record.bytes.begin(), end, '\n'));
  return {std::max<std::uint64_t>(record.place.line, 1) + breaks, record.place.offset + at};
}

}  // namespace jointledger
