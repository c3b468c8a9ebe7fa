#include "intake/note_text.h"

#include "text/utf8.h"

namespace jointledger {

std::optional<TextFault> fault_in_text(std::string_view text) {
  if (text.find_first_not_of(" \t\r\n\f\v") == std::string_view::npos) return TextFault{"the note has no text", 0};
  // Both are tested before either is reported: the earlier one is the one to look at.
  const std::optional<std::size_t> invalid = first_invalid_utf8(text);
  const std::size_t nul = text.substr(0, invalid.value_or(text.size())).find('\0');
  if (nul != std::string_view::npos) {
    return TextFault{"a NUL byte at byte " + std::to_string(nul) + " of the text", nul};
  }
  if (invalid) return TextFault{"not UTF-8 from byte " + std::to_string(*invalid) + " of the text", *invalid};
  return std::nullopt;
}

}  // namespace jointledger
