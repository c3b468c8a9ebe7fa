// Lines: where the lines of a note begin and end, and which of them are items of a list.
//
// Stateless and thread-safe; works on the tokens of tokens.h.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "text/tokens.h"

namespace jointledger {

/// One line that has at least one token in it. Its tokens are [first_token, last_token) of the note's tokens,
/// without the line break.
struct Line {
  std::uint32_t first_token;
  std::uint32_t last_token;
  std::uint32_t start;       ///< first byte of the line, indentation included
  std::uint32_t end;         ///< one past its last byte, line break excluded
  std::uint32_t body_token;  ///< first token after the bullet: first_token without one, last_token when nothing follows
  bool bullet;               ///< starts as an item of a list does, see split_lines()
  bool blank_before;         ///< at least one blank line stands before it
  bool operator==(const Line&) const = default;
};

/// Replaces the contents of `out` with the lines of `text`, given the tokens that tokenize() made of it.
/// Blank lines are not lines; the next line tells of them. A reused `out` stops allocating.
///
/// What counts as a bullet, at the start of a line:
/// - • · ● ▪ ■ ◦ ‣ whatever follows;
/// - one of - – — or a single *, followed by white space, a word or nothing ("-5" and "---" are no bullets);
/// - one or two digits and '.' or ')', whatever follows: "1." "12)" ("1.5" is a number, so no bullet);
/// - a small letter from a to h and '.' or ')', followed by white space: "a." "b)". Capitals and letters further
///   on stand for abbreviations more often than for items.
void split_lines(std::string_view text, std::span<const Token> tokens, std::vector<Line>& out);

}  // namespace jointledger
