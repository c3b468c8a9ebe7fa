// Groups of places that turn out to be something else once the whole sentence is seen.
#include <algorithm>

#include "reading/place_steps.h"

namespace jointledger {
namespace {

using Groups = std::vector<PlaceGroup>;

bool is_word(const PlaceScan& scan, Index item, std::string_view word) {
  return scan.document.text(scan.items[item].first) == word;
}

bool is_up_to(const PlaceScan& scan, Index item) { return is_word(scan, item, "to") || is_word(scan, item, "through"); }

// A place behind "compared with", "than on the" is named to compare with, unless the sentence names nothing else.
void mark_compared(const PlaceScan& scan) {
  Groups& groups = scan.parts.groups;
  for (PlaceGroup& group : groups) {
    for (Index j = group.first; j > 0 && j + 4 > group.first; --j) {
      const Item& before = scan.items[j - 1];
      if (before.is_any(Cue::compared, Cue::equalled)) group.compared = true;
      if (!is_filler(before) && !before.has(kAt) && before.kind != ItemKind::word && !is_value(before)) break;
    }
  }
  // "the appearance is similar to the left hand" is still said of the other one, named before.
  const auto is_equalled = [&](const PlaceGroup& group) {
    return std::any_of(scan.items.begin(), scan.items.begin() + group.first,
                       [](const Item& item) { return item.is(Cue::equalled); });
  };
  if (groups.size() == 1 && is_equalled(groups.front()) && scan.context.sided) return;
  if (!std::ranges::all_of(groups, &PlaceGroup::compared)) return;
  for (PlaceGroup& group : groups) group.compared = false;
}

// "the side of the foot just inferior to the malleolus": a landmark behind a place is only a landmark.
void drop_landmarks(const PlaceScan& scan) {
  Groups& groups = scan.parts.groups;
  for (std::size_t g = 1; g < groups.size();) {
    PlaceGroup& before = groups[g - 1];
    const PlaceGroup& group = groups[g];
    bool relation = false;
    bool other = before.members.front().place.region == group.members.front().place.region || before.elsewhere ||
                 group.elsewhere || before.clause != group.clause;
    for (Index j = before.last; j < group.first; ++j) {
      const Item& item = scan.items[j];
      if (is_relation(scan, j)) {
        relation = true;
      } else if (joins(item) || (relation && !is_filler(item) && !item.has(kAt))) {
        other = true;
      }
    }
    if (!relation || other) {
      ++g;
      continue;
    }
    before.subject = before.subject || group.subject;
    groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(g));
  }
}

// A dermatome beside a named place only says which nerve.
void drop_dermatomes(const PlaceScan& scan) {
  if (!scan.talk.sensation && !scan.talk.reflexes && !scan.talk.strength) return;
  Groups& groups = scan.parts.groups;
  const auto is_level = [&](const PlaceGroup::Member& member) {
    return scan.items[member.item].kind == ItemKind::level;
  };
  const auto all_levels = [&](const PlaceGroup& group) { return std::ranges::all_of(group.members, is_level); };
  if (std::ranges::all_of(groups, all_levels)) return;
  for (PlaceGroup& group : groups) {
    group.members.erase(std::remove_if(group.members.begin(), group.members.end(), is_level), group.members.end());
  }
  std::erase_if(groups, [](const PlaceGroup& group) { return group.members.empty(); });
}

// "midway between the knee and the ankle" is neither.
void drop_between(const PlaceScan& scan) {
  Groups& groups = scan.parts.groups;
  for (std::size_t g = 0; g < groups.size();) {
    const PlaceGroup& group = groups[g];
    bool between = false;
    for (Index j = group.first > 3 ? group.first - 3 : 0; j < group.first; ++j) {
      between = between || is_word(scan, j, "between");
    }
    const bool pair = group.members.size() == 2;
    const bool next = !pair && g + 1 < groups.size() && groups[g + 1].first <= group.last + 3;
    if (!between || !(pair || next)) {
      ++g;
      continue;
    }
    const auto at = groups.begin() + static_cast<std::ptrdiff_t>(g);
    groups.erase(at, at + (pair ? 1 : 2));
  }
}

// The limb that both regions are of; nothing if there is none.
std::optional<Region> limb_of(Region a, Region b) {
  for (const Region limb : {Region::lower_extremity, Region::upper_extremity}) {
    if (covers(limb, a) && covers(limb, b)) return limb;
  }
  return std::nullopt;
}

// "from the toes to the knees", read as one group, is a stretch of the limb.
void join_stretch_in_group(const PlaceScan& scan) {
  for (PlaceGroup& group : scan.parts.groups) {
    if (group.members.size() < 2 || group.first == 0 || !is_word(scan, group.first - 1, "from")) continue;
    const PlaceGroup::Member& high = group.members[1];
    PlaceGroup::Member whole = group.members[0];
    bool to = false;
    for (Index j = whole.item + 1; j < high.item; ++j) to = to || is_up_to(scan, j);
    const auto limb = limb_of(whole.place.region, high.place.region);
    if (!to || !limb) continue;
    whole.place.region = *limb;
    whole.structure = {};
    whole.plural = whole.plural || whole.several || high.plural;
    group.members.assign(1, whole);
  }
}

// The same, read as two groups. What the stretch goes up to may be no joint.
void join_stretch_of_groups(const PlaceScan& scan) {
  Groups& groups = scan.parts.groups;
  for (std::size_t g = 0; g + 1 < groups.size(); ++g) {
    PlaceGroup& lower = groups[g];
    const PlaceGroup& upper = groups[g + 1];
    if (lower.first == 0 || lower.elsewhere || upper.first != lower.last + 1) continue;
    if (lower.members.size() != 1 || upper.members.size() != 1) continue;
    if (!is_word(scan, lower.first - 1, "from") || !is_up_to(scan, lower.last)) continue;
    PlaceGroup::Member& low = lower.members.front();
    const PlaceGroup::Member& high = upper.members.front();
    const auto limb = limb_of(low.place.region, upper.elsewhere ? low.place.region : high.place.region);
    if (!limb) continue;
    low.place.region = *limb;
    low.structure = {};
    low.plural = low.plural || high.plural || high.several;
    lower.last = upper.last;
    groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(g) + 1);
  }
}

}  // namespace

bool is_relation(const PlaceScan& scan, Index i) {
  for (std::uint32_t t = scan.items[i].first; t < scan.items[i].last; ++t) {
    const std::string_view word = scan.document.text(t);
    for (const std::string_view relation :
         {"above", "below", "beneath", "inferior", "superior", "distal", "proximal", "posterior", "anterior"}) {
      if (word == relation) return true;
    }
  }
  return false;
}

void clean_groups(const PlaceScan& scan) {
  mark_compared(scan);
  drop_dermatomes(scan);
  drop_between(scan);
  drop_landmarks(scan);
  join_stretch_in_group(scan);
  join_stretch_of_groups(scan);
}

}  // namespace jointledger
