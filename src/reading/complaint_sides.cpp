#include "reading/complaint_sides.h"

#include <algorithm>
#include <array>

#include "reading/regions.h"

namespace jointledger {
namespace {

constexpr std::uint32_t kFar = 6;  // tokens between a place and a side told of it

// The side that an item names of a limb or of half a body.
std::optional<Side> stated(const Item& item) {
  if (!item.is(ConceptKind::side)) return std::nullopt;
  const auto side = side_of(*item.meaning->side);
  if (side == Side::midline) return std::nullopt;
  return side;
}

// Whether a place or a list's next member stands in items (from, to). Before a place a comma parts, too; behind it
// "knee pain, left" goes on.
bool parted(const std::vector<Item>& items, Index from, Index to, bool comma_parts) {
  for (Index i = from + 1; i < to; ++i) {
    const bool goes_on = !comma_parts && items[i].kind == ItemKind::comma;
    if (items[i].places() || (joins(items[i]) && !goes_on) || items[i].kind == ItemKind::semicolon) return true;
  }
  return false;
}

// The nearest side before the item, or behind it, with nothing between that has a side of its own.
std::optional<Side> nearest_side(const std::vector<Item>& items, Index at, std::uint32_t reach) {
  for (Index i = at; i-- > 0;) {
    if (items[at].first - items[i].last > reach || parted(items, i, at, true)) break;
    if (const auto side = stated(items[i])) return side;
  }
  for (Index i = at + 1; i < items.size(); ++i) {
    if (items[i].first - items[at].last > reach || parted(items, at, i, false)) break;
    // "Knee, left ankle": the side belongs to what follows.
    if (i + 1 < items.size() && items[i + 1].places()) break;
    if (const auto side = stated(items[i])) return side;
  }
  return std::nullopt;
}

// The side of the place named last before the token, among those that `accepts` takes.
std::optional<Side> side_before(const SentenceParts& parts, std::uint32_t token, auto accepts) {
  std::optional<Side> side;
  for (const PlaceGroup& group : parts.groups) {
    for (const auto& member : group.members) {
      const bool counts = member.sided && is_paired(member.place.region) && accepts(member.place);
      if (parts.items[member.item].first < token && counts) side = member.place.side;
    }
  }
  return side;
}

// Whether the side of a place is also that of a region of its limb. "Both legs" says little of one toe.
bool gives_side(const PlaceRef& place, Region region) {
  if (place.region == region) return true;
  return same_limb(place.region, region) && (!is_group(place.region) || is_one_side(place.side));
}

}  // namespace

Side side_of_named(const ToldSentence& s, const FoundCue& found) {
  const Region region = *found.cue->region;
  const std::uint32_t before = is_paired(region) ? 3 : 2;
  for (Index i = 0; i < s.parts.items.size(); ++i) {
    const Item& item = s.parts.items[i];
    const auto side = stated(item);
    if (!side) continue;
    if (item.last <= found.first && found.first - item.last <= before) {
      const bool own = std::ranges::none_of(s.parts.items, [&](const Item& other) {
        return other.first >= item.last && other.last <= found.first && (joins(other) || other.places());
      });
      if (own) return *side;
    }
    if (item.first < found.last || item.first - found.last > 5) continue;
    // "Neck pain radiating to the left", "neck pain with left radiculopathy": the side of something else.
    const bool spreads = std::ranges::any_of(s.cues, [&](const FoundCue& f) {
      return (f.is(ComplaintCue::Use::spread) && f.first >= found.last && f.first <= item.first) ||
             (f.is_symptom() && f.first == item.last);
    });
    const bool other_place = i + 1 < s.parts.items.size() && s.parts.items[i + 1].places() &&
                             std::ranges::none_of(s.parts.groups, [&](const PlaceGroup& group) {
                               return std::ranges::any_of(group.members, [&](const auto& member) {
                                 return member.item == i + 1 && gives_side(member.place, region);
                               });
                             });
    if (!spreads && !other_place) return *side;
  }
  if (found.cue->side != Side::unstated) return found.cue->side;
  return side_before(s.parts, found.first, [&](const PlaceRef& place) { return gives_side(place, region); })
      .value_or(Side::unstated);
}

Side side_of_place(const ToldSentence& s, const PlaceGroup::Member& member) {
  const auto& items = s.parts.items;
  const Side side = member.place.side;
  if (!is_paired(member.place.region)) {
    // A side told of a limb in the same list is not that of the spine.
    if (!member.sided || items[member.item].kind == ItemKind::level) return Side::midline;
    return nearest_side(items, member.item, 3) ? side : Side::midline;
  }
  // "Hip pain on the left and knee pain on the right": a side told of the place itself goes before one that is carried.
  const auto near = nearest_side(items, member.item, kFar);
  if (side != Side::unstated) return near.value_or(side);
  if (member.plural || member.several) return Side::both;
  if (near) return *near;
  if (!s.reason) return Side::unstated;
  return side_before(s.parts, items[member.item].first, [](const PlaceRef&) { return true; }).value_or(Side::unstated);
}

std::optional<Side> side_of_half(const ToldSentence& s, const FoundCue& found) {
  const bool loose = found.is(ComplaintCue::Use::half);
  for (const Item& item : s.parts.items) {
    const auto side = stated(item);
    if (!side || *side == Side::both) continue;
    // The side may be part of the words themselves: "left-sided weakness".
    if (item.last <= found.last && found.last - item.last <= 3 &&
        (loose || (item.last == found.first && item.last - item.first > 1)))
      return side;
    if (loose && item.first >= found.first && item.first - found.first <= 4) return side;
  }
  return std::nullopt;
}

void find_missing_sides(const Document& d, std::vector<Sentence>& sentences, SentenceParts& parts,
                        std::vector<Complaint>& complaints) {
  const auto open = [](const Complaint& c) { return c.side == Side::unstated; };
  if (std::ranges::none_of(complaints, open)) return;
  // By complaint: the sides that the note states.
  std::vector<std::array<bool, 3>> sides(complaints.size());
  const auto note = [&](Region region, Side side) {
    for (std::size_t i = 0; i < complaints.size(); ++i) {
      if (complaints[i].region != region) continue;
      if (side == Side::left) sides[i][0] = true;
      if (side == Side::right) sides[i][1] = true;
      if (side == Side::both) sides[i][2] = true;
    }
  };
  for (const Stretch& stretch : d.stretches()) {
    if (stretch.section == SectionKind::past) continue;
    for (const PlaceRef& place : stretch.scope.places) {
      if (stretch.scope.label) note(place.region, place.side);
    }
    d.sentences(stretch, sentences);
    for (const Sentence& sentence : sentences) {
      itemize(d, sentence, parts.items);
      if (parts.items.empty()) continue;
      find_places(d, Context(), parts);
      for (const PlaceGroup& group : parts.groups) {
        if (group.elsewhere || group.compared) continue;
        for (const auto& member : group.members) {
          if (member.sided) note(member.place.region, member.place.side);
        }
      }
    }
  }
  for (std::size_t i = 0; i < complaints.size(); ++i) {
    const auto [left, right, both] = sides[i];
    if (open(complaints[i]) && !both && left != right) complaints[i].side = left ? Side::left : Side::right;
  }
}

}  // namespace jointledger
