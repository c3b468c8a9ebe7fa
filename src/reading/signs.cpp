// Signs that are elicited, and their results.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

// "Babinski downgoing": the sign and its result are one remark.
void drop_answered(SentenceState& s) {
  for (Unit& unit : s.parts.units) {
    if (!is_sign(unit) || unit.component != Component::reflexes) continue;
    const bool answered = std::ranges::any_of(s.parts.units, [&](const Unit& other) {
      if (&other == &unit || other.clause != unit.clause || other.kind != Unit::Kind::finding) return false;
      return other.component == Component::reflexes && other.meaning != nullptr && other.meaning->adjective &&
             other.meaning->region == unit.meaning->region;
    });
    if (answered) unit.outcome.reset();
  }
}

// "Romberg, finger-to-nose and heel-to-shin are all normal"
void take_results(SentenceState& s) {
  for (Unit& unit : s.parts.units) {
    if (!is_sign(unit) || unit.outcome != Outcome::abnormal) continue;
    for (Index i = unit.last; i < s.items.size() && same_clause(s, unit.first, i); ++i) {
      const Item& item = s.items[i];
      if (item.is_any(ConceptKind::component, ConceptKind::test)) break;
      if (!item.is_any(Cue::normal, Cue::negative, Cue::good)) continue;
      unit.outcome = Outcome::normal;
      add_evidence(s, unit, i);
      break;
    }
  }
}

}  // namespace

bool is_sign(const Unit& unit) {
  if (unit.meaning == nullptr || unit.meaning->kind != ConceptKind::finding) return false;
  if (unit.meaning->sense != Sense::bad || unit.meaning->adjective) return false;
  return unit.component == Component::reflexes || (unit.component == Component::gait && unit.meaning->id == "sign");
}

void answer_signs(SentenceState& s) {
  drop_answered(s);
  take_results(s);
}

}  // namespace jointledger
