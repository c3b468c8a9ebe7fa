// One record an input: the whole of it.
#pragma once

#include <memory>

#include "intake/byte_stream.h"
#include "intake/splitter.h"

namespace jointledger {

/// Inputs longer than `longest` bytes are refused, with a fault. An empty one is a record without bytes.
std::unique_ptr<Splitter> take_whole(std::unique_ptr<ByteStream> bytes, std::size_t longest = kLongestRecord);

}  // namespace jointledger
