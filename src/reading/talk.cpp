#include "reading/talk.h"

namespace jointledger {
namespace {

void note(Component component, Talk& talk) {
  if (component == Component::strength) talk.strength = true;
  if (component == Component::reflexes) talk.reflexes = true;
  if (component == Component::sensation) talk.sensation = true;
  if (component == Component::range_of_motion) talk.motion = true;
  if (component == Component::perfusion) talk.perfusion = true;
}

// "Posterior tibials are palpable".
bool has_felt_artery(const std::vector<Item>& items) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!items[i].is(ConceptKind::artery)) continue;
    for (std::size_t j = i + 1; j < items.size() && j < i + 4; ++j) {
      if (items[j].is_any(Cue::present, Cue::strong, Cue::absent)) return true;
    }
  }
  return false;
}

}  // namespace

Talk talk_for_places(const Context& context, const std::vector<Item>& items) {
  Talk talk;
  if (context.component) note(*context.component, talk);
  bool weak = false;
  bool grade = false;
  bool plus_grade = false;
  bool artery = false;
  for (const Item& item : items) {
    if (is_figure(item, FigureKind::grade)) grade = true;
    if (is_figure(item, FigureKind::plus_grade)) plus_grade = true;
    if (item.is(ConceptKind::artery)) artery = true;
    if (item.is_any(ConceptKind::component, ConceptKind::finding)) note(item.meaning->component, talk);
    if (item.is(ConceptKind::motion_muscle)) talk.strength = true;
    if (item.is(Cue::weak)) weak = true;
  }
  if (grade && !talk.reflexes) talk.strength = true;
  if (weak && !talk.perfusion) talk.strength = true;
  if (artery && has_felt_artery(items)) talk.perfusion = true;
  // "DP 2+, PT 2+" under a vascular heading: arteries with a grade are pulses.
  if (artery && plus_grade && !talk.reflexes && !talk.strength) talk.perfusion = true;
  return talk;
}

Talk talk_for_units(const Context& context, const std::vector<Item>& items) {
  Talk talk;
  bool strong_or_weak = false;
  bool grade = false;
  for (const Item& item : items) {
    if (is_figure(item, FigureKind::grade)) grade = true;
    if (item.is_any(ConceptKind::component, ConceptKind::finding)) note(item.meaning->component, talk);
    if (item.is(Cue::resisted) || item.is(ConceptKind::motion_muscle)) talk.strength = true;
    if (item.is_any(Cue::weak, Cue::strong)) strong_or_weak = true;
  }
  const bool heading_counts = context.component == Component::strength || context.component == Component::reflexes ||
                              context.component == Component::range_of_motion;
  if (heading_counts) note(*context.component, talk);
  if (grade && !talk.reflexes) talk.strength = true;
  if (strong_or_weak && !talk.perfusion && !talk.reflexes) talk.strength = true;
  return talk;
}

}  // namespace jointledger
