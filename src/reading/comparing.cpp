// What a sentence says of other sides and places than those it names outright: by comparing, by "same", by "except".
#include <algorithm>
#include <boost/container/small_vector.hpp>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

using Regions = boost::container::small_vector<Region, 8>;

// The side named behind the comparing word at `i`: unstated for "the other side", nothing if there is none.
std::optional<Side> compared_with(const PlacingState& p, Index i) {
  for (Index j = i + 1; j < p.items.size() && j < i + 7; ++j) {
    if (!p.items[j].is(ConceptKind::side)) continue;
    const SideWord word = *p.items[j].meaning->side;
    return word == SideWord::other ? Side::unstated : side_of(word);
  }
  return std::nullopt;
}

// "worse", "greater", "weaker": the finding is on both sides, or the other side was looked at.
bool has_comparative(const PlacingState& p) {
  return std::ranges::any_of(p.items, [&](const Item& item) {
    return item.is(Cue::comparing) || (item.is(ConceptKind::finding) && p.document.text(item.first).ends_with("er"));
  });
}

// The last side that the sentence names; nothing if there is none.
std::optional<Side> last_side(const PlacingState& p) {
  std::optional<Side> side;
  for (const Item& item : p.items) {
    if (!item.is(ConceptKind::side)) continue;
    if (const auto named = side_of(*item.meaning->side)) {
      side = named;
    } else if (*item.meaning->side == SideWord::other) {
      side = opposite(p.topic.side);
    }
  }
  return side;
}

// "The left knee is the mirror of the right", with no finding of its own: the side of the place that is called the
// same; nothing if none stands before the word at `i` with the other side behind it.
std::optional<Side> subject_side(const PlacingState& p, Index i) {
  if (!p.parts.units.empty() || p.parts.groups.empty() || p.parts.groups.front().last > i) return std::nullopt;
  const Side side = p.parts.groups.front().members.front().place.side;
  if (!is_one_side(side)) return std::nullopt;
  const auto named = last_side(p);
  return named && *named == opposite(side) ? std::optional(side) : std::nullopt;
}

// The regions that "same" speaks of: named, in force, or those of the statement before the sentence.
Regions mirrored_regions(const PlacingState& p, std::size_t from) {
  Regions regions;
  if (!p.parts.groups.empty() && !p.parts.groups.front().elsewhere) {
    for (const PlaceGroup& group : p.parts.groups) {
      for (const auto& member : group.members) regions.push_back(member.place.region);
    }
  } else if (label_in_force(p)) {
    for (const PlaceRef& ref : p.topic.scope->places) regions.push_back(ref.region);
  } else if (!p.topic.places.empty()) {
    for (const PlaceRef& ref : p.topic.places) regions.push_back(ref.region);
  } else if (from > 0) {
    regions.push_back((*p.topic.said)[from - 1].region);
  }
  return regions;
}

// Appends the statements from `from` on for the side that the word at `i` compares with. `alike`: the words say that it
// is like this one.
void state_other_side(PlacingState& p, std::size_t from, Index i, Side other, bool alike) {
  std::vector<Statement>& said = *p.topic.said;
  const bool more = has_comparative(p);
  for (std::size_t s = from, count = said.size(); s < count; ++s) {
    const Statement& original = said[s];
    if (!is_paired(original.region) || original.component == Component::gait) continue;
    const Side side = other == Side::unstated ? opposite(original.side) : other;
    if (!is_one_side(side) || original.side == Side::both || original.side == side) continue;
    Statement copy = original;
    copy.side = side;
    // The words imply that the other side is sound, or only that it was looked at.
    if (more) {
      copy.outcome = Outcome::stated;
    } else if (!alike && copy.outcome == Outcome::abnormal) {
      copy.outcome = Outcome::normal;
    }
    copy.judged = false;
    copy.evidence.push_back(p.document.span(p.items[i].first, p.items[i].last));
    said.push_back(std::move(copy));
  }
}

void state_mirrored(PlacingState& p, const Regions& regions, Index i, Side side) {
  std::vector<Statement>& said = *p.topic.said;
  for (std::size_t s = 0, count = said.size(); s < count; ++s) {
    Statement& original = said[s];
    if (original.mirrored || std::ranges::find(regions, original.region) == regions.end() ||
        !is_paired(original.region))
      continue;
    if (original.side == side || original.side == Side::both) continue;
    original.mirrored = true;
    Statement copy = original;
    copy.side = side;
    copy.judged = false;
    copy.sentence = p.sentence;
    copy.evidence.push_back(p.document.span(p.items[i].first, p.items[i].last));
    said.push_back(std::move(copy));
  }
}

void state_excepted(PlacingState& p, const Statement& last, Index group) {
  Targets targets;
  add_group(p, group, PlaceSource::named, targets);
  for (const Target& target : targets) {
    Statement& copy = p.topic.said->emplace_back(last);
    copy.region = target.place.region;
    copy.side = target.place.side;
    copy.outcome = last.outcome == Outcome::normal ? Outcome::abnormal : Outcome::normal;
    copy.evidence.push_back(target.words);
    copy.place_source = PlaceSource::named;
    copy.side_source = target.side_source;
  }
}

}  // namespace

void compare_sides(PlacingState& p, std::size_t from) {
  for (Index i = 0; i < p.items.size(); ++i) {
    const bool alike = p.items[i].is(Cue::equalled);
    if (!alike && !p.items[i].is(Cue::compared)) continue;
    const auto other = compared_with(p, i);
    if (!other) continue;
    state_other_side(p, from, i, *other, alike);
    return;
  }
}

void mirror_sides(PlacingState& p, std::size_t from) {
  for (Index i = 0; i < p.items.size(); ++i) {
    if (!p.items[i].is(Cue::same)) continue;
    const auto subject = subject_side(p, i);
    const auto side = subject ? subject : last_side(p);
    if (side) state_mirrored(p, mirrored_regions(p, from), i, *side);
    return;
  }
}

void deny_places(PlacingState& p, std::size_t from) {
  if (p.topic.said->size() == from) return;
  const Statement last = p.topic.said->back();  // a copy: more are appended
  for (Index g = 1; g < p.parts.groups.size(); ++g) {
    const PlaceGroup& group = p.parts.groups[g];
    if (group.elsewhere || group.last >= p.items.size() || !p.items[group.last].is(Cue::not_)) continue;
    const Index behind = group.last + 1;
    const bool ends = behind >= p.items.size() || joins(p.items[behind]) || p.items[behind].kind == ItemKind::semicolon;
    if (ends) state_excepted(p, last, g);
  }
}

void except_places(PlacingState& p, std::size_t from) {
  for (Index i = 0; i < p.items.size(); ++i) {
    if (!p.items[i].is(Cue::except)) continue;
    const bool unit_behind = std::ranges::any_of(p.parts.units, [&](const Unit& unit) { return unit.first > i; });
    if (unit_behind || p.topic.said->size() == from) return;
    const Statement last = p.topic.said->back();
    for (Index g = 0; g < p.parts.groups.size(); ++g) {
      if (p.parts.groups[g].first > i && !p.parts.groups[g].elsewhere) state_excepted(p, last, g);
    }
    return;
  }
}

}  // namespace jointledger
