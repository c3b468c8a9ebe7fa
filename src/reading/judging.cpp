// Which unit a value judges: the one it stands beside, or the one whose values it goes on with.
#include <algorithm>

#include "reading/unit_steps.h"
#include "reading/values.h"

namespace jointledger {
namespace {

/// The units of an item's clause that take values and stand nearest to it, on either side.
struct Neighbours {
  std::optional<Index> before;
  std::optional<Index> after;
};

template <class Wanted>
Neighbours neighbours_of(const SentenceState& s, Index i, Wanted&& wanted) {
  Neighbours found;
  for (Index u = 0; u < s.parts.units.size(); ++u) {
    const Unit& unit = s.parts.units[u];
    if (unit.clause != s.parts.clause[i] || !wanted(unit)) continue;
    if (unit.last <= i) found.before = u;
    if (unit.first > i && !found.after) found.after = u;
  }
  return found;
}

bool touching(const SentenceState& s, Index a, Index b) {
  for (Index j = a; j < b; ++j) {
    if (!is_filler(s.items[j]) && !s.items[j].places() && !s.items[j].is(ConceptKind::side)) return false;
  }
  return true;
}

// "normal and symmetric", "2+, equal": values strung together.
bool chained(const SentenceState& s, Index a, Index b) {
  for (Index j = a; j < b; ++j) {
    const Item& item = s.items[j];
    const bool place_or_side = item.places() || item.is(ConceptKind::side) || item.kind == ItemKind::level;
    const bool small = joins(item) || is_filler(item) || is_bracket(item) || item.has(kAt) || item.has(kVerb);
    if (!place_or_side && !small && !item.is(Cue::extent) && item.kind != ItemKind::word) return false;
  }
  return true;
}

// A judgement right beside a finding colours the finding, not some component further on.
bool owned_by_finding(const SentenceState& s, Index i) {
  const auto& items = s.items;
  Index k = i;
  while (k > 0 && (is_filler(items[k - 1]) || items[k - 1].has(kVerb))) --k;
  if (k > 0 && k < i && items[k - 1].is(ConceptKind::finding) && same_clause(s, k - 1, i)) return true;
  if (!items[i].is_any(Cue::good, Cue::bad, Cue::positive, Cue::present)) return false;
  Index j = i + 1;
  while (j < items.size() && is_filler(items[j])) ++j;
  return j < items.size() && same_clause(s, i, j) &&
         items[j].is_any(ConceptKind::finding, ConceptKind::elsewhere_finding, ConceptKind::elsewhere_place);
}

// "1/1 quads and hamstrings, 0/0 distally": the second value is of another stretch of the limb.
bool further_along(const SentenceState& s, const GivenValues& given, std::optional<Index> before, Index i) {
  return i + 1 < s.items.size() && s.items[i + 1].is(Cue::extent) && before &&
         s.parts.units[*before].kind == Unit::Kind::muscle && !given.empty() && s.items[i - 1].kind == ItemKind::comma;
}

// "95 degrees of flexion": the motion behind "of" owns the figure.
bool is_degrees_of(const SentenceState& s, Index i, const Unit& unit) {
  const Item& item = s.items[i];
  return (is_figure(item, FigureKind::degrees) || is_figure(item, FigureKind::range)) &&
         unit.kind == Unit::Kind::motion && s.items[i + 1].has(kAt) && unit.first <= i + 3;
}

// "2+ femoral, popliteal and pedal pulses": a grade before the names of arteries.
bool grades_arteries(const SentenceState& s, Index i, const Unit& unit) {
  if (!is_figure(s.items[i], FigureKind::plus_grade) || unit.component != Component::perfusion) return false;
  for (Index j = i + 1; j < unit.first; ++j) {
    const Item& item = s.items[j];
    if (!joins(item) && !is_filler(item) && !item.is_any(ConceptKind::artery, ConceptKind::side)) return false;
  }
  return true;
}

/// The unit that a value judges.
struct Judged {
  Index unit = 0;
  bool value_first = false;  ///< the value stands before it
};

// `given`: the values before it and what they judge.
std::optional<Judged> judged_by(const SentenceState& s, const GivenValues& given, Index i, const Neighbours& beside) {
  const std::optional<Index> before = beside.before;
  const std::optional<Index> after = beside.after;
  const auto& units = s.parts.units;
  const Item& item = s.items[i];
  const bool number = item.kind == ItemKind::number;
  const auto reads = [&](std::optional<Index> u) { return u && value_of(s, i, units[*u]).outcome.has_value(); };
  const bool reads_before = reads(before);
  const bool reads_after = reads(after);

  if (reads_after && is_degrees_of(s, i, units[*after])) return Judged{*after, true};
  if (reads_before && adjacent(s, units[*before].last, i)) {
    // "Strength normal, normal tone": one that has its value leaves the next to what it touches.
    const bool has_value = s.notes.value_after[*before] != 0 || s.notes.value_before[*before] != 0;
    const bool leaves = has_value && reads_after && touching(s, i + 1, units[*after].first);
    if (!leaves) return Judged{*before, false};
  }
  const bool owned = owned_by_finding(s, i);
  if (reads_after && !number && !owned && adjacent(s, i + 1, units[*after].first)) return Judged{*after, true};

  const bool goes_on = !given.empty() && same_clause(s, given.back().item, i);
  if (goes_on && reads(given.back().unit) && chained(s, given.back().item + 1, i)) {
    return Judged{given.back().unit, false};
  }
  if (reads_before) {
    const bool waits = std::ranges::none_of(given, [&](const GivenValue& g) { return g.unit == *before; });
    const bool next_number = number && goes_on && given.back().unit == *before;
    if ((!number && waits && !owned) || next_number || item.kind == ItemKind::figure) return Judged{*before, false};
  }
  if (reads_after && grades_arteries(s, i, units[*after])) return Judged{*after, true};
  const bool judgement = !number && item.kind != ItemKind::figure;
  if (reads_after && judgement && !owned && listed(s, i + 1, units[*after].first, false)) return Judged{*after, true};
  return std::nullopt;
}

// "Nonfocal for cranial nerves, strength, sensation and gait": one judgement for the list that "for" or "to" leads to.
// Returns whether it is.
bool give_to_list(SentenceState& s, GivenValues& given, Index i) {
  if (!s.items[i].is_any(Cue::normal, Cue::negative)) return false;
  // "nonfocal without lateralizing findings for ..."
  Index lead = i + 1;
  while (lead < s.items.size() && lead < i + 5 && (s.items[lead].kind == ItemKind::word || s.items[lead].is(Cue::no)))
    ++lead;
  if (lead >= s.items.size() || !s.items[lead].has(kAt)) return false;
  GivenValues list;
  for (Index u = 0; u < s.parts.units.size(); ++u) {
    const Unit& unit = s.parts.units[u];
    if (unit.first <= i || unit.kind == Unit::Kind::elsewhere) continue;
    if (unit.clause != s.parts.clause[i] || unit.kind != Unit::Kind::component || unit.outcome) return false;
    list.push_back({u, i});
  }
  for (Index j = i + 1; j < s.items.size() && same_clause(s, i, j); ++j) {
    if (s.items[j].has(kVerb) || (j > i && is_value(s.items[j]))) return false;
  }
  if (list.size() < 2) return false;
  for (const GivenValue& one : list) {
    given.push_back(one);
    s.notes.value_before[one.unit] = 1;
  }
  s.parts.consumed[i] = 1;
  return true;
}

void give_values(SentenceState& s, GivenValues& given) {
  for (Index i = 0; i < s.items.size(); ++i) {
    const Item& item = s.items[i];
    if (s.parts.consumed[i] != 0 || !(is_value(item) || item.kind == ItemKind::number)) continue;
    if (give_to_list(s, given, i)) continue;
    const Neighbours beside = neighbours_of(s, i, takes_value);
    if (further_along(s, given, beside.before, i)) continue;
    const auto judged = judged_by(s, given, i, beside);
    if (!judged) continue;
    given.push_back({judged->unit, i});
    (judged->value_first ? s.notes.value_before : s.notes.value_after)[judged->unit] = 1;
    s.parts.consumed[i] = 1;
  }
}

bool can_be_painful(const Unit& unit) {
  switch (unit.kind) {
    case Unit::Kind::test:
      return true;
    case Unit::Kind::finding:
      return unit.component == Component::range_of_motion;
    case Unit::Kind::motion:
    case Unit::Kind::component:
      return unit.component == Component::range_of_motion || unit.component == Component::strength;
    case Unit::Kind::muscle:
      return unit.component == Component::strength;
    default:
      return false;
  }
}

// The last motion of the clause before, where this clause has nothing else to say: "full but painful".
std::optional<Index> motion_in_clause_before(const SentenceState& s, Index i) {
  std::optional<Index> found;
  for (Index u = 0; u < s.parts.units.size(); ++u) {
    const Unit& unit = s.parts.units[u];
    if (unit.clause == s.parts.clause[i]) return std::nullopt;
    const bool before = unit.last <= i && unit.clause + 1 == s.parts.clause[i];
    if (before && unit.component == Component::range_of_motion) found = u;
  }
  return found;
}

// "flexion is painful", "motion without pain"
void judge_by_pain(SentenceState& s) {
  for (const Index i : s.notes.pains) {
    if (s.parts.consumed[i] != 0) continue;
    const Neighbours beside = neighbours_of(s, i, can_be_painful);
    std::optional<Index> judged = beside.before ? beside.before : beside.after;
    if (!judged) judged = motion_in_clause_before(s, i);
    if (!judged) continue;
    Unit& unit = s.parts.units[*judged];
    raise(unit, is_turned_round(s, i) ? Outcome::normal : Outcome::abnormal);
    add_evidence(s, unit, i);
    s.parts.consumed[i] = 1;
    s.notes.value_after[*judged] = 1;
  }
}

// "lacks 10 degrees of full extension": short of full, whatever else is said.
void judge_by_lack(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::lacking)) continue;
    for (Unit& unit : s.parts.units) {
      const bool near = unit.last + 6 >= i && unit.first <= i + 8 && (unit.first > i || unit.last <= i);
      if (!near || unit.clause != s.parts.clause[i] || unit.component != Component::range_of_motion) continue;
      unit.outcome = is_turned_round(s, i) ? Outcome::normal : Outcome::abnormal;
      for (Degrees& degrees : unit.degrees) degrees.lacking = true;
      add_evidence(s, unit, i);
      break;
    }
  }
}

// The second component of one phrase ("neurovascular") was given the values; the first takes them, too.
void give_twins(const SentenceState& s, GivenValues& given) {
  for (std::size_t g = 0, known = given.size(); g < known; ++g) {
    const auto [u, item] = given[g];
    if (u > 0 && s.parts.units[u - 1].first == s.parts.units[u].first) given.push_back({u - 1, item});
  }
}

}  // namespace

void judge_units(SentenceState& s) {
  s.notes.value_before.assign(s.parts.units.size(), 0);
  s.notes.value_after.assign(s.parts.units.size(), 0);
  GivenValues given;
  give_values(s, given);
  judge_by_pain(s);
  give_twins(s, given);
  answer_units(s, given);
  judge_by_lack(s);
  // "no motor or sensory deficits": a denied component that has a judgement by now had it turned round already.
  std::erase_if(s.notes.denied, [&](Index u) { return s.parts.units[u].outcome.has_value(); });
}

}  // namespace jointledger
