// A record a row of a table with a header row. A row may be several lines, where a quoted field holds line breaks.
#pragma once

#include <memory>
#include <string_view>

#include "intake/byte_stream.h"
#include "intake/csv_columns.h"
#include "intake/splitter.h"

namespace jointledger {

/// What stands between the fields of a row.
enum class CsvSeparator : char { comma = ',', tab = '\t', either = 0 };

/// A tab if the line has more tabs than commas, else a comma.
char likely_separator(std::string_view header);

/// The header row becomes the `head` of all records; without the columns for id and text the input is one fault. Rows
/// longer than `longest` bytes are passed over, each with a fault. Empty lines are no rows.
std::unique_ptr<Splitter> split_into_rows(std::unique_ptr<ByteStream> bytes, CsvSeparator separator, CsvNames names,
                                          std::size_t longest = kLongestRecord);

}  // namespace jointledger
