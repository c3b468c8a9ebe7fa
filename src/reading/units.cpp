// The order in which the units of a sentence come about; unit_steps.h tells where each step lives.
#include <vector>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

void clear(UnitNotes& notes) {
  notes.pains.clear();
  notes.turned_round.clear();
  notes.denied.clear();
  notes.value_before.clear();
  notes.value_after.clear();
  notes.unlike_pairs.clear();
}

// "Grip strength left greater than right": both sides were examined, and no more is said.
bool is_compared_by_side(const SentenceState& s, const Unit& unit) {
  if (unit.kind != Unit::Kind::component || unit.last >= s.items.size()) return false;
  const Item& next = s.items[unit.last];
  return next.is(ConceptKind::side) && next.meaning->side == SideWord::both && next.last >= next.first + 3;
}

// Leaves only what has an answer. A manoeuvre that was done without one is stated ("Spurling's was performed").
void drop_unanswered(SentenceState& s) {
  for (Unit& unit : s.parts.units) {
    const bool performed = unit.last < s.items.size() && s.items[unit.last].is(Cue::tested);
    const bool told = (unit.kind == Unit::Kind::test && performed) || is_compared_by_side(s, unit);
    if (unit.outcome || !told) continue;
    unit.outcome = Outcome::stated;
    unit.judged = false;
  }
  std::erase_if(s.parts.units, [](const Unit& unit) {
    const bool weak = unit.kind == Unit::Kind::component && unit.meaning != nullptr && unit.meaning->weak;
    return !unit.outcome || unit.kind == Unit::Kind::elsewhere || (weak && unit.outcome == Outcome::stated);
  });
}

}  // namespace

void find_units(const Document& document, const Context& context, SentenceParts& parts) {
  parts.units.clear();
  parts.consumed.assign(parts.items.size(), 0);
  clear(parts.notes);
  SentenceState s{document, context, parts, parts.items, parts.notes, talk_for_units(context, parts.items)};
  collect_units(s);
  strike_blanks(s);
  find_pains(s);
  apply_denials(s);
  judge_units(s);
  share_answers(s);
  turn_exceptions(s);
  answer_signs(s);
  answer_wounds(s);
  apply_doubts(s);
  apply_deferrals(s);
  take_bare_values(s);
  drop_unanswered(s);
  mark_remainders(s);
  split_unlike_pairs(s);
}

}  // namespace jointledger
