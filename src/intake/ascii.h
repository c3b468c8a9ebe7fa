// Letters of ASCII, without regard to the locale: names of columns, character sets and media types.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace jointledger {

inline char ascii_lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

inline bool same_but_for_case(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, {}, ascii_lower, ascii_lower);
}

inline std::string lowered(std::string_view text) {
  std::string out(text);
  std::ranges::transform(out, out.begin(), ascii_lower);
  return out;
}

/// `text` without the white space around it.
inline std::string_view trimmed(std::string_view text, std::string_view white = " \t\r\n") {
  const std::size_t start = text.find_first_not_of(white);
  return start == std::string_view::npos ? std::string_view()
                                         : text.substr(start, text.find_last_not_of(white) - start + 1);
}

}  // namespace jointledger
