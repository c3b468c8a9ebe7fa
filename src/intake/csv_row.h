// Rows of CSV (RFC 4180) and of TSV with the same quoting, as spreadsheets and databases write it.
#pragma once

#include <csv.h>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

/// Parses one row at a time, which may come in pieces. Quoted fields may hold separators, line breaks and doubled
/// quotes; blanks belong to their field. A quote inside a field that is not quoted stands for itself, as most programs
/// write it. Not thread-safe; used again, it stops allocating.
class CsvRow {
 public:
  explicit CsvRow(char separator);
  CsvRow(const CsvRow&) = delete;
  CsvRow& operator=(const CsvRow&) = delete;
  ~CsvRow();

  /// Forgets everything, half a row too.
  void clear();
  void set_separator(char separator);
  /// Forgets the fields of a row, but not that it has begun and whether quotes are open: for rows that are too long to
  /// keep, but whose end is wanted.
  void shed();

  /// Takes the next bytes. A quoted field that goes on after its closing quote is malformed; it is taken to go on up to
  /// a quote that a separator or a line break follows, so that the rows after it are still found.
  void take(std::string_view bytes);
  /// The input ends here, and the last row with it.
  void finish();

  bool malformed() const { return malformed_; }      ///< since clear()
  bool open() const { return open_; }                ///< finish() came within quotes
  std::size_t rows() const { return rows_; }         ///< ended since clear()
  std::size_t size() const { return ends_.size(); }  ///< fields since clear(), of all rows
  std::string_view operator[](std::size_t i) const;  ///< field i, without quotes; until clear() or take()

 private:
  static void on_field(void* data, std::size_t size, void* self);
  static void on_row(int end, void* self);

  csv_parser parser_ = {};
  std::string bytes_;  // of all fields, on end
  std::vector<std::size_t> ends_;
  std::size_t rows_ = 0;
  bool malformed_ = false;
  bool open_ = false;
};

}  // namespace jointledger
