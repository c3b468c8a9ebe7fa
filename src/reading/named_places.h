// Places that a text names with their sides, said of or not: what a conflict of sides is seen from.
#pragma once

#include <vector>

#include "reading/clause.h"
#include "reading/document.h"

namespace jointledger {

/// Appends every place of a sentence, and every side that stands beside none.
void name_places(const Document& document, const SentenceParts& parts, std::vector<NamedPlace>& out);

/// The same for the label of a stretch.
void name_label(const Stretch& stretch, std::vector<NamedPlace>& out);

/// The places of the assessment and plan. Appends to `out`; `sentences` and `parts` are scratch memory.
void find_assessed(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                   std::vector<NamedPlace>& out);

/// Appends the places of a sentence whose side slips from that of the label in force.
void find_slips(const Document& document, const SentenceParts& parts, const Scope& label, Span heading,
                std::vector<SideSlip>& out);

}  // namespace jointledger
