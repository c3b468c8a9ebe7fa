// Passages of a note in characters, for formats that count and limit those. A character is a code point of Unicode.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "ledger/span.h"

namespace jointledger {

/// Counts the characters of a text before a byte. Borrows the text, which is valid UTF-8. Making one takes a look at
/// each byte; asking takes a look at a few hundred at most.
class CharacterIndex {
 public:
  explicit CharacterIndex(std::string_view text);

  /// How many characters begin before byte `at`, which is at most the size of the text.
  std::size_t before(std::size_t at) const;
  std::size_t in(Span span) const { return before(span.end) - before(span.start); }
  std::string_view text() const { return text_; }

 private:
  std::string_view text_;
  std::vector<std::size_t> marks_;  // how many before every kStep-th byte
};

/// The stretch of text, of at most `longest` characters, that holds the most of the evidence (not empty, ascending):
/// from the start of one piece to the end of another. Of several the first. A single piece that is longer is cut.
Span passage_of(const CharacterIndex& characters, std::span<const Span> evidence, std::size_t longest);

/// The passage and what stands around it, `longest` characters at most, both ends between words.
Span surroundings_of(const CharacterIndex& characters, Span passage, std::size_t longest);

}  // namespace jointledger
