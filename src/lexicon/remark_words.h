// Words that only the checks of a note against itself look at: remark_words.tsv and joint_states.tsv.
//
// Plain immutable data, owned by the Lexicon and shared by all threads.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "ledger/terms.h"

namespace jointledger {

/// What a word does to the remark it stands in.
struct RemarkWord {
  enum class Use : std::uint8_t {
    finding,   ///< what is spoken of; words with the same id speak of the same thing
    narrows,   ///< a direction or a manner: the remark holds for that only
    change,    ///< things were or became otherwise at another time
    hedge,     ///< a denial of much is none of a little: "no significant swelling"
    pain,      ///< a motion that hurts may be full
    compared,  ///< the other side, or another time, is named to compare with
  };
  Use use = Use::finding;
  std::string id;  ///< of finding and narrows
};

/// What a word says of a joint.
struct JointStateWord {
  enum class Use : std::uint8_t {
    absent,
    fused,
    excuse,  ///< beside one of the others: feared, planned, denied, or somebody else's
  };
  Use use = Use::absent;
  std::optional<Region> from;  ///< the first region that is gone, or the joint; nothing where the sentence names it
};

}  // namespace jointledger
