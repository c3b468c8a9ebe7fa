// Rows of CSV (RFC 4180): fields between commas, CR LF at the end, UTF-8 without a byte order mark.
#pragma once

#include <concepts>
#include <string>
#include <string_view>

namespace jointledger {

/// Writes one row, field by field. Borrows the string, and appends to it.
class CsvRow {
 public:
  explicit CsvRow(std::string& out) : out_(out) {}

  /// Any text, byte for byte; in quotes where it needs them. An empty one is a pair of quotes, which databases tell
  /// from no value.
  void text(std::string_view value);

  /// A name of the vocabulary or of a column, which never needs quotes.
  void name(std::string_view value);

  void number(std::integral auto value) { name(std::to_string(value)); }

  /// No value.
  void nothing() { separate(); }

  /// The last thing to call.
  void end() { out_.append("\r\n"); }

 private:
  void separate();

  std::string& out_;
  bool first_ = true;
};

}  // namespace jointledger
