// The kinds of headings, from the surest to the least sure. Each looks at the words that begin at a token.
//
// Private to headings.cpp and the files named here. `line_start` and `sentence_start` as for find_heading().
#pragma once

#include <cstdint>
#include <optional>

#include "reading/headings.h"

namespace jointledger {

// known_headings.cpp

/// A heading of lexicon/headings.tsv, or a phrase that opens exam text ("On examination, ..."). `match`: the longest
/// phrase of a heading that begins at the token; it has a length.
std::optional<FoundHeading> known_heading(const Document& d, std::uint32_t token, PhraseTable::Match match,
                                          bool line_start, bool sentence_start);

/// "On clinical examination, ...", "Her neurological exam shows ...": small words, then a phrase that opens exam text.
std::optional<FoundHeading> exam_opening(const Document& d, std::uint32_t token);

// place_labels.cpp

/// A label that names places or a side and little else: "Right knee:", "Examination of the left shoulder reveals:".
std::optional<FoundHeading> place_label(const Document& d, std::uint32_t token, bool line_start);

// unknown_headings.cpp

/// "Word word:" in capitals or title case, that no table knows as a whole.
std::optional<FoundHeading> unknown_heading(const Document& d, std::uint32_t token, bool line_start);

}  // namespace jointledger
