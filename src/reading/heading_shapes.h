// How a heading looks, whatever it says: capitals, colons, dashes, line ends.
//
// Private to the files that find headings; headings.h is the door. All positions are tokens, and may be past the last
// one where nothing else is said.
#pragma once

#include <cctype>
#include <cstdint>
#include <string_view>

#include "reading/document.h"

namespace jointledger {

/// Whether the text or the line ends at a token.
inline bool is_break(const Document& d, std::uint32_t i) {
  return i >= d.tokens().size() || d.tokens()[i].kind == TokenKind::line_break;
}

/// Whether a word begins with a capital letter.
inline bool is_capitalized(std::string_view word) {
  return !word.empty() && std::isupper(static_cast<unsigned char>(word[0])) != 0;
}

/// Whether all words of tokens [first, last), which must exist, are in capitals, and there are two letters at least.
bool all_capitals(const Document& d, std::uint32_t first, std::uint32_t last);

/// One past the colon (and the stray comma some exports leave beside it) if one stands at `i`, else 0.
std::uint32_t past_colon(const Document& d, std::uint32_t i);

/// Whether a dash between spaces stands at `i`: "NECK - supple".
bool is_spaced_dash(const Document& d, std::uint32_t i);

/// Steps over what may follow a heading's phrase before its colon: "exam", "findings" and the like, a date, a bracket
/// of a few words.
std::uint32_t skip_suffix(const Document& d, std::uint32_t i);

}  // namespace jointledger
