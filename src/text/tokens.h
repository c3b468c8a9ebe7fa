// Tokens: a note cut into words, numbers, signs and line breaks, each with its place in the note.
//
// The cut is made for matching phrases and reading figures, so it is finer than a reader's idea of a word:
//
//   "Non-tender; L4-L5, 3.5 cm"   Non - tender ; L 4 - L 5 , 3.5 cm
//   "5th pt's ____ 4+/5"          5 th pt's ____ 4 + / 5
//
// A caller puts together what it needs by looking at `space_before`: tokens that touch stood together in the note.
//
// Everything here is a free function without state: safe to call from any number of threads, each with its own
// output buffer. Texts are UTF-8 and shorter than 4 GiB.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

enum class TokenKind : std::uint8_t {
  word,    ///< a run of letters and their marks (Unicode L*, M*), with inner apostrophes: "knee", "O'Brien", "Œdème"
  number,  ///< a run of decimal digits (Nd), with at most one '.' between two of them: "120", "3.5"
  punct,   ///< one punctuation mark (P*); a run of '_' or of '*' is one token: "-", "/", "____", "***"
  symbol,  ///< any other visible character by itself: "+", "°", ">", "½", an emoji
  line_break,  ///< one of LF, CR LF, CR, VT, FF, U+2028, U+2029; a blank line is two of them in a row
};

/// One token, and where it stands: bytes [start, end) of the text given to tokenize().
struct Token {
  std::uint32_t start;
  std::uint32_t end;
  TokenKind kind;
  bool space_before;  ///< white space or a line break stands right before it; false at the very start of the text
  bool operator==(const Token&) const = default;
};

/// Cuts `utf8` into tokens, in order. `out` is cleared first and only grows, so a reused one stops allocating.
///
/// - Letters and digits never share a token: "L4" is a word and a number, so is "5th".
/// - An apostrophe (' or U+2019) belongs to a word only between two letters; elsewhere it is a punct.
/// - Hyphens, slashes, commas and colons are always tokens of their own: "1,000" is three tokens.
/// - A mark that follows a sign or a number belongs to it ("✔" with its variation selector is one token).
/// - White space is never a token: spaces of every width, tabs, NBSP, control characters, and what cannot be
///   seen (category Cf: soft hyphen, zero width space and joiners, byte order mark, direction marks). It ends the
///   token before it, so a soft hyphen inside a word splits it.
/// - Every other byte is in exactly one token. Text should be valid UTF-8 (see utf8.h); a byte that is not
///   becomes a symbol by itself.
void tokenize(std::string_view utf8, std::vector<Token>& out);

/// The text of a token as it is looked up: lower case, no accents, U+2019 as ', compatibility forms such as
/// ligatures and full width letters as plain ones. Replaces the contents of `out`, whose memory is reused.
///
/// Folding twice changes nothing, and the upper and lower case of a word fold alike (but for the Turkish dotless i).
/// The result may be longer or shorter than the text, and is empty for a mark that stands alone. Bytes that are not
/// UTF-8 are kept as they are. `token_text` must not point into `out`.
void fold(std::string_view token_text, std::string& out);

}  // namespace jointledger
