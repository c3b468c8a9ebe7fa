#include "reading/placing.h"

#include "reading/placing_steps.h"

namespace jointledger {
namespace {

// A muscle that is graded is its own place, unless its value or "the rest" points elsewhere.
bool is_graded_muscle(const Unit& unit) {
  return !unit.value_group && !unit.after_rest && unit.kind == Unit::Kind::muscle &&
         is_phrase(unit, ConceptKind::muscle);
}

// Adds the places that the sentence names for a unit. Returns false if it names another organ for it.
bool add_named(const PlacingState& p, const Unit& unit, const Locus& locus, bool own, Targets& targets) {
  if (!locus.group) return true;
  const bool elsewhere = p.parts.groups[*locus.group].elsewhere;
  if (elsewhere && own) return true;
  // Edema counts wherever it is told, unless it is told right beside the organ.
  const bool passes = locus.source == PlaceSource::sentence && counts_anywhere(unit);
  if (elsewhere && !passes) return false;
  add_group(p, *locus.group, locus.source, targets);
  return true;
}

// Whether the sentence itself names the place that the unit has of its own.
bool names_own_place(const PlacingState& p, const Locus& locus, const Target& own) {
  if (!locus.group) return false;
  const PlaceGroup& group = p.parts.groups[*locus.group];
  return !group.elsewhere && group.members.front().place.region == own.place.region;
}

// Finds the places that a unit is said of. Returns false if it is of no joint.
bool find_targets(const PlacingState& p, const Unit& unit, Targets& targets) {
  Locus locus;
  if (is_graded_muscle(unit)) {
    add_muscle(p, unit, targets);
    if (!targets.empty()) return true;
  } else {
    locus = locus_of(p, unit);
  }
  const bool own = has_own_place(unit);
  if (!add_named(p, unit, locus, own, targets)) return false;
  if (own) {
    if (unit.meaning != nullptr && unit.meaning->id == "neck" && !neck_in_force(p)) return false;
    const Target place = own_place(p, unit, targets);
    targets.clear();
    targets.push_back(place);
    return admits_own(p, unit) || names_own_place(p, locus, place);
  }
  return targets.empty() ? find_default(p, unit, targets) : admits(p, unit, locus.source);
}

// `targets` is scratch memory.
void place(PlacingState& p, const Unit& unit, Targets& targets) {
  targets.clear();
  if (!find_targets(p, unit, targets)) return;
  if (unit.component == Component::unspecified && targets.front().source == PlaceSource::topic) return;
  finish_sides(p, unit, targets);
  for (const Target& target : targets) say(p, unit, target);
}

}  // namespace

void place_units(const Document& document, const SentenceParts& parts, std::uint32_t sentence, Topic& topic) {
  PlacingState p{document, parts, parts.items, sentence, topic};
  const std::size_t from = topic.said->size();
  Targets targets;
  for (const Unit& unit : parts.units) place(p, unit, targets);
  compare_sides(p, from);
  mirror_sides(p, from);
  deny_places(p, from);
  except_places(p, from);
  move_on(p);
}

}  // namespace jointledger
