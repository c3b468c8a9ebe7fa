// The places that a group, a heading or the sentences before give to a unit.
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// "quads", "hip flexors": the plural means both sides. "biceps" and "triceps" only look like one.
bool is_plural_muscle(std::string_view word) {
  if (!word.ends_with('s')) return false;
  for (const std::string_view singular : {"ss", "ceps", "us", "is", "ps"}) {
    if (word.ends_with(singular)) return false;
  }
  return true;
}

Target target_of(const PlacingState& p, const PlaceGroup& group, const PlaceGroup::Member& member, PlaceSource source) {
  const SettledSide settled = settle_side(p, member.place, {member.sided, member.plural, member.several, member.item});
  Target target;
  target.place = settle_back(p, member.place);
  target.place.region = level_for(p, target.place.region, member.generic_part);
  target.place.side = settled.side;
  target.side_source = settled.source;
  target.source = source;
  target.structure = member.structure;
  const bool with_its_side = member.sided && group.first < member.item && group.members.size() == 1;
  const Index first = with_its_side ? group.first : member.item;
  const Index last = with_its_side ? std::max(member.item + 1, group.last) : member.item + 1;
  target.words = p.document.span(p.items[first].first, p.items[last - 1].last);
  return target;
}

}  // namespace

void add_group(const PlacingState& p, Index group_index, PlaceSource source, Targets& targets) {
  const PlaceGroup& group = p.parts.groups[group_index];
  for (const auto& member : group.members) {
    if (!member.place.joints) {
      targets.push_back(target_of(p, group, member, source));
      continue;
    }
    if (group.members.size() > 1) continue;
    if (label_in_force(p) || system_in_force(p)) {
      // "all joints", "throughout" under a label are those of the label.
      add_scope(p, PlaceSource::label, targets);
    } else {
      targets.push_back(target_of(p, group, member, source));
    }
  }
}

void add_scope(const PlacingState& p, PlaceSource source, Targets& targets) {
  for (const PlaceRef& place : p.topic.scope->places) {
    Target target;
    target.place = settle_back(p, place);
    target.source = source;
    target.side_source = SideSource::named;
    if (place.side == Side::unstated) {
      const SettledSide settled = settle_side(p, place, {});
      target.place.side = settled.side;
      target.side_source = settled.source;
    }
    target.words = p.topic.scope_words;
    targets.push_back(target);
  }
}

void add_topic(const PlacingState& p, Targets& targets) {
  for (std::size_t i = 0; i < p.topic.places.size(); ++i) {
    Target target;
    target.place = p.topic.places[i];
    target.source = PlaceSource::topic;
    target.side_source = SideSource::carried;
    if (i < p.topic.place_words.size()) target.words = p.topic.place_words[i];
    targets.push_back(target);
  }
}

void add_muscle(const PlacingState& p, const Unit& unit, Targets& targets) {
  const bool plural = is_plural_muscle(last_word(p, unit));
  for (const PlaceGroup& group : p.parts.groups) {
    for (const auto& member : group.members) {
      if (member.item != unit.first) continue;
      const SettledSide settled =
          settle_side(p, member.place, {member.sided, member.plural || plural, false, member.item});
      Target target;
      target.place = member.place;
      target.place.side = settled.side;
      target.side_source = settled.source;
      target.source = PlaceSource::own;
      target.structure = member.structure;
      targets.push_back(target);
    }
  }
}

PlaceRef settle_back(const PlacingState& p, PlaceRef place) {
  if (place.back && p.topic.low_back_complaint) place.region = Region::lumbar_spine;
  return place;
}

Region level_for(const PlacingState& p, Region region, bool generic) {
  if (!generic) return region;
  for (const PlaceGroup& group : p.parts.groups) {
    for (const auto& member : group.members) {
      if (has_level(member.place.region)) return member.place.region;
    }
  }
  if (p.topic.scope != nullptr) {
    for (const PlaceRef& ref : p.topic.scope->places) {
      if (has_level(ref.region)) return ref.region;
    }
  }
  for (const PlaceRef& ref : p.topic.places) {
    if (has_level(ref.region)) return ref.region;
  }
  return region;
}

}  // namespace jointledger
