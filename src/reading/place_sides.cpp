// The side that is stated beside a place.
#include "reading/place_steps.h"

namespace jointledger {
namespace {

constexpr Index kReach = 3;  // small words between a place and its side

/// A side behind a place.
struct SideBehind {
  Side side = Side::unstated;
  Index last = 0;  ///< one past its item
};

// "neither knee"
bool is_neither(const PlaceScan& scan, Index i) {
  if (i == 0) return false;
  const std::string_view before = scan.document.text(scan.items[i - 1].first);
  return before == "neither" || before == "Neither";
}

// "both the cervical and the lumbar spine": counts the places, and names no side.
bool counts_places(const PlaceScan& scan, const PlaceGroup::Member& member) {
  if (scan.side != Side::both || !scan.start || is_paired(member.place.region) || member.plural) return false;
  return scan.document.text(scan.items[*scan.start].first) == "both";
}

// The first item behind the place at `i` that is no bracket, preposition or filler; one comma right behind may stand
// between, too.
Index skip_small(const PlaceScan& scan, Index i) {
  const auto& items = scan.items;
  Index j = i + 1;
  bool preposition = false;
  while (j < items.size() && j <= i + 1 + kReach) {
    const bool comma = items[j].kind == ItemKind::comma;
    if (!comma && !is_bracket(items[j]) && !is_filler(items[j]) && !items[j].has(kAt)) break;
    if (items[j].has(kAt)) preposition = true;
    if (comma && (preposition || j != i + 1)) break;
    ++j;
  }
  return j;
}

// "knees bilaterally", "knee (right)", "hip on the left".
std::optional<SideBehind> side_behind(const PlaceScan& scan, Index i) {
  const auto& items = scan.items;
  const Index j = skip_small(scan, i);
  if (j >= items.size() || j > i + 1 + kReach || !items[j].is(ConceptKind::side)) return std::nullopt;
  const auto side = side_of(*items[j].meaning->side);
  if (!side || *side == Side::midline) return std::nullopt;
  const Index next = next_solid(items, j + 1);
  if (next < items.size()) {
    // The side belongs to the next place if one follows at once: "knee, left ankle" ...
    if (is_place(scan, next) && !items[next].is(ConceptKind::elsewhere_place)) return std::nullopt;
    // ... or to a value: "hip right 4/5 left 5/5".
    const bool value = items[next].kind == ItemKind::figure && is_value(items[next]);
    if (value && *side != Side::both) return std::nullopt;
  }
  return SideBehind{*side, j + 1};
}

}  // namespace

Index take_side(PlaceScan& scan, PlaceGroup::Member& member) {
  const bool elsewhere = scan.items[member.item].is(ConceptKind::elsewhere_place);
  if (is_paired(member.place.region) && is_neither(scan, member.item)) {
    member.place.side = Side::both;
    member.sided = true;
  }
  if (!elsewhere && counts_places(scan, member)) scan.side.reset();
  if (!elsewhere && scan.side) {
    member.place.side = *scan.side;
    member.sided = true;
  }
  if (member.sided) return member.item + 1;
  const auto behind = side_behind(scan, member.item);
  if (!behind) return member.item + 1;
  member.place.side = behind->side;
  member.sided = true;
  return behind->last;
}

}  // namespace jointledger
