#include "reading/heading_shapes.h"

namespace jointledger {
namespace {

// One past a date ("HCT 11/4/92:"); `i` if there is none.
std::uint32_t skip_date(const Document& d, std::uint32_t i) {
  if (d.tokens()[i].kind != TokenKind::number) return i;
  const auto is_of_date = [&](std::uint32_t j) {
    return d.tokens()[j].kind == TokenKind::number || d.is(j, "/") || d.is(j, "-");
  };
  std::uint32_t j = i;
  while (j < i + 6 && !is_break(d, j) && is_of_date(j)) ++j;
  return j >= i + 3 ? j : i;
}

// One past a bracket of a few words that opens at `i`; 0 if it does not close.
std::uint32_t skip_bracket(const Document& d, std::uint32_t i) {
  std::uint32_t j = i + 1;
  while (j < i + 8 && !is_break(d, j) && !d.is(j, ")") && !d.is(j, "]")) ++j;
  return is_break(d, j) || j == i + 8 ? 0 : j + 1;
}

// Whether a heading says no more than that this is an exam or a result.
bool is_suffix(const Heading& heading) {
  return heading.level == Heading::Level::section &&
         (heading.section == SectionKind::exam || heading.section == SectionKind::data);
}

}  // namespace

bool all_capitals(const Document& d, std::uint32_t first, std::uint32_t last) {
  std::size_t letters = 0;
  for (std::uint32_t i = first; i < last; ++i) {
    if (d.tokens()[i].kind != TokenKind::word) continue;
    if (!d.keys()[i].capitals) return false;
    letters += d.tokens()[i].end - d.tokens()[i].start;
  }
  return letters >= 2;
}

std::uint32_t past_colon(const Document& d, std::uint32_t i) {
  if (d.is(i, ",") && d.is(i + 1, ":")) ++i;
  if (!d.is(i, ":") && !d.is(i, "：")) return 0;
  ++i;
  while (d.is(i, ",") || d.is(i, ":")) ++i;
  return i;
}

bool is_spaced_dash(const Document& d, std::uint32_t i) {
  if (i + 1 >= d.tokens().size()) return false;
  if (!d.is(i, "-") && !d.is(i, "–") && !d.is(i, "—")) return false;
  return d.tokens()[i + 1].space_before;
}

std::uint32_t skip_suffix(const Document& d, std::uint32_t i) {
  for (int words = 0; words < 2 && !is_break(d, i); ++words) {
    i = skip_date(d, i);
    if (d.is(i, "(") || d.is(i, "[")) {
      const std::uint32_t behind = skip_bracket(d, i);
      if (behind == 0) return i;
      i = behind;
      continue;
    }
    const auto match = d.lexicon().heading_phrases().longest(d.keys(), i);
    if (match.length == 0 || !is_suffix(d.lexicon().heading(match.value))) return i;
    i += match.length;
  }
  return i;
}

}  // namespace jointledger
