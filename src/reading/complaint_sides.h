// The side of a complaint.
//
// Private to complaints.cpp and the files beside it.
#pragma once

#include <optional>
#include <vector>

#include "reading/complaint_cues.h"

namespace jointledger {

/// The side stated for a word that carries its own region ("left carpal tunnel syndrome"), beside it or with a place of
/// the same limb earlier in the sentence; the word's own side otherwise.
Side side_of_named(const ToldSentence& sentence, const FoundCue& found);

/// The side of a place: stated beside it, told by its number, or told nearby in the sentence.
Side side_of_place(const ToldSentence& sentence, const PlaceGroup::Member& member);

/// The half of the body that a word of weakness or numbness is said of: "left-sided weakness"; nothing without a side.
std::optional<Side> side_of_half(const ToldSentence& sentence, const FoundCue& found);

/// Gives complaints without a side the one that the rest of the note states for the region, if it states only one.
/// `sentences` and `parts` are scratch memory.
void find_missing_sides(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                        std::vector<Complaint>& complaints);

}  // namespace jointledger
