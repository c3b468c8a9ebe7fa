// From statements to entries: one per region, component and side.
#pragma once

#include <vector>

#include "ledger/ledger.h"
#include "lexicon/lexicon.h"
#include "reading/statement.h"

namespace jointledger {

/// Merges statements by the ranking of outcomes (abnormal, normal, stated, not done); `both` is one left and one right
/// entry, folded back where the two are alike. Replaces `entries`, ordered by region, component, side.
/// Each entry gets the certainty of its surest statement.
void merge(const Lexicon& lexicon, const std::vector<Statement>& statements, std::vector<Entry>& entries);

}  // namespace jointledger
