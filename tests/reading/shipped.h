// Notes read as the program reads them: with the lexicon in lexicon/.
#pragma once

#include <string_view>

#include "ledger/ledger.h"
#include "lexicon/lexicon.h"

namespace jointledger::testing {

/// Loaded once. A lexicon that cannot be used ends the tests: none of them would mean anything.
const Lexicon& shipped_lexicon();

/// Reads a whole note.
Ledger read(std::string_view note);

/// Reads `text` as what stands under the heading of an examination. Offsets count from that heading's first byte.
Ledger read_exam(std::string_view text);

}  // namespace jointledger::testing
