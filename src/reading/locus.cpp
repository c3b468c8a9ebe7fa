// Which of the places that a sentence names a unit belongs to.
#include <algorithm>

#include "reading/placing_steps.h"

namespace jointledger {
namespace {

constexpr Index kNearby = 8;  // items between a place and what is said of it in the same breath

// Whether only small words and judgements stand between a group and the unit behind it.
bool touches(const PlacingState& p, const PlaceGroup& group, const Unit& unit) {
  for (Index j = group.last; j < unit.first; ++j) {
    const Item& item = p.items[j];
    const bool small = is_filler(item) || item.kind == ItemKind::dash || item.kind == ItemKind::close;
    if (!small && !item.is(Cue::extent) && !is_value(item)) return false;
  }
  return true;
}

// A group right before the unit, as in "calf tenderness", "knee flexion", or inside it: "pain in her low back with
// range of motion".
std::optional<Index> modifier_of(const PlacingState& p, const Unit& unit) {
  for (Index g = 0; g < p.parts.groups.size(); ++g) {
    const PlaceGroup& group = p.parts.groups[g];
    if (group.first > unit.first && group.last <= unit.last) return g;
    if (group.last > unit.first || group.clause != unit.clause || group.compared) continue;
    if (touches(p, group, unit)) return g;
  }
  return std::nullopt;
}

bool inside_other_unit(const PlacingState& p, Index item, const Unit& unit) {
  return std::ranges::any_of(
      p.parts.units, [&](const Unit& other) { return &other != &unit && item >= other.first && item < other.last; });
}

// "decreased range of motion and some ecchymosis": nothing but list words and judgements between.
bool joined_only(const PlacingState& p, const Unit& a, const Unit& b) {
  for (Index j = a.last; j < b.first; ++j) {
    const Item& item = p.items[j];
    if (!joins(item) && !is_filler(item) && !is_value(item) && !inside_other_unit(p, j, a)) return false;
  }
  return true;
}

// The unit behind it; null if it is the last.
const Unit* next_of(const PlacingState& p, const Unit& unit) {
  return &unit == &p.parts.units.back() ? nullptr : &unit + 1;
}

// Whether another unit stands in the group or right behind it.
bool has_own_unit(const PlacingState& p, const PlaceGroup& group, const Unit& unit) {
  return std::ranges::any_of(p.parts.units, [&](const Unit& other) {
    if (&other == &unit || other.clause != group.clause) return false;
    const bool behind = other.first >= group.last && other.first <= group.last + 3;
    const bool inside = other.first >= group.first && other.last <= group.last;  // a muscle that is its own unit
    return behind || inside;
  });
}

bool subject_before(const PlacingState& p, const Unit& unit) {
  return std::ranges::any_of(p.parts.groups, [&](const PlaceGroup& g) {
    return g.clause == unit.clause && g.last <= unit.first && !g.at_before;
  });
}

// "tender left calf", "normal strength bilateral lower extremities": nothing but small words between the unit and a
// group without a preposition.
bool leads_to(const PlacingState& p, const Unit& unit, const PlaceGroup& group) {
  if (group.subject && has_own_unit(p, group, unit)) return false;
  const bool last_words = !group.subject && group.last + 2 >= p.items.size() && p.parts.units.size() == 1;
  for (Index j = unit.last; j < group.first; ++j) {
    const Item& item = p.items[j];
    if (last_words && item.kind == ItemKind::comma) continue;
    if (joins(item) || item.kind == ItemKind::semicolon || item.kind == ItemKind::colon) return false;
    if (inside_other_unit(p, j, unit)) return false;
  }
  return true;
}

// Whether a preposition in front of `group` may tie the unit to it: the units between are of the same list, or there is
// nothing else for the unit to be said of.
bool same_list_to(const PlacingState& p, const Unit& unit, const PlaceGroup& group) {
  const bool other_place = label_in_force(p) || !p.topic.places.empty() || subject_before(p, unit);
  if (!other_place) return true;
  return std::ranges::all_of(p.parts.units, [&](const Unit& other) {
    const bool between = other.first >= unit.last && other.last <= group.first && other.clause == unit.clause;
    if (&other == &unit || !between) return true;
    return other.outcome == unit.outcome && (other.coordinated || joined_only(p, unit, other));
  });
}

// "angiomas on his trunk and upper extremities", "from her occiput to her sacrum": of two places in a list, the one
// behind the organ, which counts.
bool next_counts(const PlacingState& p, const Unit& unit, Index g) {
  const PlaceGroup& group = p.parts.groups[g];
  if (!group.elsewhere || g + 1 >= p.parts.groups.size()) return false;
  const PlaceGroup& next = p.parts.groups[g + 1];
  if (next.elsewhere || next.clause != group.clause) return false;
  // "Sensation of her face, arm and leg is normal", but "angiomas on his trunk, and his legs are normal".
  if (next.subject && unit.kind != Unit::Kind::component) return false;
  for (Index j = group.last; j < next.first; ++j) {
    const bool reaches = p.items[j].has(kAt) && p.items[j].has(kWith);  // "to"
    if (!joins(p.items[j]) && !is_filler(p.items[j]) && !reaches) return false;
  }
  return true;
}

bool except_between(const PlacingState& p, Index a, Index b) {
  for (Index j = a; j < b; ++j) {
    if (p.items[j].is(Cue::except)) return true;
  }
  return false;
}

// The group behind the unit that the unit, or the list it stands in, leads to: "tenderness or warmth over the knee".
std::optional<Index> group_behind(const PlacingState& p, const Unit& unit) {
  for (Index g = 0; g < p.parts.groups.size(); ++g) {
    const PlaceGroup& group = p.parts.groups[g];
    if (group.first < unit.last || group.clause != unit.clause || group.compared) continue;
    if (!group.at_before) {
      if (except_between(p, unit.last, group.first)) return std::nullopt;
      if (!leads_to(p, unit, group)) return std::nullopt;
      return next_counts(p, unit, g) ? g + 1 : g;
    }
    if (!same_list_to(p, unit, group)) return std::nullopt;
    if (next_counts(p, unit, g)) return g + 1;
    return except_between(p, unit.last, group.first) ? std::nullopt : std::optional(g);
  }
  return std::nullopt;
}

// The nearest group before the unit in its clause, a subject before any other.
std::optional<Index> group_before(const PlacingState& p, const Unit& unit) {
  std::optional<Index> nearest;
  std::optional<Index> subject;
  for (Index g = 0; g < p.parts.groups.size(); ++g) {
    const PlaceGroup& group = p.parts.groups[g];
    if (group.last > unit.first) break;
    if (group.compared || group.clause != unit.clause) continue;
    nearest = g;
    if (!group.at_before) subject = g;
  }
  return subject ? subject : nearest;
}

// The last group of the clauses before.
std::optional<Index> group_in_earlier_clause(const PlacingState& p, const Unit& unit) {
  std::optional<Index> found;
  for (Index g = 0; g < p.parts.groups.size(); ++g) {
    if (p.parts.groups[g].clause < unit.clause && !p.parts.groups[g].compared) found = g;
  }
  return found;
}

// Whether pulses that the note does not name can be those of the group.
bool can_have_pulses(const PlacingState& p, const PlaceGroup& group) {
  const PlaceGroup::Member& first = group.members.front();
  const Item& item = p.items[first.item];
  return item.is_any(ConceptKind::artery, ConceptKind::muscle) ||
         (item.is(ConceptKind::region) && is_group(first.place.region));
}

// A group named earlier in the sentence, where nothing ties the unit to one.
Locus earlier_group(const PlacingState& p, const Unit& unit) {
  const bool unnamed_pulses = unit.component == Component::perfusion && usual_region(unit) == Region::extremities;
  auto before = group_before(p, unit);
  if (before && unnamed_pulses && !can_have_pulses(p, p.parts.groups[*before])) before.reset();
  if (before) {
    const PlaceGroup& group = p.parts.groups[*before];
    // What was pressed or seen at a place does not become the subject where a label is in force.
    if (group.at_before && label_in_force(p) && !group.elsewhere) return {};
    const bool nearby = unit.first - group.last < kNearby;
    return {before, nearby ? PlaceSource::named : PlaceSource::sentence};
  }
  if (label_in_force(p) || unit.component == Component::reflexes || unnamed_pulses) return {};
  const auto earlier = group_in_earlier_clause(p, unit);
  // Edema after talk of an organ is of the limbs again.
  if (earlier && p.parts.groups[*earlier].elsewhere && counts_anywhere(unit)) return {};
  return {earlier, PlaceSource::sentence};
}

// What is said of the rest is of a place only if that is named with it.
std::optional<Index> group_of_rest(const PlacingState& p, const Unit& unit) {
  if (is_blanket(unit)) return group_in_earlier_clause(p, unit);  // "tender medially but otherwise unremarkable"
  auto group = group_behind(p, unit);
  if (!group) group = modifier_of(p, unit);
  if (group && p.parts.groups[*group].clause != unit.clause) group.reset();
  return group;
}

// "Normal bulk and tone throughout with no weakness in the legs": what is said of all is of no place behind it.
bool is_throughout(const PlacingState& p, const Unit& one) {
  const Unit* last = &one;
  for (const Unit* next = next_of(p, one); next != nullptr && joined_only(p, *last, *next); next = next_of(p, *last)) {
    last = next;
  }
  const Unit& unit = *last;
  if (unit.last >= p.items.size() || !p.items[unit.last].is(Cue::extent)) return false;
  if (p.document.text(p.items[unit.last].first) != "throughout") return false;
  const Index behind = unit.last + 1;
  return behind < p.items.size() && !is_filler(p.items[behind]) && !p.items[behind].places() &&
         !p.items[behind].is(ConceptKind::side);
}

}  // namespace

Locus locus_of(const PlacingState& p, const Unit& unit) {
  if (unit.value_group) return {unit.value_group};
  if (unit.after_rest) return {group_of_rest(p, unit)};
  // "1/1 quads and hamstrings, 0/0 distally": of the limb of the heading.
  const bool distally =
      unit.kind == Unit::Kind::judgement && unit.last < p.items.size() && p.items[unit.last].is(Cue::extent);
  if (distally && (system_in_force(p) || label_in_force(p))) return {group_behind(p, unit)};
  if (const auto modifier = modifier_of(p, unit)) return {modifier};
  if (is_throughout(p, unit)) return {};
  if (const auto behind = group_behind(p, unit)) return {behind};
  // "Motor strength appears 5/5 strength in the lower extremities": told twice, of one place.
  for (const Unit& other : p.parts.units) {
    const bool again = other.first >= unit.last && other.clause == unit.clause && other.component == unit.component &&
                       unit.kind == Unit::Kind::component && other.kind == unit.kind;
    if (!again || p.topic.places.empty()) continue;
    if (const auto behind = group_behind(p, other)) return {behind};
    break;
  }
  // "Hawkins and Neer signs are positive at the left shoulder": tests in a list are of one joint.
  const Unit* next = unit.kind == Unit::Kind::test && unit.coordinated ? next_of(p, unit) : nullptr;
  if (next != nullptr && next->kind == Unit::Kind::test) {
    if (const auto behind = group_behind(p, *next)) return {behind};
  }
  return earlier_group(p, unit);
}

}  // namespace jointledger
