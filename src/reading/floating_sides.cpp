// Sides that stand beside no place, and words that mean both: "positive on the left", "5/5 bilaterally", "symmetric".
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// The side that a word means here; nothing for the midline.
std::optional<Side> meant_side(const PlacingState& p, SideWord word) {
  std::optional<Side> side = side_of(word);
  if (word == SideWord::affected && p.topic.complaint) side = p.topic.complaint->side;
  if (word == SideWord::other) {
    if (p.topic.side != Side::unstated) {
      side = opposite(p.topic.side);
    } else if (p.topic.complaint && is_one_side(p.topic.complaint->side)) {
      side = opposite(p.topic.complaint->side);
    }
  }
  if (side == Side::midline) side.reset();
  return side;
}

bool in_group(const PlacingState& p, Index item) {
  return std::ranges::any_of(p.parts.groups, [&](const PlaceGroup& g) { return item >= g.first && item < g.last; });
}

// Whether the item stands in a comparison: "than on the left".
bool is_compared(const PlacingState& p, Index item) {
  for (Index j = item; j-- > 0;) {
    const Item& before = p.items[j];
    if (before.is_any(Cue::compared, Cue::equalled)) return true;
    const bool small =
        is_filler(before) || before.has(kAt) || before.is(ConceptKind::side) || before.kind == ItemKind::word;
    if (!small || item - j > 4) return false;
  }
  return false;
}

// Whether another unit with an answer of its own stands between the unit and a side behind it.
bool taken_by_other(const PlacingState& p, const Unit& unit, Index side) {
  return std::ranges::any_of(p.parts.units, [&](const Unit& other) {
    const bool between = other.first >= unit.last && other.first < side && other.clause == unit.clause;
    return &other != &unit && between && !other.coordinated && other.outcome != unit.outcome;
  });
}

// "right-sided weakness"
bool side_right_before(const PlacingState& p, const Unit& unit) {
  Index j = unit.first;
  while (j > 0 && (is_filler(p.items[j - 1]) || is_value(p.items[j - 1]))) --j;
  return j > 0 && p.items[j - 1].is(ConceptKind::side) && p.parts.clause[j - 1] == unit.clause;
}

// "dorsalis pedis pulses": the plural of one artery means both sides.
bool is_pair_of_pulses(const PlacingState& p, const Unit& unit) {
  if (unit.component != Component::perfusion || unit.meaning == nullptr) return false;
  if (!last_word(p, unit).ends_with('s')) return false;
  const auto arteries = std::ranges::count_if(p.items, [](const Item& item) {
    return item.is(ConceptKind::artery) || (item.is(ConceptKind::muscle) && item.meaning->artery_region);
  });
  return arteries == 1;
}

// No side is named: both, where the unit's words mean a pair.
void finish_without_side(const PlacingState& p, const Unit& unit, Target& target) {
  if (!is_paired(target.place.region)) return;
  const bool symmetric = is_symmetric(p, unit);
  // "She has normal knee reflexes" after talk of the left hip: the plural is of both.
  const bool reflexes = unit.component == Component::reflexes && target.source == PlaceSource::named &&
                        unit.kind == Unit::Kind::component && last_word(p, unit).ends_with('s');
  if (target.side_source == SideSource::carried && (symmetric || (reflexes && !label_in_force(p)))) {
    target.place.side = Side::both;
  }
  if (target.place.side != Side::unstated) return;
  const bool muscles = unit.kind == Unit::Kind::muscle && is_phrase(unit, ConceptKind::motion_muscle);
  const bool reflex_level = unit.component == Component::reflexes && target.source != PlaceSource::own;
  if (symmetric || has_pair_figure(unit) || reflex_level || is_pair_of_pulses(p, unit) || muscles) {
    target.place.side = Side::both;
    target.side_source = SideSource::named;
  }
}

// Whether the target cannot take a side that is named elsewhere in the clause.
bool refuses(const Unit& unit, const Target& target, Side side) {
  if (is_paired(target.place.region)) {
    const bool by_name =
        target.source == PlaceSource::named || (target.source == PlaceSource::own && unit.kind == Unit::Kind::muscle);
    const bool beside_place = target.side_source == SideSource::named && by_name;
    return beside_place && !unit.value_side;
  }
  // Bending and turning to a side is a direction of the motion.
  if (is_spine(target.place.region) && unit.component == Component::range_of_motion) return true;
  if (target.place.region != Region::whole_body) return false;
  return target.source == PlaceSource::own || (side == Side::both && unit.kind == Unit::Kind::finding);
}

// "Left-sided weakness", "strength 4/5 on the right", "numb on the right side": power or sense told by side, of no
// limb, is that of the limbs of the side; after the back or the neck, of the limb that it supplies.
void spread_to_limbs(const PlacingState& p, const Unit& unit, Targets& targets) {
  if (unit.component != Component::strength && unit.component != Component::sensation) return;
  if (targets.size() != 1) return;
  PlaceRef& place = targets.front().place;
  if (place.region != Region::whole_body || !is_one_side(place.side)) return;
  std::optional<Region> spine;
  for (const PlaceRef& ref : p.topic.places) {
    if (is_spine(ref.region)) spine = ref.region;
  }
  if (spine) {
    place.region = spine == Region::cervical_spine ? Region::upper_extremity : Region::lower_extremity;
    return;
  }
  Target leg = targets.front();
  leg.place.region = Region::lower_extremity;
  place.region = Region::upper_extremity;
  targets.push_back(leg);
}

}  // namespace

std::optional<Side> floating_side(const PlacingState& p, const Unit& unit) {
  std::optional<Side> before;
  std::optional<Side> after;
  for (Index j = 0; j < p.items.size(); ++j) {
    const Item& item = p.items[j];
    if (!item.is(ConceptKind::side) || p.parts.clause[j] != unit.clause || in_group(p, j)) continue;
    const auto side = meant_side(p, *item.meaning->side);
    if (!side || is_compared(p, j)) continue;
    if (j < unit.first) {
      before = side;
    } else if (j >= unit.last && !after) {
      const bool taken = *side != Side::both && taken_by_other(p, unit, j);
      if (!taken) after = side;
    }
  }
  if (!before) return after;
  if (!after) return before;
  return *after != Side::both && side_right_before(p, unit) ? before : after;
}

bool is_symmetric(const PlacingState& p, const Unit& unit) {
  for (Index j = 0; j < p.items.size(); ++j) {
    if (p.parts.clause[j] == unit.clause && p.items[j].is_any(Cue::symmetric, Cue::equal)) return true;
  }
  return false;
}

bool has_pair_figure(const Unit& unit) {
  return std::ranges::any_of(unit.grades, [](const Grade& grade) { return grade.side != Side::unstated; });
}

void finish_sides(const PlacingState& p, const Unit& unit, Targets& targets) {
  if (unit.component == Component::gait) return;
  const std::optional<Side> side = unit.value_side ? unit.value_side : floating_side(p, unit);
  for (Target& target : targets) {
    if (!side) {
      finish_without_side(p, unit, target);
    } else if (!refuses(unit, target, *side)) {
      target.place.side = *side;
      target.side_source = SideSource::named;
    }
  }
  spread_to_limbs(p, unit, targets);
}

}  // namespace jointledger
