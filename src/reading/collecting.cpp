// What a sentence names of the exam, before anything is judged.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

// Whether muscles in this clause are graded rather than pressed.
bool muscles_graded(const SentenceState& s, Index clause) {
  if (s.talk.reflexes) return false;
  const auto in_clause = [&](auto&& test) {
    for (Index i = 0; i < s.items.size(); ++i) {
      if (s.parts.clause[i] == clause && test(s.items[i])) return true;
    }
    return false;
  };
  if (s.talk.strength) {
    return !in_clause([](const Item& item) {
      return item.is(ConceptKind::finding) &&
             (item.meaning->component == Component::palpation || item.meaning->component == Component::inspection);
    });
  }
  // "Normal biceps, triceps, grip": judged muscles and nothing else.
  const bool other = in_clause([](const Item& item) {
    return item.is_any(ConceptKind::finding, ConceptKind::motion, ConceptKind::test, ConceptKind::component) ||
           item.is(Cue::pain);
  });
  return !other && in_clause([](const Item& item) { return is_value(item); });
}

// An artery that is said to be felt, in a sentence without the word pulse.
bool is_felt(const SentenceState& s, Index i) {
  if (s.talk.perfusion) return false;
  for (Index j = i + 1; j < s.items.size() && j < i + 4; ++j) {
    if (s.items[j].is_any(Cue::present, Cue::strong, Cue::absent)) return true;
    if (is_figure(s.items[j], FigureKind::plus_grade)) return true;
  }
  return false;
}

// Abbreviations such as "ER" and "IR", which mean other things, too.
bool is_short_capitals(const SentenceState& s, const Item& item) {
  const std::string_view text = s.document.text(item.first);
  return item.last - item.first == 1 && text.size() <= 2 && text[0] >= 'A' && text[0] <= 'Z';
}

// Whether anything in the sentence but item `i` speaks of motion or names a place.
bool motion_besides(const SentenceState& s, Index i) {
  if (s.talk.motion) return true;
  for (Index j = 0; j < s.items.size(); ++j) {
    if (j != i && (s.items[j].is(ConceptKind::motion) || s.items[j].places())) return true;
  }
  return false;
}

// The motion that ends right before item `i`, the last unit so far; null if there is none.
Unit* motion_before(SentenceState& s, Index i) {
  if (s.parts.units.empty()) return nullptr;
  Unit& last = s.parts.units.back();
  return last.kind == Unit::Kind::motion && last.last == i ? &last : nullptr;
}

// One unit, or two for a phrase that names two components ("neurovascular").
void add_both(SentenceState& s, Unit::Kind kind, const Concept& c, Index i) {
  add_unit(s, kind, c.component, &c, i, i + 1);
  if (c.second_component) add_unit(s, kind, *c.second_component, &c, i, i + 1);
}

void collect_component(SentenceState& s, const Concept& c, Index i) {
  Unit* motion = c.component == Component::strength && !c.region ? motion_before(s, i) : nullptr;
  if (motion == nullptr) return add_both(s, Unit::Kind::component, c, i);
  // "abduction strength": the motion before it is what is graded.
  motion->component = Component::strength;
  motion->last = i + 1;
  motion->words.back() = words_of(s, motion->first, motion->last);
  s.parts.consumed[i] = 1;
}

void collect_finding(SentenceState& s, const Concept& c, Index i) {
  Unit* before = c.component == Component::range_of_motion ? motion_before(s, i) : nullptr;
  if (before == nullptr) return add_both(s, Unit::Kind::finding, c, i);
  // "flexion contracture", "extension lag": the motion it is of.
  const Index first = before->first;
  const MotionSet motions = before->motions;
  s.parts.units.pop_back();
  add_unit(s, Unit::Kind::finding, c.component, &c, first, i + 1).motions = motions;
}

void collect_motion(SentenceState& s, const Concept& c, Index i) {
  if (is_short_capitals(s, s.items[i]) && !motion_besides(s, i)) return;  // "ER" is a place in a hospital, too
  Unit& unit = add_unit(s, Unit::Kind::motion, Component::range_of_motion, &c, i, i + 1);
  unit.motions = c.motions;
  if (s.talk.strength && !s.talk.motion) unit.component = Component::strength;
}

}  // namespace

void collect_units(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    const Item& item = s.items[i];
    if (item.kind != ItemKind::meaning) continue;
    const Concept& c = *item.meaning;
    switch (c.kind) {
      case ConceptKind::component:
        collect_component(s, c, i);
        break;
      case ConceptKind::finding:
        collect_finding(s, c, i);
        break;
      case ConceptKind::motion:
        collect_motion(s, c, i);
        break;
      case ConceptKind::test:
        add_unit(s, Unit::Kind::test, c.component, &c, i, i + 1);
        break;
      case ConceptKind::motion_muscle:
        add_unit(s, Unit::Kind::muscle, Component::strength, &c, i, i + 1);
        break;
      case ConceptKind::muscle:
        if (muscles_graded(s, s.parts.clause[i])) add_unit(s, Unit::Kind::muscle, Component::strength, &c, i, i + 1);
        break;
      case ConceptKind::artery:
        if (is_felt(s, i)) add_unit(s, Unit::Kind::component, Component::perfusion, &c, i, i + 1);
        break;
      case ConceptKind::elsewhere_finding:
        add_unit(s, Unit::Kind::elsewhere, Component::unspecified, &c, i, i + 1);
        break;
      default:
        break;
    }
  }
}

}  // namespace jointledger
