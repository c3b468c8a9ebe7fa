// A record a message of HL7 version 2: from one MSH segment to the next.
#pragma once

#include <memory>

#include "intake/byte_stream.h"
#include "intake/splitter.h"

namespace jointledger {

/// Segments may end in CR, LF or both. The segments of a batch file around messages (FHS, BHS, BTS, FTS) and the bytes
/// that frame messages on the wire (MLLP: VT before, FS CR after) are passed over. What stands before the first message
/// and is none of these is a record of its own, for the decoder to refuse. Messages longer than `longest` bytes are
/// passed over, each with a fault.
std::unique_ptr<Splitter> split_into_messages(std::unique_ptr<ByteStream> bytes, std::size_t longest = kLongestRecord);

}  // namespace jointledger
