// Incisions and wounds, which are expected where somebody was operated on: what counts is how they heal.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

bool is_wound(const Unit& unit) {
  return unit.kind == Unit::Kind::finding && unit.meaning != nullptr && unit.meaning->id == "wound";
}

// "The incision has healed well", "wound is clean and dry".
bool is_called_good(const SentenceState& s, const Unit& unit) {
  bool good = false;
  for (Index i = unit.last; i < s.items.size() && same_clause(s, unit.first, i); ++i) {
    if (s.items[i].is(Cue::bad)) return false;
    if (s.items[i].is_any(Cue::good, Cue::normal)) good = !is_turned_round(s, i);
  }
  return good;
}

// "The wound is without drainage or infection": all that is said of it is denied.
bool is_free(const SentenceState& s, const Unit& unit) {
  bool denied = false;
  for (const Unit& other : s.parts.units) {
    const bool behind = other.kind == Unit::Kind::finding && other.first >= unit.last && other.clause == unit.clause;
    if (!behind || (other.component != Component::inspection && other.component != Component::palpation)) continue;
    if (other.outcome != Outcome::normal) return false;
    denied = true;
  }
  return denied;
}

}  // namespace

void answer_wounds(SentenceState& s) {
  for (Unit& unit : s.parts.units) {
    if (!is_wound(unit) || unit.outcome != Outcome::abnormal) continue;
    if (!is_called_good(s, unit) && !is_free(s, unit)) continue;
    unit.outcome = Outcome::normal;
    for (Index i = unit.last; i < s.items.size() && same_clause(s, unit.first, i); ++i) {
      if (s.items[i].is_any(Cue::good, Cue::normal, Cue::no)) add_evidence(s, unit, i);
    }
  }
}

}  // namespace jointledger
