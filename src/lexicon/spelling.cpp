#include "lexicon/spelling.h"

#include <algorithm>
#include <cstdlib>
#include <functional>

namespace jointledger {
namespace {

std::uint64_t hash_of(std::string_view text) { return std::hash<std::string_view>{}(text); }

void without(std::string_view word, std::size_t at, std::string& out) {
  out.assign(word.substr(0, at));
  out.append(word.substr(at + 1));
}

// Whether two words are at most one edit apart, a swap of neighbours counting as one.
bool one_edit_apart(std::string_view a, std::string_view b) {
  if (a.size() > b.size()) std::swap(a, b);
  if (b.size() - a.size() > 1) return false;
  std::size_t i = 0;
  while (i < a.size() && a[i] == b[i]) ++i;
  if (a.size() < b.size()) {
    // A letter more or less at the end is another form of the word, unless it doubles the one before ("tendernes").
    if (i == a.size()) return b.size() > 1 && b[i] == b[i - 1];
    return a.substr(i) == b.substr(i + 1);
  }
  // A different last letter is another form of the word ("elevates", "elevated"), not a slip.
  if (i + 1 == a.size()) return false;
  if (i == a.size() || a.substr(i + 1) == b.substr(i + 1)) return true;
  return i + 1 < a.size() && a[i] == b[i + 1] && a[i + 1] == b[i] && a.substr(i + 2) == b.substr(i + 2);
}

}  // namespace

void Spelling::add(std::string_view word, WordId id) {
  if (word.size() < kShortest) return;
  words_.emplace(id, word);
  const auto put = [&](std::string_view remainder) {
    auto& ids = remainders_[hash_of(remainder)];
    if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
  };
  put(word);
  std::string remainder;
  for (std::size_t i = 0; i < word.size(); ++i) {
    without(word, i, remainder);
    put(remainder);
  }
}

WordId Spelling::nearest(std::string_view word, std::string& scratch) const {
  // The upper bound keeps a long run of letters from being cut up letter by letter.
  constexpr std::size_t kLongest = 40;
  if (word.size() < kShortest || word.size() > kLongest) return 0;
  WordId same_length = 0;
  WordId other = 0;
  bool ambiguous = false;
  const auto look = [&](std::string_view remainder) {
    const auto at = remainders_.find(hash_of(remainder));
    if (at == remainders_.end()) return;
    for (const WordId id : at->second) {
      const std::string& candidate = words_.at(id);
      if (std::max(candidate.size(), word.size()) < kLong) continue;
      if (candidate[0] != word[0] || !one_edit_apart(word, candidate)) continue;
      WordId& slot = candidate.size() == word.size() ? same_length : other;
      if (slot != 0 && slot != id) ambiguous = true;
      slot = id;
    }
  };
  look(word);
  for (std::size_t i = 0; i < word.size(); ++i) {
    without(word, i, scratch);
    look(scratch);
  }
  if (ambiguous) return 0;
  return same_length != 0 ? same_length : other;
}

}  // namespace jointledger
