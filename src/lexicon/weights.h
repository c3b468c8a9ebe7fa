// Weights of the features that certainty is reckoned from: lexicon/certainty.tsv.
#pragma once

#include <array>
#include <cstdint>

#include "ledger/terms.h"

namespace jointledger {

/// Log-odds, to be added up. All zero where the table is absent: certainty is then one half.
struct CertaintyWeights {
  float base = 0;
  float inferred = 0;            ///< the result was inferred rather than said
  float repeated = 0;            ///< more than one statement supports the entry
  std::array<float, 7> place{};  ///< by PlaceSource
  std::array<float, 5> side{};   ///< by SideSource
  std::array<float, kComponentCount> component{};
  std::array<float, kOutcomeCount> outcome{};
};

}  // namespace jointledger
