// Phrases that bring their place with them: "grip", "Phalen", "pedal edema", "ankle reflexes", gait.
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// Findings and components give up a wide place of their own for a nearer one; manoeuvres and motions are of certain
// joints.
bool is_finding_or_component(const Unit& unit) {
  return is_phrase(unit, ConceptKind::finding) || is_phrase(unit, ConceptKind::component);
}

std::optional<Region> region_of_test(const Concept& test, Region in_force) {
  for (const Region region : test.test_regions) {
    if (region == in_force) return region;
  }
  return std::nullopt;
}

std::optional<Region> region_of_motion(const Concept& motion, Region in_force) {
  if (*motion.region == in_force) return in_force;
  if (motion.motions.contains(Motion::supination) || motion.motions.contains(Motion::pronation)) {
    return in_force == Region::forearm ? std::optional(in_force) : std::nullopt;
  }
  const bool joint = !is_group(in_force) && is_paired(in_force);
  const bool fits = same_limb(in_force, *motion.region) || motion.motions.contains(Motion::dorsiflexion);
  return joint && fits ? std::optional(in_force) : std::nullopt;
}

// The region that a phrase takes from one named with it, instead of its own.
std::optional<Region> taken_from_named(const Unit& unit, Region named, Region own) {
  if (is_phrase(unit, ConceptKind::finding) && unit.meaning->id == "placed") return own;
  if (is_finding_or_component(unit)) return is_group(own) && own != Region::upper_extremity ? named : own;
  if (unit.meaning->kind == ConceptKind::test) return region_of_test(*unit.meaning, named);
  if (unit.meaning->kind == ConceptKind::motion) return region_of_motion(*unit.meaning, named);
  return std::nullopt;
}

// The region that a phrase takes from what is in force.
std::optional<Region> taken_from_force(const Unit& unit, Region in_force) {
  if (unit.meaning->kind == ConceptKind::test) return region_of_test(*unit.meaning, in_force);
  if (unit.meaning->kind == ConceptKind::motion) return region_of_motion(*unit.meaning, in_force);
  return unit.meaning->region == in_force ? std::optional(in_force) : std::nullopt;
}

void take_from_named(const Unit& unit, const Targets& named, Target& own) {
  for (const Target& target : named) {
    if (const auto taken = taken_from_named(unit, target.place.region, own.place.region)) own.place.region = *taken;
    const bool plural = target.side_source == SideSource::plural && is_paired(target.place.region);
    if (target.side_source == SideSource::named || plural) {
      own.place.side = target.place.side;
      own.side_source = target.side_source;
    }
    own.words = target.words;
  }
}

// From a label; without any place in the heading, from the sentences before.
void take_from_force(const PlacingState& p, const Unit& unit, Target& own) {
  if (p.topic.scope == nullptr) return;
  const auto take_side = [&](Side side) {
    if (side == Side::unstated) return;
    own.place.side = side;
    own.side_source = SideSource::carried;
  };
  if (label_in_force(p)) {
    for (const PlaceRef& ref : p.topic.scope->places) {
      const auto taken = taken_from_force(unit, ref.region);
      if (!taken) continue;
      own.place.region = *taken;
      take_side(ref.side);
    }
  } else if (p.topic.scope->places.empty()) {
    for (const PlaceRef& ref : p.topic.places) {
      const auto taken = taken_from_force(unit, ref.region);
      if (!taken) continue;
      own.place.region = *taken;
      if (own.place.side == Side::unstated) take_side(ref.side);
    }
  }
}

// Reflexes and the drift of the arms told in the plural.
bool is_plural(const PlacingState& p, const Unit& unit) {
  if (unit.component != Component::reflexes && unit.component != Component::strength) return false;
  const std::string_view word = last_word(p, unit);
  return word.size() > 3 && word.ends_with('s') && !word.ends_with("ss") && is_finding_or_component(unit);
}

bool topic_has(const PlacingState& p, Region region) {
  return std::ranges::find(p.topic.places, region, &PlaceRef::region) != p.topic.places.end();
}

// A side said of another place does not hold for a phrase that brings its own ("pedal edema" after a hip); under the
// heading of both limbs it is of both.
SettledSide side_without_place(const PlacingState& p, Region region) {
  if (!system_in_force(p)) return {};
  const PlaceRef& heading = p.topic.scope->places.front();
  const bool both_limbs = heading.side == Side::both && covers(heading.region, region);
  return both_limbs ? SettledSide{Side::both, SideSource::plural} : SettledSide{};
}

SettledSide settle_own_side(const PlacingState& p, const Unit& unit, Region region) {
  SideClues clues;
  clues.plural = is_plural(p, unit);
  SettledSide settled = settle_side(p, {region, Side::unstated, false}, clues);
  const bool of_other_place = settled.source == SideSource::carried && is_finding_or_component(unit) &&
                              !label_in_force(p) && !topic_has(p, region);
  if (of_other_place) settled = side_without_place(p, region);
  // Hoffmann's sign and drift are looked for in pairs.
  const bool in_pairs = region == Region::upper_extremity &&
                        (unit.component == Component::reflexes || unit.component == Component::strength);
  if (settled.side == Side::unstated && in_pairs) return {Side::both, SideSource::plural};
  return settled;
}

}  // namespace

bool has_own_place(const Unit& unit) {
  if (unit.component == Component::gait) return true;
  const auto usual = usual_region(unit);
  if (!usual) return false;
  if (!is_finding_or_component(unit)) return true;
  if (usual == Region::extremities) return unit.component == Component::range_of_motion;
  return usual != Region::whole_body && usual != Region::spine;
}

Target own_place(const PlacingState& p, const Unit& unit, const Targets& named) {
  Target own;
  own.source = named.empty() ? PlaceSource::own : PlaceSource::named;
  if (unit.component == Component::gait) {
    own.place = {Region::whole_body, Side::midline, false};
    own.side_source = SideSource::fixed;
    return own;
  }
  own.place.region = *usual_region(unit);
  take_from_named(unit, named, own);
  if (named.empty()) take_from_force(p, unit, own);
  if (own.place.side == Side::unstated || own.place.side == Side::midline) {
    const SettledSide settled = settle_own_side(p, unit, own.place.region);
    own.place.side = settled.side;
    own.side_source = settled.source;
  }
  return own;
}

}  // namespace jointledger
