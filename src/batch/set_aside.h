// Records that could not be read, kept whole for somebody to look at: one JSON object a line, in UTF-8.
//
//   {"record": what to call it, "line": ..., "offset": ..., "reason": ..., "bytes": the record as it came in}
//
// `line` (from 1; 0 for a whole input) and `offset` (bytes from the start of the input) are of the trouble if that is
// known, else of the record. A record that is not UTF-8, or too long to be held, has "base64" (RFC 4648, padded)
// instead of "bytes": so any bytes come back as they were. A line's break is not part of it.
// "bytes" is null where there is nothing to keep (an input that cannot be opened), where it cannot be had again (a
// record longer than kLongestRecord from a pipe), and in all lines but the first of a record in which several notes
// could not be read. These lines hold notes: they belong into the file that the user names for them, and nowhere else.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "batch/passed_over.h"
#include "intake/record.h"

namespace jointledger {

/// Appends a line for one fault. `bytes` are the record's; null gives null.
void append_set_aside(const RecordFault& fault, const std::string* bytes, std::string& out);

/// Writes the same line for a record whose bytes are read again from their place, chunk by chunk.
void write_set_aside(const RecordFault& fault, const PassedOver& place,
                     const std::function<void(std::string_view)>& write);

/// A line read back.
struct SetAside {
  RecordFault fault;
  std::optional<std::string> bytes;  ///< the record; nothing where none was kept
};

/// Or why it is none. `line` is without its break.
std::variant<SetAside, std::string> read_set_aside(std::string_view line);

}  // namespace jointledger
