// NDJSON: a line is a JSON object (RFC 8259) with "id", a string or a number that is not empty, and "text", a string.
// What else it holds is carried through as it is. A byte order mark before the first line is passed over.
//
// A line is refused as a whole if any part of it is not JSON, if a key stands in it twice, or if id or text is missing
// or cannot be used. An empty line is no note.
#pragma once

#include <memory>

#include "intake/decoder.h"

namespace jointledger {

std::unique_ptr<Decoder> make_ndjson_decoder();

}  // namespace jointledger
