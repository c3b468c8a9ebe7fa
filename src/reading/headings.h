// Finding the headings of a note: lines, words before a colon, capitals, with or without line breaks.
#pragma once

#include <cstdint>
#include <optional>

#include "reading/document.h"

namespace jointledger {

/// A heading found at a token.
struct FoundHeading {
  std::uint32_t body = 0;          ///< first token after the heading and its punctuation
  std::uint32_t words_end = 0;     ///< one past the heading's last word
  const Heading* known = nullptr;  ///< nothing for a label that only names places, a side or nothing known
  Scope label;                     ///< for labels
  bool unknown = false;            ///< shaped like a heading, but of no known meaning
  bool opens_exam = false;         ///< "On examination, ...": what follows in this paragraph is exam text
};

/// The heading that begins at `token`, if one does. `line_start`: the token begins a line; `sentence_start`: it
/// begins a sentence or follows another heading.
std::optional<FoundHeading> find_heading(const Document& document, std::uint32_t token, bool line_start,
                                         bool sentence_start);

}  // namespace jointledger
