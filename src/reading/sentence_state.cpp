#include "reading/sentence_state.h"

#include <algorithm>

namespace jointledger {

Unit& add_unit(SentenceState& s, Unit::Kind kind, Component component, const Concept* meaning, Index first,
               Index last) {
  Unit& unit = s.parts.units.emplace_back();
  unit.kind = kind;
  unit.component = component;
  unit.meaning = meaning;
  unit.first = first;
  unit.last = last;
  unit.clause = s.parts.clause[first];
  unit.words.push_back(words_of(s, first, last));
  for (Index i = first; i < last; ++i) s.parts.consumed[i] = 1;
  return unit;
}

bool takes_value(const Unit& unit) {
  switch (unit.kind) {
    case Unit::Kind::component:
    case Unit::Kind::motion:
    case Unit::Kind::muscle:
    case Unit::Kind::test:
      return true;
    case Unit::Kind::finding:
    case Unit::Kind::judgement:
    case Unit::Kind::elsewhere:
      return false;
  }
  return false;
}

void raise(Unit& unit, Outcome outcome) { unit.outcome = unit.outcome ? std::max(*unit.outcome, outcome) : outcome; }

bool is_turned_round(const SentenceState& s, Index i) {
  return std::ranges::find(s.notes.turned_round, i) != s.notes.turned_round.end();
}

bool adjacent(const SentenceState& s, Index a, Index b) {
  int words = 0;
  for (Index j = a; j < b; ++j) {
    const Item& item = s.items[j];
    if (s.parts.consumed[j] != 0 && !item.is(Cue::testword)) return false;
    if (item.kind == ItemKind::comma || item.kind == ItemKind::semicolon || item.has(kAnd) || item.has(kOr))
      return false;
    if (is_value(item) || item.kind == ItemKind::number) return false;
    if (item.kind == ItemKind::word && ++words > 4) return false;
  }
  return true;
}

bool listed(const SentenceState& s, Index a, Index b, bool with_values) {
  int words = 0;
  for (Index j = a; j < b; ++j) {
    const Item& item = s.items[j];
    const bool place_or_side = item.places() || item.is(ConceptKind::side) || item.kind == ItemKind::level;
    if (joins(item) || is_filler(item) || place_or_side || is_bracket(item) || item.is(Cue::testword) ||
        item.is(ConceptKind::elsewhere_finding)) {
      continue;
    }
    const bool taken_value = s.parts.consumed[j] != 0 && is_value(item);
    if (with_values && (taken_value || item.has(kAt) || item.has(kWith))) continue;
    if (item.kind == ItemKind::word && ++words <= 3) continue;
    return false;
  }
  return true;
}

std::optional<Side> side_between(const SentenceState& s, Index a, Index b, Pick pick) {
  std::optional<Side> found;
  for (Index j = a; j < b && j < s.items.size(); ++j) {
    if (!s.items[j].is(ConceptKind::side)) continue;
    const auto side = side_of(*s.items[j].meaning->side);
    if (!side || *side == Side::midline) continue;
    if (pick == Pick::first) return side;
    found = side;
  }
  return found;
}

}  // namespace jointledger
