// How likely an entry is right, from how it was read.
//
// A logistic model: each feature of the reading has a weight (log-odds) in lexicon/certainty.tsv, fitted on hand-coded
// notes; the README has the table of what came of it. Pure, thread-safe.
#pragma once

#include <cstdint>

#include "lexicon/lexicon.h"
#include "reading/statement.h"

namespace jointledger {

/// The share, 0..1, of entries with such a statement that careful coders would have written, too: region, component,
/// side and outcome. `remarks` counts the statements that support the entry, at least 1.
float certainty_of(const Lexicon& lexicon, const Statement& statement, std::uint32_t remarks);

}  // namespace jointledger
