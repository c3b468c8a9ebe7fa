#include "report/csv_row.h"

#include <csv.h>

namespace jointledger {

void CsvRow::text(std::string_view value) {
  if (!value.empty() && value.find_first_of(",\"\r\n") == std::string_view::npos) return name(value);
  separate();
  const std::size_t start = out_.size();
  out_.resize(start + 2 * value.size() + 2);  // at the most, two quotes for each and one at either end
  out_.resize(start + csv_write(out_.data() + start, out_.size() - start, value.data(), value.size()));
}

void CsvRow::name(std::string_view value) {
  separate();
  out_.append(value);
}

void CsvRow::separate() {
  if (!first_) out_.push_back(',');
  first_ = false;
}

}  // namespace jointledger
