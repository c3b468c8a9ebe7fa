#include "reading/certainty.h"

#include <cmath>

namespace jointledger {

float certainty_of(const Lexicon& lexicon, const Statement& s, std::uint32_t remarks) {
  const CertaintyWeights& w = lexicon.certainty_weights();
  float odds = w.base;
  if (!s.judged) odds += w.inferred;
  if (remarks > 1) odds += w.repeated;
  odds += w.place[static_cast<std::size_t>(s.place_source)];
  odds += w.side[static_cast<std::size_t>(s.side_source)];
  odds += w.component[static_cast<std::size_t>(s.component)];
  odds += w.outcome[static_cast<std::size_t>(s.outcome)];
  // Two places are all that the fit supports, and all that is shown.
  return std::round(100.0F / (1.0F + std::exp(-odds))) / 100.0F;
}

}  // namespace jointledger
