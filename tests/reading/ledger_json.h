// A ledger as JSON to look at: a line for each entry, with the words that it rests on. Its certainty is left out: that
// comes from a table of weights, and another set of weights is no other reading.
#pragma once

#include <string>
#include <string_view>

#include "ledger/ledger.h"

namespace jointledger::testing {

enum class Places : bool { hidden, shown };

/// `note` is what the ledger was read from. With the places hidden, what is left does not change when the note's bytes
/// are moved without changing its words.
std::string json_of(std::string_view id, std::string_view note, const Ledger& ledger, Places places = Places::shown);

}  // namespace jointledger::testing
