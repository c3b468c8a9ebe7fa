// Several values of one subject, each of a side or place of its own: "4/5 on the right, 5/5 on the left", the columns
// of a table, "4/4-".
#include <algorithm>

#include "reading/unit_steps.h"
#include "reading/values.h"

namespace jointledger {
namespace {

using Values = boost::container::small_vector<Index, 4>;  // the items of one unit's values

/// A value with the side or group of places that is named with it.
struct LocatedValue {
  Index item = 0;
  std::optional<Side> side;
  std::optional<Index> group;

  bool located() const { return side || group; }
};
using LocatedValues = boost::container::small_vector<LocatedValue, 4>;

std::optional<Index> group_between(const SentenceState& s, Index a, Index b) {
  for (Index g = 0; g < s.parts.groups.size(); ++g) {
    const PlaceGroup& group = s.parts.groups[g];
    if (group.first >= a && group.first < b && !group.elsewhere) return g;
  }
  return std::nullopt;
}

// Where what belongs to the value at `item` ends: at the next unit, with the place that leads to it, or the next
// clause.
Index end_of_value(const SentenceState& s, Index item) {
  auto end = static_cast<Index>(s.items.size());
  for (const Unit& unit : s.parts.units) {
    if (unit.first <= item) continue;
    end = std::min(end, unit.first);
    for (const PlaceGroup& group : s.parts.groups) {
      if (group.last == unit.first && group.first > item) end = std::min(end, group.first);
    }
  }
  for (Index j = item; j < end; ++j) {
    if (!same_clause(s, item, j)) return j;
  }
  return end;
}

// "right 4/5, left 5/5", where others have the side behind the value.
bool sides_lead(const SentenceState& s, const Unit& unit, const Values& values) {
  const auto named_in = [&](Index a, Index b) { return side_between(s, a, b, Pick::first) || group_between(s, a, b); };
  return named_in(unit.last, values.front()) && !named_in(values.back() + 1, end_of_value(s, values.back()));
}

// "5-/5, left 4+/5": a side behind a comma and right before the next value is that one's. Where what belongs to the
// value before it ends: there, or at `next`.
Index before_side_of_next(const SentenceState& s, Index item, Index next) {
  Index side = next;
  while (side > item + 1 && (is_filler(s.items[side - 1]) || s.items[side - 1].has(kVerb))) --side;
  if (side < item + 3 || !s.items[side - 1].is(ConceptKind::side)) return next;
  const Item& before = s.items[side - 2];
  return before.kind == ItemKind::comma || before.kind == ItemKind::semicolon || before.has(kAnd) ? side - 1 : next;
}

// The sides and places named before or behind each value.
LocatedValues locate(const SentenceState& s, const Unit& unit, const Values& values) {
  LocatedValues located;
  const bool lead = values.size() > 1 && sides_lead(s, unit, values);
  for (std::size_t v = 0; v < values.size(); ++v) {
    LocatedValue& one = located.emplace_back();
    one.item = values[v];
    if (values.size() == 1 || one.item < unit.last) continue;
    const Index from = v == 0 ? unit.last : values[v - 1] + 1;
    if (lead) {
      one.group = group_between(s, from, one.item);
      if (!one.group) one.side = side_between(s, from, one.item, Pick::last);
      continue;
    }
    const Index next = v + 1 < values.size() ? values[v + 1] : end_of_value(s, one.item);
    const Index own_end = v + 1 < values.size() && v == 0 ? before_side_of_next(s, one.item, next) : next;
    const auto behind = side_between(s, one.item + 1, own_end, Pick::first);
    if (v > 0 && !behind) {
      // "4/5 on the left, right side is 5/5"
      const auto ahead = side_between(s, from, one.item, Pick::last);
      if (ahead && ahead != located[v - 1].side) {
        one.side = ahead;
        continue;
      }
    }
    one.group = group_between(s, one.item + 1, next);
    if (!one.group) one.side = behind;
  }
  return located;
}

// Two figures without a place: "5/5 and 5/5" of a pair, or the columns of a table headed "R L".
void locate_pair(const SentenceState& s, Unit& unit, LocatedValues& located) {
  if (located.size() != 2 || located[0].located() || located[1].located()) return;
  const Index first = located[0].item;
  const Index second = located[1].item;
  const auto figure = [&](Index i) {
    return s.items[i].kind == ItemKind::figure || s.items[i].kind == ItemKind::number;
  };
  if (first < unit.last || !figure(first) || !figure(second)) return;
  const bool joined = second == first + 2 && s.items[first + 1].has(kAnd);
  if (second != first + 1 && !joined) return;
  if (s.context.columns) {
    located[0].side = s.context.columns->first;
    located[1].side = s.context.columns->second;
  } else if (joined && unit.component == Component::strength) {
    unit.value_side = Side::both;
  }
}

// Whether the values are of different sides or places. One may have none named, or several at the front: "at the knees
// 2+ and symmetric, absent at the ankles".
bool is_split(const LocatedValues& located) {
  const auto count = static_cast<std::size_t>(std::ranges::count_if(located, &LocatedValue::located));
  const auto front = static_cast<std::size_t>(std::ranges::find_if(located, &LocatedValue::located) - located.begin());
  if (count == 0 || (count + 1 < located.size() && count + front < located.size())) return false;
  return std::ranges::any_of(located, [&](const LocatedValue& one) {
    return one.side != located.front().side || one.group != located.front().group;
  });
}

// Makes a copy of the unit for each value; the first stays in its place.
void split(SentenceState& s, Index u, const LocatedValues& located, std::vector<Unit>& added) {
  const Unit base = s.parts.units[u];
  for (const LocatedValue& one : located) {
    Unit copy = base;
    copy.outcome.reset();
    copy.value_side = one.side;
    copy.value_group = one.group;
    put_value(s, copy, one.item);
    if (&one == &located.front()) {
      s.parts.units[u] = std::move(copy);
    } else {
      added.push_back(std::move(copy));
    }
  }
}

}  // namespace

void answer_units(SentenceState& s, const GivenValues& given) {
  if (given.empty()) return;
  std::vector<Unit> added;
  Values values;
  for (Index u = 0; u < s.parts.units.size(); ++u) {
    values.clear();
    for (const GivenValue& g : given) {
      if (g.unit == u) values.push_back(g.item);
    }
    if (values.empty()) continue;
    Unit& unit = s.parts.units[u];
    LocatedValues located = locate(s, unit, values);
    locate_pair(s, unit, located);
    if (is_split(located)) {
      split(s, u, located, added);
    } else {
      for (const Index item : values) put_value(s, unit, item);
    }
  }
  for (Unit& unit : added) s.parts.units.push_back(std::move(unit));
}

void split_unlike_pairs(SentenceState& s) {
  auto& units = s.parts.units;
  const std::size_t count = units.size();
  for (const UnitNotes::UnlikePair& pair : s.notes.unlike_pairs) {
    for (std::size_t u = 0; u < count; ++u) {
      if (units[u].value_side || std::ranges::find(units[u].words, pair.words) == units[u].words.end()) continue;
      Unit left = units[u];
      left.value_side = Side::left;
      left.outcome = pair.left;
      units[u].value_side = Side::right;
      units[u].outcome = pair.right;
      units.push_back(left);
    }
  }
}

}  // namespace jointledger
