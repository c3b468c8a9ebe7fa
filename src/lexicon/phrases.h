// Words to ids, phrases to values: the automaton that finds the lexicon's phrases in a note.
//
// Both are built once, then immutable and safe to share between threads.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "text/tokens.h"

namespace jointledger {

/// A folded word's number; 0 for words that no phrase uses.
using WordId = std::uint32_t;

/// The words that occur in phrases. Ids count from 1.
class Vocabulary {
 public:
  WordId add(std::string_view folded);
  /// 0 if no phrase uses the word.
  WordId find(std::string_view folded) const;
  std::size_t size() const { return words_.size(); }
  /// The word with that id; ids from 1 to size().
  std::string_view word(WordId id) const { return words_[id - 1]; }

 private:
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
  };
  std::unordered_map<std::string, WordId, Hash, std::equal_to<>> ids_;
  std::vector<std::string_view> words_;  // keys of ids_, whose nodes do not move
};

/// A token as phrases see it.
struct TokenKey {
  WordId word = 0;
  bool capitals = false;      ///< all its letters are capitals
  bool joiner = false;        ///< a hyphen or slash that may stand where a phrase has a space
  bool touches_next = false;  ///< no white space before the token after it
};

/// Phrases over word ids, matched leftmost-longest. A phrase of one word in capitals matches capitals only.
class PhraseTable {
 public:
  /// Adds a phrase; returns the value it had before, if it was there already (the first one stays).
  std::optional<std::uint32_t> add(std::span<const WordId> words, bool capitals, std::uint32_t value);

  struct Match {
    std::uint32_t length = 0;  ///< in tokens, joiners included; 0 for no match
    std::uint32_t value = 0;
  };
  /// The longest phrase that begins at `at`. A hyphen or slash between two words counts as the space between them.
  Match longest(std::span<const TokenKey> tokens, std::size_t at) const;

 private:
  static constexpr std::uint32_t kNone = ~std::uint32_t{0};
  struct Node {
    std::uint32_t value = kNone;           // a phrase ends here
    std::uint32_t capitals_value = kNone;  // a phrase in capitals ends here
  };
  std::uint32_t child(std::uint32_t node, WordId word) const;

  std::vector<Node> nodes_{1};
  std::unordered_map<std::uint64_t, std::uint32_t> edges_;  // node and word to node
  std::vector<std::uint32_t> roots_;                        // word to node, the first step's shortcut
};

}  // namespace jointledger
