// Words that set a remark apart from the others: exceptions, doubts, what was put off, and the rest.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

constexpr Index kReachOfDoubt = 8;  // items between a finding and the word that doubts it

// The finding of its clause that stands nearest to item `i`; null if none is near.
Unit* nearest_finding(SentenceState& s, Index i) {
  Unit* nearest = nullptr;
  Index distance = kReachOfDoubt;
  for (Unit& unit : s.parts.units) {
    if (unit.clause != s.parts.clause[i] || unit.kind != Unit::Kind::finding) continue;
    const Index gap = unit.first > i ? unit.first - i : i - unit.last;
    if (gap >= distance) continue;
    distance = gap;
    nearest = &unit;
  }
  return nearest;
}

// Marks a unit of the clause of item `i`, which says that something was put off, if it can be what was.
void defer(const SentenceState& s, Unit& unit, Index i) {
  const bool reason = unit.kind == Unit::Kind::finding && !is_sign(unit);
  if (reason) {
    if (unit.last > i) unit.outcome.reset();  // no finding: "deferred due to pain with motion"
    return;
  }
  // "McMurray not done because of pain": the reason is no result.
  const bool subject = unit.last <= i && adjacent(s, unit.last, i);
  const bool answered = unit.outcome == Outcome::normal || (unit.outcome == Outcome::abnormal && unit.first <= i);
  if (answered && !subject && !is_sign(unit)) return;
  unit.outcome = Outcome::not_done;
  add_evidence(s, unit, i);
}

// "the rest of the foot"
bool is_rest_of_place(const SentenceState& s, Index i) {
  const auto place_at = [&](Index j) { return j < s.items.size() && s.items[j].places(); };
  return place_at(i + 1) || (i + 1 < s.items.size() && is_filler(s.items[i + 1]) && place_at(i + 2));
}

}  // namespace

void turn_exceptions(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::except)) continue;
    const Unit* before = nullptr;
    for (const Unit& unit : s.parts.units) {
      if (unit.last <= i && unit.outcome && unit.kind != Unit::Kind::elsewhere) before = &unit;
    }
    if (before == nullptr) continue;
    const Outcome opposite = *before->outcome == Outcome::normal ? Outcome::abnormal : Outcome::normal;
    for (Unit& unit : s.parts.units) {
      if (unit.first >= i && !unit.outcome && takes_value(unit)) unit.outcome = opposite;
    }
  }
}

void apply_doubts(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::equivocal) || s.parts.consumed[i] != 0) continue;
    Unit* nearest = nearest_finding(s, i);
    if (nearest == nullptr) continue;
    s.parts.consumed[i] = 1;
    // "upward on the right, equivocal on the left": the doubt is of its own side.
    const auto own_side = i + 3 <= s.items.size() ? side_between(s, i + 1, i + 5, Pick::first) : std::nullopt;
    const auto first_side = nearest->last <= i ? side_between(s, nearest->last, i, Pick::last) : std::nullopt;
    if (!own_side || !first_side || *own_side == *first_side) {
      nearest->outcome = Outcome::stated;
      add_evidence(s, *nearest, i);
      continue;
    }
    Unit doubtful = *nearest;
    nearest->value_side = first_side;
    doubtful.value_side = own_side;
    doubtful.outcome = Outcome::stated;
    add_evidence(s, doubtful, i);
    s.parts.units.push_back(std::move(doubtful));
  }
}

void apply_deferrals(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::deferred)) continue;
    const auto in_clause = [&](const Unit& unit) { return unit.clause == s.parts.clause[i]; };
    for (Unit& unit : s.parts.units) {
      if (in_clause(unit) && unit.kind != Unit::Kind::elsewhere) defer(s, unit, i);
    }
    const bool any = std::ranges::any_of(
        s.parts.units, [&](const Unit& unit) { return in_clause(unit) && unit.outcome == Outcome::not_done; });
    if (any) continue;
    const Component component = s.context.component.value_or(Component::unspecified);
    add_unit(s, Unit::Kind::judgement, component, nullptr, i, i + 1).outcome = Outcome::not_done;
  }
}

void mark_remainders(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::rest) || is_rest_of_place(s, i)) continue;
    const bool of_places = i > 0 && (s.items[i - 1].has(kAt) || is_filler(s.items[i - 1]));
    for (Unit& unit : s.parts.units) {
      if (unit.clause == s.parts.clause[i] && unit.first >= i) unit.after_rest = true;
      // "full strength in all other areas"
      if (of_places && unit.last <= i && i - unit.last <= 3) unit.after_rest = true;
    }
  }
}

}  // namespace jointledger
