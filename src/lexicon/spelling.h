// Forgiving the misspellings of long words: "tendernes", "crepitis", "sternocleidomastiod".
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>

#include "lexicon/phrases.h"

namespace jointledger {

/// An index of words by what is left of them when a letter is taken out (Garbe's symmetric deletes, 2012, from
/// memory): two words one insertion, deletion or substitution apart share such a remainder.
/// Built once, then immutable and thread-safe.
class Spelling {
 public:
  /// Words shorter than this are never forgiven: too many of them are other words ("palm", "calm").
  static constexpr std::size_t kShortest = 7;
  /// The longer of the two words has at least this many.
  static constexpr std::size_t kLong = 8;

  void add(std::string_view word, WordId id);

  /// The word within one edit (insertion, deletion, substitution or swap of neighbours), or 0 if there is none. The
  /// first letter must agree. Of several, the only one of the same length; else 0. `scratch` is reused memory.
  WordId nearest(std::string_view word, std::string& scratch) const;

 private:
  std::unordered_map<std::uint64_t, boost::container::small_vector<WordId, 2>> remainders_;  // by hash
  std::unordered_map<WordId, std::string> words_;
};

}  // namespace jointledger
