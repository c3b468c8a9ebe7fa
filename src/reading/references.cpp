#include "reading/references.h"

namespace jointledger {
namespace {

bool is_left_word(std::string_view word) { return word.starts_with("l") || word.starts_with("L"); }

// "The right and left knee": two places, the side named first before the other.
bool take_both_sides(const Document& document, const std::vector<Item>& items, const PlaceGroup::Member& member,
                     NamedPlaces& named) {
  if (member.place.side != Side::both) return false;
  for (Index i = member.item; i > 0 && i + 3 > member.item; --i) {
    const Item& before = items[i - 1];
    if (!before.is(ConceptKind::side)) continue;
    const bool two_words = before.last >= before.first + 3;  // "right and left"
    if (!two_words) return false;
    const bool left_first = is_left_word(document.text(before.first));
    PlaceRef place = member.place;
    place.side = left_first ? Side::left : Side::right;
    named.push_back(place);
    place.side = left_first ? Side::right : Side::left;
    named.push_back(place);
    return true;
  }
  return false;
}

// The places of the groups that begin before item `end`.
NamedPlaces named_before(const Document& document, const SentenceParts& parts, Index end) {
  NamedPlaces named;
  for (const PlaceGroup& group : parts.groups) {
    if (group.elsewhere || group.first >= end) continue;
    for (const PlaceGroup::Member& member : group.members) {
      if (parts.items[member.item].refers() || take_both_sides(document, parts.items, member, named)) continue;
      PlaceRef place = member.place;
      if (member.plural && place.side == Side::unstated) place.side = Side::both;
      named.push_back(place);
    }
  }
  return named;
}

}  // namespace

std::optional<PlaceRef> referred_place(const PlaceScan& scan, Index i) {
  const Item& item = scan.items[i];
  if (!item.refers()) return std::nullopt;
  const NamedPlaces here = named_before(scan.document, scan.parts, i);
  if (here.size() >= 2) return item.has(kFormer) ? here.front() : here.back();
  if (scan.context.named.size() < 2) return std::nullopt;
  return item.has(kFormer) ? scan.context.named.front() : scan.context.named.back();
}

void keep_named(const Document& document, const SentenceParts& parts, NamedPlaces& named) {
  NamedPlaces here = named_before(document, parts, static_cast<Index>(parts.items.size()));
  if (here.size() >= 2) named = std::move(here);
}

}  // namespace jointledger
