#include "text/lines.h"

#include <algorithm>
#include <array>

namespace jointledger {
namespace {

using Tokens = std::span<const Token>;

constexpr std::array<std::string_view, 7> list_signs = {"•", "·", "●", "▪", "■", "◦", "‣"};
constexpr std::array<std::string_view, 4> list_signs_if_apart = {"-", "–", "—", "*"};

std::string_view text_of(std::string_view text, const Token& token) {
  return text.substr(token.start, token.end - token.start);
}

bool contains(std::span<const std::string_view> signs, std::string_view sign) {
  return std::find(signs.begin(), signs.end(), sign) != signs.end();
}

/// "1." "12)" "a." "b)": how many tokens of `line` they are, or 0.
std::size_t counter_size(std::string_view text, Tokens line) {
  if (line.size() < 2 || line[1].space_before) return 0;
  const std::string_view close = text_of(text, line[1]);
  if (close != "." && close != ")") return 0;

  const std::string_view count = text_of(text, line[0]);
  if (line[0].kind == TokenKind::number && count.size() <= 2) return 2;
  const bool letter = count.size() == 1 && count[0] >= 'a' && count[0] <= 'h';
  const bool apart = line.size() == 2 || line[2].space_before;
  return letter && apart ? 2 : 0;
}

/// How many tokens the bullet of `line` takes up; 0 when it has none.
std::size_t bullet_size(std::string_view text, Tokens line) {
  const std::string_view first = text_of(text, line[0]);
  if (contains(list_signs, first)) return 1;
  if (contains(list_signs_if_apart, first)) {
    const bool apart = line.size() == 1 || line[1].space_before || line[1].kind == TokenKind::word;
    return apart ? 1 : 0;
  }
  return counter_size(text, line);
}

}  // namespace

void split_lines(std::string_view text, Tokens tokens, std::vector<Line>& out) {
  out.clear();
  bool blank_before = false;
  std::uint32_t start = 0;
  std::size_t first = 0;
  while (first < tokens.size()) {
    std::size_t last = first;
    while (last < tokens.size() && tokens[last].kind != TokenKind::line_break) ++last;
    const bool broken = last < tokens.size();

    if (last == first) {
      blank_before = true;
    } else {
      const std::size_t bullet = bullet_size(text, tokens.subspan(first, last - first));
      out.push_back({.first_token = static_cast<std::uint32_t>(first),
                     .last_token = static_cast<std::uint32_t>(last),
                     .start = start,
                     .end = broken ? tokens[last].start : static_cast<std::uint32_t>(text.size()),
                     .body_token = static_cast<std::uint32_t>(first + bullet),
                     .bullet = bullet != 0,
                     .blank_before = blank_before});
      blank_before = false;
    }
    if (broken) start = tokens[last].end;
    first = last + 1;
  }
}

}  // namespace jointledger
