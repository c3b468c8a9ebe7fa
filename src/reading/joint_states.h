// Joints that a note says are gone or fused, wherever it says so.
#pragma once

#include <vector>

#include "reading/clause.h"
#include "reading/document.h"

namespace jointledger {

/// Appends to `out`; `sentences` and `parts` are scratch memory.
void find_joint_states(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                       std::vector<JointState>& out);

}  // namespace jointledger
