// JSON objects: a record a line where lines are objects, else the whole input is one.
#pragma once

#include <memory>

#include "intake/byte_stream.h"
#include "intake/splitter.h"

namespace jointledger {

/// The first line that is not blank decides: one that ends within an object, after a brace, a bracket or a comma, is
/// the start of an indented document, which is one record; after any other, lines are records (NDJSON, and a Bundle on
/// one line). Blank lines are no records. Records longer than `longest` bytes are refused.
std::unique_ptr<Splitter> split_json(std::unique_ptr<ByteStream> bytes, std::size_t longest = kLongestRecord);

}  // namespace jointledger
