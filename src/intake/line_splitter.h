// A record a line. Lines end in LF or CR LF; the last one may lack its end. Empty lines are records too.
#pragma once

#include <memory>

#include "intake/byte_stream.h"
#include "intake/splitter.h"

namespace jointledger {

/// Lines longer than `longest` bytes are passed over, each with a fault.
std::unique_ptr<Splitter> split_into_lines(std::unique_ptr<ByteStream> bytes, std::size_t longest = kLongestRecord);

}  // namespace jointledger
