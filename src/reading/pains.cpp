// Pain counts by what brings it on: a motion, pressing, work against resistance, bearing weight, a manoeuvre.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

constexpr Index kReach = 14;  // items after the word of pain in which its trigger is looked for

/// What brings a pain on, as far as the words behind it have told.
struct Trigger {
  Component component = Component::unspecified;
  MotionSet motions;
  const Concept* meaning = nullptr;
  Index last = 0;           ///< one past its last item; the word of pain itself while nothing is known
  bool introduced = false;  ///< a word such as "with" stands between
  bool over_place = false;  ///< a preposition of place does

  bool known() const { return component != Component::unspecified; }
};

bool names(const Item& item, Component component) {
  return item.is(ConceptKind::component) && item.meaning->component == component;
}

// Whether a list of motions goes on behind separators.
bool motion_follows(const SentenceState& s, Index j) {
  while (j < s.items.size() && (joins(s.items[j]) || is_filler(s.items[j]) || s.items[j].is(ConceptKind::side))) ++j;
  return j < s.items.size() && s.items[j].is(ConceptKind::motion);
}

bool place_follows(const SentenceState& s, Index i) {
  for (Index j = i + 1; j < s.items.size() && j < i + 8 && same_clause(s, i, j); ++j) {
    if (s.items[j].places() || s.items[j].kind == ItemKind::level) return true;
    if (s.items[j].kind == ItemKind::comma) return false;
  }
  return false;
}

// "pain over the joint line" is found by pressing; "pain in the knee" may only be told.
bool is_pressed(const SentenceState& s, Index i) {
  for (Index j = i + 1; j < s.items.size() && j < i + 4; ++j) {
    if (!s.items[j].has(kAt)) continue;
    const std::string_view text = s.document.text(s.items[j].first);
    return text == "over" || text == "along" || text == "around" || text == "overlying";
  }
  return false;
}

enum class Search { goes_on, ends };

Search found(Trigger& trigger, Index j, Component component, const Concept* meaning) {
  if (trigger.known()) return Search::ends;
  trigger.component = component;
  trigger.meaning = meaning;
  trigger.last = j + 1;
  return Search::ends;
}

Search pressing(Trigger& trigger, Index j) {
  if (!trigger.known()) trigger.component = Component::palpation;
  trigger.last = j + 1;
  return Search::ends;
}

// Work against resistance, whatever else is named: "pain with resisted abduction" is of power.
Search resistance(Trigger& trigger, Index j) {
  trigger.component = Component::strength;
  trigger.meaning = nullptr;
  trigger.last = j + 1;
  return Search::goes_on;
}

Search moving(Trigger& trigger, Index j, const Concept& motion) {
  if (trigger.component == Component::strength) {
    trigger.last = j + 1;
    return Search::goes_on;
  }
  if (trigger.known() && trigger.component != Component::range_of_motion) return Search::ends;
  trigger.component = Component::range_of_motion;
  trigger.motions.insert(motion.motions);
  if (motion.region && trigger.meaning == nullptr) trigger.meaning = &motion;
  trigger.last = j + 1;
  return Search::goes_on;
}

// Takes item `j` into account.
Search look_at(const SentenceState& s, Index j, Trigger& trigger) {
  const Item& item = s.items[j];
  if (item.has(kWith) || item.has(kAt)) {
    trigger.introduced = true;
    if (!item.has(kWith)) trigger.over_place = true;
    return Search::goes_on;
  }
  if (is_filler(item) || item.is(ConceptKind::side) || item.kind == ItemKind::word || item.is(Cue::tested)) {
    return Search::goes_on;
  }
  const bool of_motion = trigger.component == Component::range_of_motion;
  if (item.places()) return !trigger.known() || j == trigger.last || of_motion ? Search::goes_on : Search::ends;
  if (item.is(Cue::palpating) || names(item, Component::palpation)) return pressing(trigger, j);
  if (item.is(Cue::resisted) || names(item, Component::strength)) return resistance(trigger, j);
  if (item.is(Cue::loading)) return found(trigger, j, Component::gait, nullptr);
  if (names(item, Component::gait)) return found(trigger, j, Component::gait, item.meaning);
  if (item.is(ConceptKind::test)) return found(trigger, j, item.meaning->component, item.meaning);
  if (item.is(ConceptKind::motion) || names(item, Component::range_of_motion)) return moving(trigger, j, *item.meaning);
  if (item.is_any(Cue::good, Cue::normal, Cue::bad) && !trigger.known()) return Search::goes_on;  // "with full flexion"
  if (joins(item) && of_motion && motion_follows(s, j + 1)) return Search::goes_on;
  if (joins(item) && !trigger.known() && item.kind != ItemKind::comma) return Search::goes_on;
  return Search::ends;
}

Trigger trigger_of(const SentenceState& s, Index pain) {
  Trigger trigger;
  trigger.last = pain + 1;
  for (Index j = pain + 1; j < s.items.size() && j < pain + kReach && same_clause(s, pain, j); ++j) {
    if (look_at(s, j, trigger) == Search::ends) break;
  }
  if (!trigger.known() && trigger.over_place && place_follows(s, pain) && is_pressed(s, pain)) {
    trigger.component = Component::palpation;
  }
  return trigger;
}

// Puts a finding for the pain and its trigger where it stands in the sentence. What it takes in is no unit of its own
// any more.
void insert_pain(SentenceState& s, Index pain, const Trigger& trigger) {
  auto& units = s.parts.units;
  std::erase_if(units, [&](const Unit& unit) { return unit.first > pain && unit.last <= trigger.last; });
  Unit unit;
  unit.kind = Unit::Kind::finding;
  unit.component = trigger.component;
  unit.meaning = trigger.meaning;
  unit.first = pain;
  unit.last = trigger.last;
  unit.clause = s.parts.clause[pain];
  if (trigger.component == Component::range_of_motion) unit.motions = trigger.motions;
  unit.words.push_back(words_of(s, pain, trigger.last));
  units.insert(std::ranges::find_if(units, [&](const Unit& u) { return u.first > pain; }), unit);
  for (Index j = pain; j < trigger.last; ++j) s.parts.consumed[j] = 1;
}

}  // namespace

void find_pains(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (!s.items[i].is(Cue::pain)) continue;
    const Trigger trigger = trigger_of(s, i);
    const bool painful_motion =
        trigger.component == Component::range_of_motion && !trigger.introduced && trigger.last == i + 2;
    const bool brought_on =
        trigger.known() && (trigger.introduced || painful_motion || trigger.component == Component::palpation);
    if (brought_on) {
      insert_pain(s, i, trigger);
    } else {
      s.notes.pains.push_back(i);  // "flexion is painful", "ROM without pain": judges what stands before
    }
  }
}

}  // namespace jointledger
