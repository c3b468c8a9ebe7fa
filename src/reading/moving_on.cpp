// What the next sentence goes on from.
#include <algorithm>

#include "reading/placing_steps.h"
#include "reading/regions.h"

namespace jointledger {
namespace {

// "Examination of the right knee."
bool is_examined(const PlacingState& p, const PlaceGroup& group) {
  for (Index j = 0; j < group.first; ++j) {
    std::string_view text = p.document.text(p.items[j].first);
    if (text.size() < 4) continue;
    text.remove_prefix(1);
    for (const std::string_view word : {"xam", "XAM", "nspection", "alpation"}) {
      if (text.starts_with(word)) return true;
    }
  }
  return false;
}

// "edema of the ankles up to the knees": only how far something reaches.
bool is_limit(const PlacingState& p, const PlaceGroup& group) {
  for (Index j = group.first; j > 0 && j + 3 > group.first; --j) {
    const std::string_view word = p.document.text(p.items[j - 1].first);
    if (word == "up" || word == "beyond") return true;
  }
  return false;
}

// Whether a place behind a preposition is named in passing: something normal was found there, or nothing.
bool is_passing(const PlacingState& p, const PlaceGroup& group) {
  if (group.compared || is_limit(p, group)) return true;
  const bool nothing_said = p.parts.units.empty();
  bool normal = nothing_said && !is_examined(p, group);
  for (const Unit& unit : p.parts.units) {
    if (unit.clause != group.clause || unit.last > group.first) continue;
    if (unit.outcome != Outcome::normal) return false;
    normal = true;
  }
  const bool under_system = p.topic.scope != nullptr && p.topic.scope->is_system;
  return normal && (under_system || nothing_said);
}

// The group that the sentence is about; null if it is about another organ or about none.
const PlaceGroup* choose_subject(PlacingState& p) {
  const PlaceGroup* chosen = nullptr;
  for (const PlaceGroup& group : p.parts.groups) {
    const Item& named = p.items[group.members.front().item];
    if (group.elsewhere) {
      if (group.at_before) continue;
      chosen = nullptr;
      p.topic.elsewhere = named.meaning == nullptr || named.meaning->id != "neck";
      continue;
    }
    if (named.is(ConceptKind::artery) || (group.at_before && is_passing(p, group))) continue;
    chosen = &group;
    p.topic.elsewhere = false;
  }
  return chosen;
}

// Leaves the last side stated beside a place. Under a label with a side, another one mentioned in passing does not take
// over.
void move_side(PlacingState& p) {
  const Scope* scope = p.topic.scope;
  const bool labelled = scope != nullptr && scope->label &&
                        std::ranges::any_of(scope->places, [](const PlaceRef& ref) { return is_one_side(ref.side); });
  if (labelled) return;
  for (const PlaceGroup& group : p.parts.groups) {
    for (const auto& member : group.members) {
      if (!is_paired(member.place.region)) continue;
      if (member.sided) {
        p.topic.side = member.place.side;
      } else if (member.plural) {
        p.topic.side = Side::both;
      }
    }
  }
}

void move_places(PlacingState& p, const PlaceGroup& subject) {
  p.topic.places.clear();
  p.topic.place_words.clear();
  for (const auto& member : subject.members) {
    PlaceRef ref = settle_back(p, member.place);
    if (ref.joints) continue;
    const SideClues clues{member.sided, member.plural, member.several, member.item};
    ref.side = is_paired(ref.region) ? settle_side(p, ref, clues).side : Side::midline;
    ref.region = level_for(p, ref.region, member.generic_part);
    p.topic.places.push_back(ref);
    p.topic.place_words.push_back(p.document.span(p.items[member.item].first, p.items[member.item].last));
  }
}

}  // namespace

void move_on(PlacingState& p) {
  const PlaceGroup* subject = choose_subject(p);
  move_side(p);
  if (subject != nullptr) move_places(p, *subject);
}

}  // namespace jointledger
