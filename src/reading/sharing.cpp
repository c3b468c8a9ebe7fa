// Answers reach along lists: "motor and sensory are intact", "normal strength, tone and bulk", "no motor or sensory
// deficits".
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

using Order = boost::container::small_vector<Index, 16>;  // units as they stand in the sentence

bool waits(const Unit& unit) { return takes_value(unit) && !unit.outcome; }

bool is_denied(const SentenceState& s, Index u) { return std::ranges::find(s.notes.denied, u) != s.notes.denied.end(); }

bool has_separator(const SentenceState& s, Index a, Index b) {
  for (Index j = a; j < b; ++j) {
    if (joins(s.items[j])) return true;
  }
  return false;
}

// Whether the answer of `source` can be one to `unit`: a manoeuvre's only to manoeuvres, a grade's only to its own
// kind.
bool can_share(const Unit& unit, const Unit& source) {
  if (source.kind == Unit::Kind::test || unit.kind == Unit::Kind::test) return source.kind == unit.kind;
  if (!source.grades.empty()) return unit.component == source.component;
  return source.degrees.empty();
}

void copy_answer(Unit& unit, const Unit& source) {
  unit.outcome = source.outcome;
  unit.judged = source.judged;
  if (unit.component == source.component) {
    unit.grades = source.grades;
    unit.value_side = source.value_side;
    unit.value_group = source.value_group;
  }
  unit.coordinated = true;
  unit.words.insert(unit.words.end(), source.words.begin() + 1, source.words.end());
}

// What stands before takes the answer of what it is listed with: "motor and sensory are intact".
void share_back(SentenceState& s, const Order& order) {
  auto& units = s.parts.units;
  for (std::size_t k = order.size(); k-- > 0;) {
    Unit& unit = units[order[k]];
    if (!waits(unit) || k + 1 >= order.size()) continue;
    std::size_t after = k + 1;
    while (after + 1 < order.size() && units[order[after]].kind == Unit::Kind::elsewhere) ++after;
    const Unit& next = units[order[after]];
    if (next.clause != unit.clause || !next.outcome || !takes_value(next)) continue;
    if (s.notes.value_after[order[after]] == 0) continue;
    if (!can_share(unit, next) || !listed(s, unit.last, next.first, false)) continue;
    // "MMT shoulder flexion 4/5": a title, not a second answer.
    const bool title = unit.kind == Unit::Kind::component && unit.component == next.component &&
                       !has_separator(s, unit.last, next.first);
    if (title) continue;
    copy_answer(unit, next);
    s.notes.value_after[order[k]] = 1;
  }
}

// What stands behind takes the answer of what it is listed with: "normal strength, tone and bulk". Returns the titles
// of lists of muscles: "Strength 5/5: deltoids, biceps, triceps".
Order share_on(SentenceState& s, const Order& order) {
  auto& units = s.parts.units;
  Order titles;
  for (std::size_t k = 1; k < order.size(); ++k) {
    Unit& unit = units[order[k]];
    if (!waits(unit) || is_denied(s, order[k])) continue;
    std::size_t before = k - 1;
    while (before > 0 && units[order[before]].kind == Unit::Kind::elsewhere) --before;
    const Unit& previous = units[order[before]];
    if (previous.clause != unit.clause || !previous.outcome || !can_share(unit, previous)) continue;
    const bool of_range = previous.component == Component::range_of_motion;
    const bool finding_of_motion = previous.kind == Unit::Kind::finding && of_range && unit.kind == Unit::Kind::motion;
    if (!takes_value(previous) && !finding_of_motion) continue;
    const bool motions = unit.component == Component::range_of_motion && of_range;
    const bool muscles = unit.kind == Unit::Kind::muscle && previous.component == Component::strength;
    const bool led_by_value = s.notes.value_before[order[before]] != 0;
    if (!led_by_value && !motions && !muscles && previous.kind != Unit::Kind::test) continue;
    if (!listed(s, previous.last, unit.first, motions || muscles)) continue;
    if (muscles && previous.kind == Unit::Kind::component) titles.push_back(order[before]);
    copy_answer(unit, previous);
    s.notes.value_before[order[k]] = 1;
  }
  return titles;
}

// "no focal motor or sensory deficits": a component listed with what is denied is denied trouble, not itself.
void share_denials(SentenceState& s, const Order& order) {
  for (std::size_t k = order.size(); k-- > 0;) {
    Unit& unit = s.parts.units[order[k]];
    if (!waits(unit) || k + 1 >= order.size() || !is_denied(s, order[k])) continue;
    const Unit& next = s.parts.units[order[k + 1]];
    if (next.clause != unit.clause || next.outcome != Outcome::normal) continue;
    const bool denied_finding =
        next.kind == Unit::Kind::finding && next.meaning != nullptr && next.meaning->sense == Sense::bad;
    const bool relayed = takes_value(next) && next.coordinated;
    if (!(denied_finding || relayed) || !listed(s, unit.last, next.first, false)) continue;
    unit.outcome = Outcome::normal;
    unit.coordinated = true;
    unit.words.insert(unit.words.end(), next.words.begin() + 1, next.words.end());
  }
}

// "Strength 5/5: deltoids, biceps, triceps" is the power of those muscles, and of nothing else if no place stands
// before.
void drop_titles(SentenceState& s, const Order& titles) {
  for (const Index u : titles) {
    Unit& unit = s.parts.units[u];
    const bool own_place = std::ranges::any_of(
        s.parts.groups, [&](const PlaceGroup& g) { return g.last <= unit.first && g.clause == unit.clause; });
    if (!own_place) unit.outcome.reset();
  }
}

// "no", small words, then the unit.
bool directly_denied(const SentenceState& s, const Unit& unit) {
  const auto is_small = [](const Item& item) {
    return is_filler(item) || item.is(ConceptKind::side) || item.places() || item.has(kOr);
  };
  Index j = unit.first;
  while (j > 0 && is_small(s.items[j - 1])) --j;
  return j > 0 && s.items[j - 1].is_any(Cue::no, Cue::not_);
}

// "no reflexes", "no sensation": nothing there.
void answer_denied(SentenceState& s) {
  for (const Index u : s.notes.denied) {
    Unit& unit = s.parts.units[u];
    if (unit.outcome || !directly_denied(s, unit)) continue;
    switch (unit.component) {
      case Component::reflexes:
      case Component::perfusion:
      case Component::sensation:
      case Component::range_of_motion:
        unit.outcome = Outcome::abnormal;
        break;
      case Component::strength: {
        const bool sign = unit.meaning != nullptr && unit.meaning->region == Region::upper_extremity;  // "no drift"
        unit.outcome = sign ? Outcome::normal : Outcome::abnormal;
        break;
      }
      default:
        break;
    }
  }
}

}  // namespace

void share_answers(SentenceState& s) {
  const std::size_t count = s.parts.units.size();
  if (count == 0) return;
  s.notes.value_before.resize(count, 0);
  s.notes.value_after.resize(count, 0);
  Order order(count);
  for (Index u = 0; u < count; ++u) order[u] = u;
  // Units split off stand behind all others, whatever their words.
  std::ranges::sort(order, [&](Index a, Index b) {
    const Index first_a = s.parts.units[a].first;
    const Index first_b = s.parts.units[b].first;
    return first_a != first_b ? first_a < first_b : a < b;
  });
  share_back(s, order);
  const Order titles = share_on(s, order);
  share_denials(s, order);
  drop_titles(s, titles);
  answer_denied(s);
}

}  // namespace jointledger
