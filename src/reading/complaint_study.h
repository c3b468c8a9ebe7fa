// The place that an imaging report is of: "EXAM: MRI left knee. CLINICAL: Pain."
//
// Private to complaints.cpp and the files beside it.
#pragma once

#include <vector>

#include "reading/complaint_cues.h"

namespace jointledger {

/// What a note that begins with the title of a study tells: its places are the complaint if pain or the like is given
/// without a place, and they give their side to complaints of their limb that have none. Any other note is left alone.
/// `sentences`, `parts` and `cues` are scratch memory.
void read_study_title(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                      std::vector<FoundCue>& cues, std::vector<Complaint>& complaints);

}  // namespace jointledger
