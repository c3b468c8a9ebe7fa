// The words of complaints.tsv in a sentence, and how far they reach.
//
// Private to complaints.cpp and the files beside it.
#pragma once

#include <cstdint>
#include <vector>

#include "reading/clause.h"

namespace jointledger {

/// A word of complaints.tsv at tokens [first, last).
struct FoundCue {
  const ComplaintCue* cue = nullptr;
  std::uint32_t first = 0;
  std::uint32_t last = 0;

  bool is(ComplaintCue::Use use) const { return cue->use == use; }
  /// Whether it tells of pain, stiffness, an injury and the like.
  bool is_symptom() const {
    return is(ComplaintCue::Use::symptom) || is(ComplaintCue::Use::vague) || is(ComplaintCue::Use::injury);
  }
  /// Whether what follows is the reason for the visit.
  bool is_visit() const { return is(ComplaintCue::Use::visit) || is(ComplaintCue::Use::again); }
};

/// Finds the words in tokens [sentence.first, sentence.last), the longest first. Replaces `out`.
void find_cues(const Document& document, const Sentence& sentence, std::vector<FoundCue>& out);

/// Whether one of them has the use.
bool has(const std::vector<FoundCue>& cues, ComplaintCue::Use use);

/// A sentence's parts and its words, for the judgements below. `reason`: it stands under the reason for the visit.
struct ToldSentence {
  const Document& document;
  const SentenceParts& parts;
  const std::vector<FoundCue>& cues;
  bool reason = false;
};

/// Whether a "but", a semicolon or the reason for the visit stands in tokens [from, to): what a word says of its
/// sentence ends there.
bool is_separated(const ToldSentence& sentence, std::uint32_t from, std::uint32_t to);

/// Whether what stands at a token is denied, of earlier times, gone, or only where the symptom spreads to.
bool is_excluded(const ToldSentence& sentence, std::uint32_t token);

/// Whether a symptom, an injury or the reason for the visit is told of the place at tokens [first, last).
bool is_told(const ToldSentence& sentence, const PlaceGroup& group, std::uint32_t first, std::uint32_t last);

/// Whether the place at tokens [first, last) is that of a symptom of no joint: "swelling of the legs".
bool is_general(const ToldSentence& sentence, const PlaceGroup& group, std::uint32_t first, std::uint32_t last);

/// Whether the item is part of the name of something that is no joint: "bladder neck".
bool is_organ(const ToldSentence& sentence, const Item& item);

}  // namespace jointledger
