// Lines as they come in, with the bytes that end them: what the splitters of formats with records of several lines
// are made of.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/byte_stream.h"

namespace jointledger {

/// Not thread-safe. Memory: one chunk of the input.
class LineReader {
 public:
  /// `breaks`: the bytes any of which ends a line, e.g. "\n".
  LineReader(std::unique_ptr<ByteStream> bytes, std::string_view breaks);

  /// The next piece of a line, which holds until the next call: up to and with the break that ends it, or less where
  /// that has not come in yet. Empty at the end.
  std::string_view next_piece();
  /// Whether the last piece ended its line.
  bool at_line_start() const { return at_line_start_; }

  /// Appends the next line with its break to `out`; the last one may lack its break. What would make `out` longer than
  /// `most` bytes is dropped, and `cut()` is true until the next call. False, with nothing appended, at the end.
  bool next(std::string& out, std::size_t most);
  bool cut() const { return cut_; }

  std::uint64_t offset() const { return offset_; }  ///< in the input, of the next piece
  std::uint64_t line() const { return line_; }      ///< of the next piece, from 1; CR LF are one break
  /// Why the input could not be read to its end, once there was no more.
  const std::optional<std::string>& trouble() const { return trouble_; }

 private:
  bool fill();

  std::unique_ptr<ByteStream> bytes_;
  std::string breaks_;
  std::vector<char> chunk_;
  std::string_view rest_;  // of the chunk, not yet given out
  std::uint64_t offset_ = 0;
  std::uint64_t line_ = 1;
  bool at_line_start_ = true;
  bool after_cr_ = false;
  bool cut_ = false;
  bool done_ = false;
  std::optional<std::string> trouble_;
};

}  // namespace jointledger
