// Units for which the sentence names no place: that of the label, the heading, the sentences before, or the usual one.
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// "No motor or sensory deficits": told together with power or reflexes, sense is of the body.
bool is_told_with_power(const PlacingState& p, const Unit& unit) {
  if (unit.component != Component::sensation) return false;
  return std::ranges::any_of(p.parts.units, [](const Unit& other) {
    return other.component == Component::strength || other.component == Component::reflexes;
  });
}

// What is seen, felt or moved after talk of another organ is of that organ; power, reflexes and gait are not.
bool is_of_organ(const PlacingState& p, const Unit& unit) {
  if (counts_anywhere(unit) || is_told_with_power(p, unit)) return false;
  switch (unit.component) {
    case Component::strength:
    case Component::reflexes:
    case Component::gait:
    case Component::perfusion:
    case Component::special_test:
      return false;
    default:
      return true;
  }
}

// What counts of the chest where only the heading names it.
bool is_of_chest(const Unit& unit) {
  if (unit.meaning == nullptr) return unit.component == Component::inspection;
  if (unit.meaning->kind == ConceptKind::finding) return unit.meaning->id == "chest";
  return unit.component == Component::inspection && unit.kind == Unit::Kind::component;
}

// "Sensation intact distally" without a place: the limb of the complaint.
std::optional<Target> distal_limb(const PlacingState& p, const Unit& unit) {
  if (unit.component != Component::sensation && unit.component != Component::perfusion) return std::nullopt;
  if (!p.topic.complaint || !p.topic.places.empty()) return std::nullopt;
  const bool neurovascular = unit.meaning != nullptr && unit.meaning->second_component;
  const bool distal = neurovascular || std::ranges::any_of(p.items, [&](const Item& item) {
                        return item.is(Cue::extent) && p.document.text(item.first).starts_with("distal");
                      });
  if (!distal) return std::nullopt;
  for (const Region limb : {Region::upper_extremity, Region::lower_extremity}) {
    if (!covers(limb, p.topic.complaint->region)) continue;
    Target target;
    target.place = {limb, p.topic.complaint->side, false};
    target.source = PlaceSource::topic;
    target.side_source = SideSource::carried;
    return target;
  }
  return std::nullopt;
}

// Whether the sentence before told of the power of a limb: "5/5 in both arms. Flaccid in the legs. Increased tone."
bool was_power_told(const PlacingState& p, Region limb) {
  const auto& said = *p.topic.said;
  for (auto s = said.rbegin(); s != said.rend() && s->sentence + 1 >= p.sentence; ++s) {
    if (s->sentence != p.sentence && s->component == Component::strength && s->region == limb) return true;
  }
  return false;
}

// Whether the place of the sentences before can be what this unit is about.
bool topic_fits(const PlacingState& p, const Unit& unit) {
  const auto usual = usual_region(unit);
  // Bulk and tone are looked at as a whole.
  if (is_phrase(unit, ConceptKind::component) && usual == Region::whole_body) return false;
  const Region region = p.topic.places.front().region;
  switch (unit.component) {
    case Component::reflexes:
      return false;  // of the whole body unless their level is named
    case Component::sensation:
      // A limb named for its power is not the one whose sensation is told next.
      return is_paired(region) && !is_group(region) && !(p.topic.scope != nullptr && p.topic.scope->is_system);
    case Component::strength:
      return is_paired(region) && (!is_group(region) || was_power_told(p, region));
    case Component::perfusion:
      // Unnamed pulses are those of the extremities; capillary refill is where the sentence before was.
      return is_paired(region) && usual != Region::extremities;
    default:
      break;
  }
  const bool edema = is_phrase(unit, ConceptKind::finding) && usual == Region::extremities;
  return !edema && !is_blanket(unit);
}

// Power, sense and reflexes told after the neck or the back are of the limb that it supplies, if a side is named.
void move_to_supplied_limb(const PlacingState& p, const Unit& unit, Targets& targets) {
  Target target = targets.front();
  targets.clear();
  const auto floating = floating_side(p, unit);
  const auto side = floating ? floating : unit.value_side;
  if (!side) return;
  const bool neck = target.place.region == Region::cervical_spine;
  target.place = {neck ? Region::upper_extremity : Region::lower_extremity, *side, false};
  target.side_source = SideSource::named;
  targets.push_back(target);
}

// Takes back what is in force for components that do not take it: reflexes under Extremities, kyphosis under Chest.
void drop_unfit(const PlacingState& p, const Unit& unit, Targets& targets) {
  if (targets.empty()) return;
  const PlaceSource source = targets.front().source;
  const Region region = targets.front().place.region;
  const Component component = unit.component;
  const auto usual = usual_region(unit);
  if (is_phrase(unit, ConceptKind::finding)) {
    if (usual == Region::spine && source == PlaceSource::heading && !is_spine(region)) {
      targets.clear();
      return;
    }
    if (usual == Region::extremities) {
      // Edema, clubbing, cyanosis: the limb of the heading, or the extremities; under "Back and extremities" not the
      // back.
      const auto on_limb = [](const Target& t) { return covers(Region::extremities, t.place.region); };
      const bool some = std::ranges::any_of(targets, on_limb);
      if (some) std::erase_if(targets, [&](const Target& t) { return !on_limb(t); });
      if (source == PlaceSource::label) return;
      if (!some || source == PlaceSource::topic) targets.clear();
      return;
    }
  }
  if (component == Component::reflexes && source == PlaceSource::heading && region == Region::extremities) {
    targets.clear();
  }
  const bool neurological =
      component == Component::strength || component == Component::sensation || component == Component::reflexes;
  if (is_spine(region) && neurological) return move_to_supplied_limb(p, unit, targets);
  if (component != Component::perfusion) return;
  // "pulses equal bilaterally" under one joint are not of it.
  const bool unnamed_pulses = source == PlaceSource::label && usual == Region::extremities;
  const bool of_both = unnamed_pulses && (floating_side(p, unit) == Side::both || is_symmetric(p, unit));
  if (!is_paired(region) || of_both) targets.clear();
}

Region default_region(const Unit& unit) {
  if (const auto usual = usual_region(unit)) return *usual;
  if (unit.component == Component::perfusion && unit.meaning == nullptr) return Region::extremities;
  return Region::whole_body;
}

// Whether the unit, with no place in force, is of no joint.
bool is_of_nothing(const Unit& unit) {
  if (unit.component == Component::unspecified) return true;
  if (unit.component == Component::stability && unit.meaning == nullptr) return true;  // "stable": who knows what
  // The heart's rhythm, the skin as such, or how somebody looks.
  return is_phrase(unit, ConceptKind::component) && unit.meaning->weak &&
         (unit.component == Component::perfusion || unit.component == Component::inspection);
}

// Where the component is usually looked at.
Target usual_place(const PlacingState& p, const Unit& unit) {
  Target target;
  target.place.region = default_region(unit);
  target.place.side = is_paired(target.place.region) ? Side::both : Side::midline;
  target.side_source = SideSource::fixed;
  if (target.place.region != Region::whole_body) return target;
  const bool in_pairs = unit.component == Component::strength || unit.component == Component::reflexes ||
                        unit.component == Component::sensation;
  if (const auto floating = floating_side(p, unit)) {
    target.place.side = *floating;
    target.side_source = SideSource::named;
  } else if ((in_pairs && is_symmetric(p, unit)) || has_pair_figure(unit)) {
    target.place.side = Side::both;
    target.side_source = SideSource::named;
  }
  return target;
}

}  // namespace

bool find_default(const PlacingState& p, const Unit& unit, Targets& targets) {
  if (label_in_force(p)) {
    add_scope(p, PlaceSource::label, targets);
  } else if (p.topic.elsewhere && is_of_organ(p, unit)) {
    return false;
  } else if (const auto limb = distal_limb(p, unit)) {
    targets.push_back(*limb);
  } else if (!unit.after_rest && !p.topic.places.empty() && topic_fits(p, unit)) {
    add_topic(p, targets);
  } else if (system_in_force(p)) {
    add_scope(p, PlaceSource::heading, targets);
  }
  drop_unfit(p, unit, targets);
  if (targets.empty()) {
    if (!admits(p, unit, PlaceSource::none) || is_of_nothing(unit)) return false;
    targets.push_back(usual_place(p, unit));
    return true;
  }
  const Target& first = targets.front();
  const bool under_chest = first.source == PlaceSource::heading && first.place.region == Region::chest_wall;
  if (under_chest && !is_of_chest(unit)) return false;
  return admits(p, unit, first.source);
}

}  // namespace jointledger
