// Tells whether bytes are the ones that were seen before. Against mishaps, not against malice.
#pragma once

#include <zlib.h>

#include <cstdint>
#include <string_view>

namespace jointledger {

/// CRC-32 (as in RFC 1952) of all that `sum` is the checksum of, followed by `bytes` and a line break: so lines give
/// the checksum of the file that they stand in, and "a", "b" another one than "ab". 0 begins. Pure.
inline std::uint32_t checksum(std::string_view bytes, std::uint32_t sum = 0) {
  constexpr Bytef kEnd = '\n';
  const auto* data = reinterpret_cast<const Bytef*>(bytes.data());
  return static_cast<std::uint32_t>(::crc32_z(::crc32_z(sum, data, bytes.size()), &kEnd, 1));
}

}  // namespace jointledger
