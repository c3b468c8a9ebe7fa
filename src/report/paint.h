// Colour on a terminal, of the terminal's own palette. It only underlines: without it, nothing is lost.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace jointledger {

enum class Paint : std::uint8_t {
  plain,
  faint,    ///< there, but not to be looked at first
  strong,   ///< headings, and what the note found wrong
  notice,   ///< something advised
  warning,  ///< something required
};

/// Appends the text, painted if `colour`.
inline void append_painted(std::string_view text, Paint paint, bool colour, std::string& out) {
  if (!colour || paint == Paint::plain) {
    out.append(text);
    return;
  }
  switch (paint) {
    case Paint::plain:
      break;
    case Paint::faint:
      out.append("\x1b[2m");
      break;
    case Paint::strong:
      out.append("\x1b[1m");
      break;
    case Paint::notice:
      out.append("\x1b[36m");
      break;
    case Paint::warning:
      out.append("\x1b[1;33m");
      break;
  }
  out.append(text).append("\x1b[0m");
}

}  // namespace jointledger
