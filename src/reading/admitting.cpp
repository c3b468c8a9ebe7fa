// What a heading lets count of the text below it.
#include <algorithm>

#include "reading/placing_steps.h"

namespace jointledger {
namespace {

bool is_neurological(Component component) {
  return component == Component::strength || component == Component::reflexes || component == Component::sensation;
}

// Power, reflexes and sense told in the run of a text about the cranial nerves or the mind, by name.
bool begins_neurological(const PlacingState& p, const Unit& unit) {
  if (!is_phrase(unit, ConceptKind::component) || unit.meaning->region || unit.first > 4) return false;
  return is_neurological(unit.component) && std::ranges::none_of(p.parts.groups, &PlaceGroup::elsewhere);
}

}  // namespace

bool admits(const PlacingState& p, const Unit& unit, PlaceSource source) {
  const bool named = source == PlaceSource::named || source == PlaceSource::sentence;
  switch (admits_in_force(p)) {
    case Admits::all:
      return true;
    case Admits::anywhere:
      return named || source == PlaceSource::topic || counts_anywhere(unit);
    case Admits::explicit_only:
      return named || unit.component == Component::gait || (counts_anywhere(unit) && !p.topic.places.empty()) ||
             (unit.component == Component::reflexes && begins_neurological(p, unit));
    case Admits::nothing:
      return begins_neurological(p, unit);
  }
  return true;
}

bool admits_own(const PlacingState& p, const Unit& unit) {
  const Admits admits = admits_in_force(p);
  if (admits == Admits::nothing) return false;
  if (admits == Admits::all || unit.component == Component::gait) return true;
  if (unit.meaning == nullptr) return false;
  if (unit.meaning->id == "neck") return true;
  if (counts_anywhere(unit)) return admits == Admits::anywhere;
  switch (unit.meaning->kind) {
    case ConceptKind::test:
    case ConceptKind::muscle:
    case ConceptKind::motion:
      return true;
    default:
      return unit.meaning->component == Component::strength || unit.meaning->component == Component::reflexes;
  }
}

bool neck_in_force(const PlacingState& p) {
  const auto is_neck = [](const PlaceRef& ref) { return ref.region == Region::cervical_spine; };
  for (const PlaceGroup& group : p.parts.groups) {
    if (std::ranges::any_of(group.members, is_neck, &PlaceGroup::Member::place)) return true;
  }
  // "neck stiffness": a finding that begins with the word.
  for (const Item& item : p.items) {
    if (!item.is(ConceptKind::finding)) continue;
    const std::string_view word = p.document.text(item.first);
    if (word.size() == 4 && (word[0] == 'n' || word[0] == 'N')) return true;
  }
  if (std::ranges::any_of(p.topic.places, is_neck)) return true;
  if (p.topic.scope == nullptr) return false;
  if (std::ranges::any_of(p.topic.scope->places, is_neck)) return true;
  const Span words = p.topic.scope_words;
  const std::string_view heading = p.document.note().substr(words.start, words.end - words.start);
  return heading.find("eck") != std::string_view::npos || heading.find("ECK") != std::string_view::npos;
}

}  // namespace jointledger
