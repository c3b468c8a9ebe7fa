// From a unit and its place to a statement.
#include <algorithm>

#include "reading/placing_steps.h"

namespace jointledger {
namespace {

// A finding that counts only with a region, and has none under a heading that is of no system or part.
bool lacks_region(const PlacingState& p, const Unit& unit, const Target& target) {
  if (target.place.region != Region::whole_body || target.source != PlaceSource::none) return false;
  if (!is_phrase(unit, ConceptKind::finding)) return false;
  const Scope* scope = p.topic.scope;
  return unit.meaning->admit == Admit::region && scope != nullptr && !scope->is_system && !scope->component;
}

// Masses in the neck are not of its joints.
bool is_mass_in_neck(const Unit& unit, const Target& target) {
  return target.place.region == Region::cervical_spine && unit.meaning != nullptr && unit.meaning->id == "mass";
}

// "edema to the knees", "up to the level of the thighs": how far up the limb it goes.
bool is_extent_of_edema(const PlacingState& p, const Unit& unit, const Target& target) {
  const Region region = target.place.region;
  if (usual_region(unit) != Region::extremities || is_group(region)) return false;
  if (region == Region::lower_leg || region == Region::forearm) return false;
  const auto group = std::ranges::find_if(p.parts.groups, [&](const PlaceGroup& g) {
    return g.first > unit.first && g.members.front().place.region == region;
  });
  if (group == p.parts.groups.end()) return false;
  const Index place = group->members.front().item;
  for (Index j = place; j > unit.last && j + 6 > place; --j) {
    const Item& before = p.items[j - 1];
    const std::string_view text = p.document.text(before.first);
    if (text == "to" || text == "up" || text == "through") return true;
    if (before.kind == ItemKind::comma) break;
  }
  return false;
}

// The region of the ledger that the target stands for.
Region stated_region(const PlacingState& p, const Unit& unit, const Target& target) {
  const Region region = target.place.region;
  const bool under_extremities = system_in_force(p) && p.topic.scope->places.front().region == Region::extremities;
  if (target.place.joints && under_extremities) return Region::extremities;
  if (unit.component == Component::inspection && is_paired(region) && is_extent_of_edema(p, unit, target)) {
    return covers(Region::lower_extremity, region) ? Region::lower_extremity : Region::upper_extremity;
  }
  return region;
}

Side stated_side(const Target& target, Region region) {
  const Side side = target.place.side;
  if (region == Region::whole_body && target.place.joints && side == Side::both) return Side::midline;
  if (region == Region::extremities && side == Side::midline) return Side::both;
  return side;
}

}  // namespace

void say(PlacingState& p, const Unit& unit, const Target& target) {
  if (lacks_region(p, unit, target) || is_mass_in_neck(unit, target)) return;
  Statement& s = p.topic.said->emplace_back();
  s.region = stated_region(p, unit, target);
  s.component = unit.component;
  s.side = stated_side(target, s.region);
  s.outcome = *unit.outcome;
  if (unit.component == Component::range_of_motion) s.motions = unit.motions;
  s.place_source = target.source;
  s.side_source = target.side_source;
  s.judged = unit.judged;
  s.degrees.assign(unit.degrees.begin(), unit.degrees.end());
  for (Degrees& degrees : s.degrees) degrees.side = s.side;
  s.grades.assign(unit.grades.begin(), unit.grades.end());
  for (Grade& grade : s.grades) {
    if (grade.side == Side::unstated) grade.side = s.side;
  }
  if (!target.structure.empty()) s.structures.push_back(target.structure);
  if (is_phrase(unit, ConceptKind::test)) s.tests.push_back(unit.meaning->id);
  s.evidence.assign(unit.words.begin(), unit.words.end());
  if (target.words.end > target.words.start) s.evidence.push_back(target.words);
  s.sentence = p.sentence;
}

}  // namespace jointledger
