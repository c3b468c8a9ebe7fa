// What a text must be to be read as a note, whatever format it came in.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace jointledger {

/// Why a text cannot be read.
struct TextFault {
  std::string reason;  ///< as in RecordFault
  std::size_t at = 0;  ///< the byte of the text where the trouble is
};

/// Nothing if `text` is valid UTF-8 without NUL bytes and has more to it than white space; else the first fault.
std::optional<TextFault> fault_in_text(std::string_view text);

}  // namespace jointledger
