// The side of a place that names none itself: from the sentence so far, the heading, or the sentences before.
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// The side stated with the same region earlier in the sentence, where the region comes only once in the body.
std::optional<Side> side_of_same_region(const PlacingState& p, Region region, Index item) {
  for (const PlaceGroup& group : p.parts.groups) {
    for (const auto& member : group.members) {
      if (member.item < item && member.sided && member.place.region == region) return member.place.side;
    }
  }
  return std::nullopt;
}

// The side stated beside a place earlier in the sentence.
std::optional<Side> earlier_side(const PlacingState& p, Index item) {
  std::optional<Side> found;
  for (const PlaceGroup& group : p.parts.groups) {
    for (const auto& member : group.members) {
      const bool counts = member.sided && is_paired(member.place.region) && !group.elsewhere;
      if (member.item < item && counts) found = member.place.side;
    }
  }
  return found;
}

// Whether a label with one side is in force for the limb ("Left shoulder: ... no tenderness of the AC joints").
bool is_labelled_limb(const PlacingState& p, Region region) {
  if (!label_in_force(p)) return false;
  return std::ranges::any_of(p.topic.scope->places, [&](const PlaceRef& ref) {
    return is_one_side(ref.side) && (same_limb(ref.region, region) || ref.region == region);
  });
}

bool is_part(const PlacingState& p, Index item) { return item < p.items.size() && p.items[item].is(ConceptKind::part); }

// Fingers of an unstated hand stay unstated; fingers by themselves are those of both hands.
bool are_of_both(const PlacingState& p, Region region) {
  if (p.topic.places.empty() && !label_in_force(p)) return true;
  const auto unstated_limb = [&](const auto& refs) {
    return std::ranges::any_of(
        refs, [&](const PlaceRef& ref) { return ref.side == Side::unstated && same_limb(ref.region, region); });
  };
  return !unstated_limb(p.topic.places) && !(p.topic.scope != nullptr && unstated_limb(p.topic.scope->places));
}

// Whether "both" was said of the region before: it holds only for the places it was said of.
bool both_in_force(const PlacingState& p, Region region) {
  const bool said = std::ranges::any_of(
      p.topic.places, [&](const PlaceRef& ref) { return ref.region == region && ref.side == Side::both; });
  if (said || p.topic.scope == nullptr) return said;
  return std::ranges::any_of(p.topic.scope->places, [&](const PlaceRef& ref) {
    if (is_group(region) && ref.region == Region::extremities) return false;  // "lower extremity" in the singular
    return ref.side == Side::both && (covers(ref.region, region) || p.topic.scope->label);
  });
}

// "bilaterally" holds for the rest of its sentence.
bool bilateral_before(const PlacingState& p, Index item) {
  for (Index j = 0; j < item && j < p.items.size(); ++j) {
    if (p.items[j].is(ConceptKind::side) && *p.items[j].meaning->side == SideWord::both) return true;
  }
  return false;
}

}  // namespace

SettledSide settle_side(const PlacingState& p, const PlaceRef& place, const SideClues& clues) {
  const Topic& topic = p.topic;
  const bool has_side = place.side != Side::unstated && place.side != Side::midline;
  if (clues.sided || has_side) return {place.side, SideSource::named};
  if (!is_paired(place.region)) {
    return {side_of_same_region(p, place.region, clues.item).value_or(Side::midline), SideSource::fixed};
  }
  const bool parts_of_label = is_part(p, clues.item) && is_labelled_limb(p, place.region);
  if (clues.plural && !parts_of_label) return {Side::both, SideSource::plural};
  if (place.region == Region::extremities) return {Side::both, SideSource::plural};
  if (const auto side = earlier_side(p, clues.item)) return {*side, SideSource::carried};
  if (topic.scope != nullptr && topic.scope->side) return {*topic.scope->side, SideSource::named};
  if (is_one_side(topic.side)) return {topic.side, SideSource::carried};
  if (clues.several && are_of_both(p, place.region)) return {Side::both, SideSource::plural};
  if (topic.side == Side::both && both_in_force(p, place.region)) return {Side::both, SideSource::carried};
  if (bilateral_before(p, clues.item)) return {Side::both, SideSource::carried};
  return {Side::unstated, SideSource::none};
}

}  // namespace jointledger
