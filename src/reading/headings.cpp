#include "reading/headings.h"

#include "reading/heading_kinds.h"

namespace jointledger {

std::optional<FoundHeading> find_heading(const Document& d, std::uint32_t token, bool line_start, bool sentence_start) {
  const TokenKind kind = d.tokens()[token].kind;
  if (kind != TokenKind::word && kind != TokenKind::number) return std::nullopt;
  const auto match = d.lexicon().heading_phrases().longest(d.keys(), token);
  if (match.length > 0) {
    if (auto known = known_heading(d, token, match, line_start, sentence_start)) return known;
  }
  if (!line_start && !sentence_start) return std::nullopt;
  if (auto opening = exam_opening(d, token)) return opening;
  if (auto label = place_label(d, token, line_start)) return label;
  return unknown_heading(d, token, line_start);
}

}  // namespace jointledger
