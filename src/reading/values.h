// What a value says of a component: "5/5" of power is normal, "absent" of a pulse is not.
//
// Private to the steps of find_units().
#pragma once

#include <optional>
#include <utility>

#include "reading/sentence_state.h"

namespace jointledger {

struct ValueReading {
  std::optional<Outcome> outcome;                    ///< nothing if the value does not speak of the component
  std::optional<std::pair<Outcome, Outcome>> sides;  ///< right and left, of a figure that gives both
};

/// What the value or number of item `i` says of the unit. Denials that turn it round are considered.
ValueReading value_of(const SentenceState& s, Index i, const Unit& unit);

/// Gives the unit the value of item `i`: outcome, evidence, degrees and grades.
void put_value(SentenceState& s, Unit& unit, Index i);

}  // namespace jointledger
