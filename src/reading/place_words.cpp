// Which words are places, and of which region.
#include <algorithm>

#include "reading/place_steps.h"
#include "reading/references.h"

namespace jointledger {
namespace {

// A root or dermatome is told of its limb where power, reflexes or sense are; otherwise a level is a place of the
// spine.
PlaceRef level_place(const PlaceScan& scan, const Item& item) {
  const PlaceRef spine{item.level, Side::midline, false};
  if (!scan.talk.sensation && !scan.talk.reflexes && !scan.talk.strength) return spine;
  const char letter = scan.document.text(item.first)[0];
  const bool thoracic = letter == 'T' || letter == 't';
  const bool arm = letter == 'C' || letter == 'c' || (thoracic && scan.document.text(item.first + 1) == "1");
  if (thoracic && !arm) return spine;  // the trunk
  return {arm ? Region::upper_extremity : Region::lower_extremity, Side::unstated, false};
}

// "Lower right extremity": the words of the limb stand apart.
std::optional<Region> limb_apart(const PlaceScan& scan, Index i) {
  std::optional<Region> region;
  for (Index k = i; k > 0 && k + 3 > i; --k) {
    const std::string_view before = scan.document.text(scan.items[k - 1].first);
    if (before == "lower" || before == "Lower" || before == "LOWER") region = Region::lower_extremity;
    if (before == "upper" || before == "Upper" || before == "UPPER") region = Region::upper_extremity;
  }
  return region;
}

Region region_of(const PlaceScan& scan, Index i) {
  const Concept& c = *scan.items[i].meaning;
  if (scan.talk.perfusion && c.artery_region) return *c.artery_region;
  if (scan.context.leg && c.leg_region) return *c.leg_region;
  Region region = *c.region;
  if (scan.talk.reflexes && c.reflex_region) region = *c.reflex_region;
  const bool nerve = c.kind == ConceptKind::artery && !scan.talk.perfusion;  // "median, radial and ulnar sensation"
  if (nerve) region = Region::upper_extremity;
  if (region == Region::extremities && !c.many) return limb_apart(scan, i).value_or(region);
  return region;
}

// "upper extremity dermatomes", "lower extremity muscle groups": a limb that stands before a plural is both limbs.
bool is_limb_of_many(const PlaceScan& scan, const Item& item) {
  const Concept& c = *item.meaning;
  if (c.kind != ConceptKind::region || !c.region || !is_group(*c.region) || c.many) return false;
  const std::uint32_t end = scan.items.back().last;
  for (std::uint32_t t = item.last; t < end && t < item.last + 2; ++t) {
    const std::string_view word = scan.document.text(t);
    for (const std::string_view plural :
         {"dermatomes", "muscles", "groups", "joints", "reflexes", "pulses", "myotomes"}) {
      if (word == plural) return true;
    }
  }
  return false;
}

// "Upper extremity range of motion": the limb as a kind, unless a side is in reach.
bool is_kind_of_limb(const PlaceScan& scan, Index i, Region region) {
  const bool component_follows = i + 1 < scan.items.size() && scan.items[i + 1].is(ConceptKind::component);
  return component_follows && is_group(region) && scan.items[i].is(ConceptKind::region) && !scan.context.sided;
}

}  // namespace

bool is_place(const PlaceScan& scan, Index i) {
  const Item& item = scan.items[i];
  if (item.kind == ItemKind::level) return true;
  if (item.kind != ItemKind::meaning) return false;
  switch (item.meaning->kind) {
    case ConceptKind::region:
      return !item.meaning->exam || scan.only_exam;
    case ConceptKind::part:
    case ConceptKind::muscle:
    case ConceptKind::elsewhere_place:
      return true;
    case ConceptKind::artery:
      return scan.talk.perfusion || (scan.talk.sensation && item.meaning->region == Region::wrist);
    case ConceptKind::nerve:
      return scan.talk.sensation || scan.talk.strength;
    case ConceptKind::grammar:
      return referred_place(scan, i).has_value();
    default:
      return false;
  }
}

PlaceGroup::Member name_place(const PlaceScan& scan, Index i) {
  const Item& item = scan.items[i];
  PlaceGroup::Member member;
  member.item = i;
  if (item.kind == ItemKind::level) {
    member.place = level_place(scan, item);
    return member;
  }
  if (item.is(ConceptKind::elsewhere_place)) {
    member.place = {Region::whole_body, Side::midline, false};
    return member;
  }
  if (const auto referred = referred_place(scan, i)) {
    member.place = *referred;
    member.sided = referred->side != Side::unstated;
    return member;
  }
  const Concept& c = *item.meaning;
  const Region region = region_of(scan, i);
  member.place = {region, Side::unstated, c.joints, c.back};
  member.plural = c.many || is_kind_of_limb(scan, i, region) || is_limb_of_many(scan, item);
  member.several = c.several;
  member.generic_part = c.kind == ConceptKind::part && region == Region::spine;
  member.structure = c.id;
  if (c.side && c.kind == ConceptKind::region) {
    member.place.side = *side_of(*c.side);
    member.sided = true;
  }
  return member;
}

}  // namespace jointledger
