// Bytes from somewhere: a file, the standard input, a decompressor around another stream.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <variant>

namespace jointledger {

/// Not thread-safe.
class ByteStream {
 public:
  ByteStream() = default;
  ByteStream(const ByteStream&) = delete;
  ByteStream& operator=(const ByteStream&) = delete;
  virtual ~ByteStream() = default;

  /// Puts the next bytes at the front of `out`, which is not empty, and says how many: as many as are there, waiting
  /// only for the first; 0 at the end. Or says why it cannot ("Input/output error"), and then does so ever after.
  virtual std::variant<std::size_t, std::string> read(std::span<char> out) = 0;
};

/// Opens the file at `path`, or the standard input if that is "-"; gzip is taken off. Or says why it cannot be opened.
std::variant<std::unique_ptr<ByteStream>, std::string> open_bytes(const std::string& path);

}  // namespace jointledger
