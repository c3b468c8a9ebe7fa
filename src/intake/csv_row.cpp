#include "intake/csv_row.h"

#include <new>

namespace jointledger {
namespace {

constexpr unsigned char kStrict = CSV_STRICT | CSV_STRICT_FINI;
constexpr unsigned char kLenient = 0;
// csv_parser::pstate, which the library's header shows but does not name.
constexpr int kFieldBegun = 2;
constexpr int kAfterQuote = 3;                          // which closes its field, or is the first of two
constexpr std::size_t kGrowth = std::size_t{64} << 10;  // of the library's buffer, which holds a field

/// The library would cut blanks off; RFC 4180 has them as part of the field.
int no_space(unsigned char) { return 0; }

}  // namespace

CsvRow::CsvRow(char separator) {
  csv_init(&parser_, kStrict);
  csv_set_space_func(&parser_, no_space);
  csv_set_blk_size(&parser_, kGrowth);
  set_separator(separator);
}

CsvRow::~CsvRow() { csv_free(&parser_); }

void CsvRow::set_separator(char separator) { csv_set_delim(&parser_, static_cast<unsigned char>(separator)); }

void CsvRow::clear() {
  // The library forgets half a row only when it may end there.
  csv_set_opts(&parser_, kLenient);
  csv_fini(&parser_, nullptr, nullptr, nullptr);
  csv_set_opts(&parser_, kStrict);
  bytes_.clear();
  ends_.clear();
  rows_ = 0;
  malformed_ = open_ = false;
}

void CsvRow::shed() {
  const int state = parser_.pstate;
  const bool quoted = parser_.quoted != 0;
  clear();
  if (state == kAfterQuote) {
    take("\"\"");
  } else if (state == kFieldBegun) {
    take(quoted ? "\"" : "x");
  } else {
    const auto separator = static_cast<char>(csv_get_delim(&parser_));
    take({&separator, 1});
  }
}

void CsvRow::take(std::string_view bytes) {
  while (!bytes.empty()) {
    bytes.remove_prefix(csv_parse(&parser_, bytes.data(), bytes.size(), on_field, on_row, this));
    if (bytes.empty()) return;
    // The strict parser stopped at a byte; the lenient one takes it for itself.
    if (csv_error(&parser_) != CSV_EPARSE) throw std::bad_alloc();
    malformed_ = malformed_ || parser_.quoted != 0;
    csv_set_opts(&parser_, kLenient);
    csv_parse(&parser_, bytes.data(), 1, on_field, on_row, this);
    csv_set_opts(&parser_, kStrict);
    bytes.remove_prefix(1);
  }
}

void CsvRow::finish() { open_ = csv_fini(&parser_, on_field, on_row, this) != 0; }

std::string_view CsvRow::operator[](std::size_t i) const {
  const std::size_t start = i == 0 ? 0 : ends_[i - 1];
  return std::string_view(bytes_).substr(start, ends_[i] - start);
}

void CsvRow::on_field(void* data, std::size_t size, void* self) {
  auto& row = *static_cast<CsvRow*>(self);
  row.bytes_.append(static_cast<const char*>(data), size);
  row.ends_.push_back(row.bytes_.size());
}

void CsvRow::on_row(int, void* self) { ++static_cast<CsvRow*>(self)->rows_; }

}  // namespace jointledger
