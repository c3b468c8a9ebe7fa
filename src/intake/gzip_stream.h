// gzip (RFC 1952), taken off on the way in, whatever format is inside.
#pragma once

#include <cstdint>
#include <memory>

#include "intake/byte_stream.h"

namespace jointledger {

/// Data that grows more than this many times is refused: notes shrink three- to twentyfold, the same note over and over
/// some two hundredfold; what was made to fill a memory shrinks a thousandfold.
inline constexpr std::uint64_t kMostGrowth = 500;

/// The first bytes may grow as they like: a short file of blanks is no attack.
inline constexpr std::uint64_t kGrowthAllowance = std::uint64_t{4} << 20;  // 4 MiB

/// The same bytes, decompressed if they start with the magic number of gzip. Looks when first read, so that opening
/// never waits. Several gzip members on end are one stream, zeros behind the last are passed over. Damaged and
/// truncated data, and data that grows too much, is a failure of read().
std::unique_ptr<ByteStream> without_gzip(std::unique_ptr<ByteStream> bytes);

}  // namespace jointledger
