// Values that no unit took: a grade is strength by itself, and under a part heading a judgement is of that part.
#include <algorithm>

#include "reading/unit_steps.h"
#include "reading/values.h"

namespace jointledger {
namespace {

template <class Test>
bool any_in_clause(const SentenceState& s, Index i, Test&& test) {
  for (Index j = 0; j < s.items.size(); ++j) {
    if (same_clause(s, i, j) && test(s.items[j])) return true;
  }
  return false;
}

bool place_in_clause(const SentenceState& s, Index i) {
  return any_in_clause(s, i, [](const Item& item) { return item.places(); });
}

bool side_in_clause(const SentenceState& s, Index i) {
  return any_in_clause(s, i, [](const Item& item) { return item.is(ConceptKind::side); });
}

// "Absent in BLE", "knees absent": a place right after or before.
bool place_beside(const SentenceState& s, Index i) {
  for (Index j = i + 1; j < s.items.size() && j <= i + 3; ++j) {
    if (s.items[j].kind == ItemKind::comma) break;
    if (s.items[j].places()) return true;
  }
  return i > 0 && s.items[i - 1].places();
}

// "Sensory: unremarkable except ..."
bool opens_sentence(const SentenceState& s, Index i) {
  return std::all_of(s.items.begin(), s.items.begin() + i, [](const Item& item) {
    return is_filler(item) || item.has(kVerb) || item.kind == ItemKind::comma;
  });
}

// A verdict with no unit in its clause.
bool stands_alone(const SentenceState& s, Index i) {
  return std::ranges::none_of(s.parts.units, [&](const Unit& unit) {
    return unit.clause == s.parts.clause[i] && unit.kind != Unit::Kind::judgement;
  });
}

bool only_findings(const SentenceState& s, Index i) {
  return std::ranges::all_of(s.parts.units, [&](const Unit& unit) {
    return unit.clause != s.parts.clause[i] || unit.kind == Unit::Kind::finding;
  });
}

// "Neck: supple and symmetric": how it looks, where no component in the clause is meant.
bool is_symmetric_look(const SentenceState& s, Index i) {
  const bool taken = std::ranges::any_of(s.parts.units, [&](const Unit& unit) {
    const bool organ_beside = unit.kind == Unit::Kind::elsewhere && unit.first <= i + 2 && unit.last + 2 >= i;
    return unit.clause == s.parts.clause[i] && (takes_value(unit) || organ_beside);
  });
  if (taken) return false;
  for (Index j = 0; j < i; ++j) {
    if (same_clause(s, i, j) && s.items[j].is(ConceptKind::elsewhere_place)) return false;
  }
  return true;
}

// "Knee 0-120 degrees": a range with its unit, in a sentence that names a joint.
bool is_range_of_joint(const SentenceState& s, const Item& item) {
  if (!is_figure(item, FigureKind::range) || item.figure.second > 180) return false;
  const bool joint = std::ranges::any_of(s.items, [](const Item& other) { return other.is(ConceptKind::region); });
  return joint && s.document.text(item.last - 1).starts_with("deg");
}

// "AROM right knee 0-120, left knee 0-130": degrees of another place in a clause of its own, after those of a motion.
bool goes_on_with_motion(const SentenceState& s, Index i) {
  if (!is_figure(s.items[i], FigureKind::range) && !is_figure(s.items[i], FigureKind::degrees)) return false;
  if (!place_in_clause(s, i) || !stands_alone(s, i)) return false;
  return std::ranges::any_of(s.parts.units, [&](const Unit& unit) {
    return unit.clause + 1 == s.parts.clause[i] && unit.component == Component::range_of_motion &&
           !unit.degrees.empty();
  });
}

// The component that a value by itself speaks of; nothing if it may be any.
std::optional<Component> component_of(const SentenceState& s, Index i) {
  const Item& item = s.items[i];
  if (s.context.component) return s.context.component;
  if (is_figure(item, FigureKind::grade)) return Component::strength;
  if (is_range_of_joint(s, item) || goes_on_with_motion(s, i)) return Component::range_of_motion;
  if (item.is_any(Cue::strong, Cue::weak) && place_in_clause(s, i)) return Component::strength;
  if (item.is(Cue::weak) && side_in_clause(s, i)) return Component::strength;
  if (!item.is(Cue::stable)) return std::nullopt;
  const bool of_joint = stands_alone(s, i) || (place_in_clause(s, i) && only_findings(s, i));
  return of_joint ? std::optional(Component::stability) : std::nullopt;
}

// A unit of the kind that a value of the component would judge, to ask what the value says.
Unit probe_for(Component component) {
  Unit probe;
  probe.component = component;
  probe.kind = Unit::Kind::muscle;
  if (component == Component::range_of_motion) probe.kind = Unit::Kind::motion;
  if (component == Component::special_test || component == Component::stability) probe.kind = Unit::Kind::test;
  return probe;
}

// Whether a value of `component` that no unit took says something new, and not only more of what was said before
// ("strong and symmetric").
bool says_more(const SentenceState& s, Index i, Component component) {
  const Item& item = s.items[i];
  if (stands_alone(s, i)) return true;
  if (component == Component::inspection || component == Component::palpation) return false;
  if (item.kind == ItemKind::figure || item.is_any(Cue::stable, Cue::strong, Cue::weak)) return true;
  if (!s.context.component) return false;
  const bool told_by_place =
      component == Component::reflexes || component == Component::strength || component == Component::sensation;
  return (told_by_place && place_beside(s, i)) || opens_sentence(s, i);
}

Unit& add_judgement(SentenceState& s, Component component, Index i) {
  return add_unit(s, Unit::Kind::judgement, component, nullptr, i, i + 1);
}

// A value of no component: how something looks, or a verdict on everything.
void take_verdict(SentenceState& s, Index i) {
  const Item& item = s.items[i];
  if (item.is(Cue::symmetric) && is_symmetric_look(s, i)) {
    add_judgement(s, Component::inspection, i).outcome = is_turned_round(s, i) ? Outcome::abnormal : Outcome::normal;
    return;
  }
  if (!item.is_any(Cue::normal, Cue::bad, Cue::good, Cue::negative) || !stands_alone(s, i)) return;
  Unit& unit = add_judgement(s, Component::unspecified, i);
  unit.outcome = value_of(s, i, unit).outcome;
}

}  // namespace

void take_bare_values(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    const Item& item = s.items[i];
    if (s.parts.consumed[i] != 0 || !(is_value(item) || item.kind == ItemKind::number)) continue;
    const auto component = component_of(s, i);
    if (!component) {
      take_verdict(s, i);
    } else if (value_of(s, i, probe_for(*component)).outcome && says_more(s, i, *component)) {
      put_value(s, add_judgement(s, *component, i), i);
    }
  }
}

}  // namespace jointledger
