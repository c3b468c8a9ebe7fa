// A place in the text of a note.
#pragma once

#include <cstdint>

namespace jointledger {

/// A range of bytes of the note as it came in, half open: [start, end).
struct Span {
  std::uint32_t start = 0;
  std::uint32_t end = 0;
  bool operator==(const Span&) const = default;
};

}  // namespace jointledger
