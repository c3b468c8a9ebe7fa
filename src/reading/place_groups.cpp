// Places side by side are one group, of which the same is said; a new subject opens a clause.
#include <algorithm>

#include "reading/place_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

/// What stands behind a place.
struct Sequel {
  Index solid = 0;  ///< the next item that is no small word; one past the last item if there is none
  bool verb = false;
  bool said = false;  ///< it says something of the place
};

Sequel sequel_of(const PlaceScan& scan, Index behind) {
  Sequel sequel;
  sequel.solid = next_solid(scan.items, behind);
  if (sequel.solid >= scan.items.size()) return sequel;
  const Item& item = scan.items[sequel.solid];
  sequel.verb = item.has(kVerb);
  sequel.said = says_something(item) || sequel.verb || item.kind == ItemKind::colon;
  return sequel;
}

enum class Bond {
  none,
  beside,  ///< nothing but small words between a place and the group before it
  listed,  ///< ... and a comma, "and" or the like
};

// What binds a place to the last group.
Bond bond_to_last(const PlaceScan& scan, const FoundPlace& place) {
  if (scan.parts.groups.empty()) return Bond::none;
  const PlaceGroup& last = scan.parts.groups.back();
  if (last.elsewhere != place.elsewhere || last.clause != scan.clause) return Bond::none;
  Bond bond = Bond::beside;
  for (Index j = last.last; j < place.member.item; ++j) {
    const Item& item = scan.items[j];
    if (is_relation(scan, j) && last.members.back().place.region != place.member.place.region) return Bond::none;
    if (joins(item)) {
      bond = Bond::listed;
    } else if (!is_filler(item) && !is_bracket(item) && !item.is(ConceptKind::side) && !item.has(kAt) &&
               !item.is(Cue::extent)) {
      return Bond::none;
    }
  }
  return bond;
}

// Lengthens the group to take in a place that it goes on with.
void lengthen(PlaceGroup& group, const FoundPlace& place, const Sequel& sequel) {
  group.last = place.last;
  group.subject = sequel.said;
}

// "the greater tuberosity of the humerus", "the dorsum of the foot": one place, if it is one.
bool merge_of(PlaceScan& scan, const FoundPlace& place, const Sequel& sequel) {
  PlaceGroup& group = scan.parts.groups.back();
  PlaceGroup::Member& part = group.members.back();
  const bool whole = place.member.structure.empty() && !place.elsewhere;
  if (!whole || part.structure.empty() || part.place.joints) return false;
  if (scan.document.text(scan.items[group.last].first) != "of") return false;
  if (place.member.sided && !part.sided) {
    part.place.side = place.member.place.side;
    part.sided = true;
  }
  lengthen(group, place, sequel);
  return true;
}

// "cervical paraspinals", "plantar heel", "knee joint line": one place in two words, if it is one.
bool merge_two_words(PlaceScan& scan, const FoundPlace& place, const Sequel& sequel) {
  PlaceGroup& group = scan.parts.groups.back();
  PlaceGroup::Member& first = group.members.back();
  const PlaceGroup::Member& second = place.member;
  if (group.last != second.item || second.sided || place.elsewhere) return false;
  const bool of_level = second.generic_part && has_level(first.place.region);
  if (first.place.region != second.place.region && !of_level) return false;
  if (!second.structure.empty()) first.structure = second.structure;
  first.plural = first.plural || second.plural;
  first.several = first.several || second.several;
  lengthen(group, place, sequel);
  return true;
}

// Whether a place in a list is the subject of something new: "swelling below the malleolus and the foot is tender",
// "tender over the AC joint, biceps groove nontender".
bool begins_anew(const PlaceScan& scan, const Sequel& sequel) {
  if (!scan.said) return false;
  const auto& items = scan.items;
  if (sequel.verb) {
    if (!scan.parts.groups.back().at_before) return false;
    const Index next = next_solid(items, sequel.solid + 1);
    return next < items.size() && says_something(items[next]) && !items[next].is_any(Cue::present, Cue::tested);
  }
  if (!sequel.said) return false;
  const Item& item = items[sequel.solid];
  return item.kind == ItemKind::figure || (item.is(ConceptKind::finding) && item.meaning->adjective);
}

// "Sensation of the face, arms and legs is normal": the list that a preposition leads to goes on.
bool goes_on_list(const PlaceScan& scan, Index first) {
  if (scan.parts.groups.empty()) return false;
  const PlaceGroup& last = scan.parts.groups.back();
  if (!last.at_before || !last.elsewhere || last.clause != scan.clause) return false;
  for (Index j = last.last; j < first; ++j) {
    if (!joins(scan.items[j]) && !is_filler(scan.items[j])) return false;
  }
  return true;
}

// Opens a clause for a new subject after a comma or "and", of which something is said.
void open_clause_for(PlaceScan& scan, const FoundPlace& place, const Sequel& sequel) {
  const auto& items = scan.items;
  Index first = scan.start.value_or(place.member.item);
  while (first > 0 && (is_filler(items[first - 1]) || items[first - 1].is(ConceptKind::side))) --first;
  if (first == 0 || !joins(items[first - 1]) || !sequel.said || goes_on_list(scan, first)) return;
  if (!sequel.verb && !is_value(items[sequel.solid]) && !items[sequel.solid].is(Cue::not_)) return;
  ++scan.clause;
  scan.said = false;
  for (Index k = first; k <= place.member.item; ++k) scan.parts.clause[k] = scan.clause;
}

// The side of a place that comes only once in the body.
void settle_single(const PlaceScan& scan, PlaceGroup::Member& member) {
  if (member.sided) return;
  const bool pair = member.plural && scan.items[member.item].is(ConceptKind::part);  // SI joints
  member.place.side = pair ? Side::both : Side::midline;
  member.sided = pair;
}

// Lets the side of one place hold for the others of its list. Sides told before the place are in `scan.side`.
void share_side(const PlaceScan& scan, PlaceGroup& group, FoundPlace& place) {
  PlaceGroup::Member& member = place.member;
  const Side side = member.place.side;
  const bool side_behind = member.sided && !scan.side;
  const auto take = [&](PlaceGroup::Member& other) {
    other.place.side = side;
    other.sided = true;
  };
  // "hips, knees and ankles bilaterally": a side behind the list holds for the list.
  if (side_behind && side == Side::both) {
    for (PlaceGroup::Member& other : group.members) {
      if (!other.sided) take(other);
    }
  }
  // "the wrist, the hand or the elbow on the left side": so does one side led by a preposition.
  const bool led = place.last > member.item + 1 && scan.items[member.item + 1].has(kAt);
  if (side_behind && is_one_side(side) && led) {
    for (PlaceGroup::Member& other : group.members) {
      if (!other.sided && !other.plural && is_paired(other.place.region)) take(other);
    }
  }
  // "right shoulder and elbow": a side before the list holds for the list, too.
  const PlaceGroup::Member& previous = group.members.back();
  if (!member.sided && !member.plural && place.paired && previous.sided && is_paired(previous.place.region)) {
    member.place.side = previous.place.side;
    member.sided = true;
  }
}

void begin_group(PlaceScan& scan, const FoundPlace& place, const Sequel& sequel, bool at_before) {
  PlaceGroup& group = scan.parts.groups.emplace_back();
  group.first = scan.start.value_or(place.member.item);
  group.last = place.last;
  group.clause = scan.clause;
  group.elsewhere = place.elsewhere;
  group.at_before = at_before;
  group.subject = sequel.said;
  group.members.push_back(place.member);
}

// "arms and legs" as one phrase.
void add_second_region(PlaceScan& scan, const PlaceGroup::Member& first) {
  const Item& item = scan.items[first.item];
  if (item.kind != ItemKind::meaning || !item.meaning->second_region) return;
  auto& members = scan.parts.groups.back().members;
  PlaceGroup::Member second = first;
  second.place.region = *item.meaning->second_region;
  if (members.back().place.side != Side::unstated) second.place.side = members.back().place.side;
  members.push_back(second);
}

}  // namespace

void add_place(PlaceScan& scan, FoundPlace place) {
  const Sequel sequel = sequel_of(scan, place.last);
  Bond bond = bond_to_last(scan, place);
  bool at_before = scan.at;
  if (bond == Bond::beside && merge_of(scan, place, sequel)) return;
  if (bond == Bond::listed && begins_anew(scan, sequel)) {
    bond = Bond::none;
    at_before = false;
  }
  if (bond == Bond::beside) {
    const PlaceGroup& last = scan.parts.groups.back();
    if (!last.at_before && !scan.at && last.subject) bond = Bond::none;
  }
  if (bond == Bond::none && scan.said && !at_before) open_clause_for(scan, place, sequel);
  if (!place.paired) settle_single(scan, place.member);
  if (bond != Bond::none) {
    if (merge_two_words(scan, place, sequel)) return;
    PlaceGroup& group = scan.parts.groups.back();
    share_side(scan, group, place);
    group.members.push_back(place.member);
    lengthen(group, place, sequel);
  } else {
    begin_group(scan, place, sequel, at_before);
  }
  add_second_region(scan, place.member);
}

}  // namespace jointledger
