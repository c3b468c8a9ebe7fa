// What the visit is about: regions and sides that the history describes as the current problem.
#pragma once

#include <vector>

#include "ledger/ledger.h"
#include "reading/items.h"

namespace jointledger {

/// Finds the complaints of a note. Replaces `out`; `sentences` is scratch memory.
void find_complaints(const Document& document, std::vector<Sentence>& sentences, std::vector<Complaint>& out);

}  // namespace jointledger
