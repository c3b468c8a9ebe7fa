#include "lexicon/phrases.h"

namespace jointledger {

WordId Vocabulary::add(std::string_view folded) {
  const auto [at, fresh] = ids_.try_emplace(std::string(folded), static_cast<WordId>(words_.size() + 1));
  if (fresh) words_.push_back(at->first);
  return at->second;
}

WordId Vocabulary::find(std::string_view folded) const {
  const auto at = ids_.find(folded);
  return at == ids_.end() ? 0 : at->second;
}

std::optional<std::uint32_t> PhraseTable::add(std::span<const WordId> words, bool capitals, std::uint32_t value) {
  std::uint32_t node = 0;
  for (const WordId word : words) {
    std::uint32_t next = child(node, word);
    if (next == 0) {
      next = static_cast<std::uint32_t>(nodes_.size());
      nodes_.emplace_back();
      if (node == 0) {
        if (roots_.size() <= word) roots_.resize(word + 1, 0);
        roots_[word] = next;
      } else {
        edges_.emplace((std::uint64_t{node} << 32) | word, next);
      }
    }
    node = next;
  }
  std::uint32_t& slot = capitals ? nodes_[node].capitals_value : nodes_[node].value;
  if (slot != kNone) return slot;
  slot = value;
  return std::nullopt;
}

std::uint32_t PhraseTable::child(std::uint32_t node, WordId word) const {
  if (node == 0) return word < roots_.size() ? roots_[word] : 0;
  const auto at = edges_.find((std::uint64_t{node} << 32) | word);
  return at == edges_.end() ? 0 : at->second;
}

PhraseTable::Match PhraseTable::longest(std::span<const TokenKey> tokens, std::size_t at) const {
  Match best;
  std::uint32_t node = 0;
  for (std::size_t i = at; i < tokens.size(); ++i) {
    const std::uint32_t next = tokens[i].word == 0 ? 0 : child(node, tokens[i].word);
    if (next == 0) {
      if (i > at && tokens[i].joiner) continue;
      break;
    }
    node = next;
    const Node& here = nodes_[node];
    const auto length = static_cast<std::uint32_t>(i - at + 1);
    if (here.capitals_value != kNone && tokens[i].capitals) {
      best = {length, here.capitals_value};
    } else if (here.value != kNone) {
      best = {length, here.value};
    }
  }
  return best;
}

}  // namespace jointledger
