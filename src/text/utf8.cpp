#include "text/utf8.h"

#include <simdjson.h>
#include <utf8proc.h>

namespace jointledger {

std::optional<std::size_t> first_invalid_utf8(std::string_view text) noexcept {
  if (simdjson::validate_utf8(text.data(), text.size())) return std::nullopt;

  // Rare, so the slow walk that finds the place costs nothing that matters.
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  std::size_t at = 0;
  while (at < text.size()) {
    utf8proc_int32_t code_point = 0;
    const auto length = utf8proc_iterate(bytes + at, static_cast<utf8proc_ssize_t>(text.size() - at), &code_point);
    if (length <= 0) break;
    at += static_cast<std::size_t>(length);
  }
  return at;
}

}  // namespace jointledger
