#include <algorithm>

#include "reading/clause.h"

namespace jointledger {
namespace {

// What the sentence talks about decides whether some words are places at all.
struct Talk {
  bool pulses = false;
  bool reflexes = false;
  bool strength = false;
  bool sensation = false;
};

Talk talk_of(const Context& context, const std::vector<Item>& items) {
  Talk talk;
  const auto note = [&](Component component) {
    if (component == Component::perfusion) talk.pulses = true;
    if (component == Component::reflexes) talk.reflexes = true;
    if (component == Component::strength) talk.strength = true;
    if (component == Component::sensation) talk.sensation = true;
  };
  if (context.component) note(*context.component);
  bool grade = false;
  bool weak = false;
  bool plus = false;
  for (const Item& item : items) {
    if (item.is(ConceptKind::component) || item.is(ConceptKind::finding)) note(item.meaning->component);
    if (item.is(ConceptKind::motion_muscle)) talk.strength = true;
    if (item.is(Cue::weak)) weak = true;
    if (item.kind == ItemKind::figure && item.figure.kind == FigureKind::grade) grade = true;
    if (item.kind == ItemKind::figure && item.figure.kind == FigureKind::plus_grade) plus = true;
  }
  if (grade && !talk.reflexes) talk.strength = true;
  if (weak && !talk.pulses) talk.strength = true;
  // "Posterior tibials are palpable": so are arteries that are felt.
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!items[i].is(ConceptKind::artery)) continue;
    for (std::size_t j = i + 1; j < items.size() && j < i + 4; ++j) {
      if (items[j].is(Cue::present) || items[j].is(Cue::strong) || items[j].is(Cue::absent)) talk.pulses = true;
    }
  }
  // "DP 2+, PT 2+" under a vascular heading: arteries with a grade are pulses.
  if (plus && !talk.reflexes && !talk.strength) {
    for (const Item& item : items) {
      if (item.is(ConceptKind::artery)) talk.pulses = true;
    }
  }
  return talk;
}

bool has_level(Region region) {
  return region == Region::cervical_spine || region == Region::thoracic_spine || region == Region::lumbar_spine;
}

bool joins(const Item& item) {
  return item.kind == ItemKind::comma || item.kind == ItemKind::slash || item.kind == ItemKind::dash ||
         item.has(kAnd) || item.has(kOr);
}

// "upper extremity dermatomes", "lower extremity muscle groups": a limb that stands before a plural is both limbs.
bool limb_of_many(const Document& document, const Item& item, std::uint32_t end) {
  if (!item.is(ConceptKind::region) || !item.meaning->region || !is_group(*item.meaning->region) || item.meaning->many)
    return false;
  for (std::uint32_t t = item.last; t < end && t < item.last + 2; ++t) {
    const std::string_view word = document.text(t);
    for (const std::string_view plural :
         {"dermatomes", "muscles", "groups", "joints", "reflexes", "pulses", "myotomes"}) {
      if (word == plural) return true;
    }
  }
  return false;
}

bool is_filler(const Item& item) { return item.has(kFiller) || item.has(kAffirms); }

// The item after `i` that is neither filler, side nor bracket.
std::size_t next_solid(const std::vector<Item>& items, std::size_t i) {
  while (i < items.size() &&
         (is_filler(items[i]) || items[i].is(ConceptKind::side) || items[i].kind == ItemKind::open ||
          items[i].kind == ItemKind::close || items[i].is(Cue::extent))) {
    ++i;
  }
  return i;
}

bool says_something(const Item& item) {
  return is_value(item) || item.is(ConceptKind::finding) || item.is(ConceptKind::motion) ||
         item.is(ConceptKind::motion_muscle) || item.is(ConceptKind::component) || item.is(ConceptKind::test) ||
         item.is(Cue::no) || item.is(Cue::not_) || item.is(Cue::pain);
}

}  // namespace

bool is_value(const Item& item) {
  if (item.kind == ItemKind::figure) return item.figure.kind != FigureKind::skip;
  if (item.kind == ItemKind::plus || item.kind == ItemKind::minus) return true;
  if (!item.is(ConceptKind::cue)) return false;
  switch (item.meaning->cue) {
    case Cue::normal:
    case Cue::good:
    case Cue::present:
    case Cue::symmetric:
    case Cue::equal:
    case Cue::stable:
    case Cue::strong:
    case Cue::weak:
    case Cue::brisk:
    case Cue::bad:
    case Cue::positive:
    case Cue::negative:
    case Cue::absent:
    case Cue::equivocal:
    case Cue::tested:
      return true;
    default:
      return false;
  }
}

void find_places(const Document& document, const Context& context, SentenceParts& parts) {
  const auto& items = parts.items;
  const auto n = items.size();
  parts.groups.clear();
  parts.clause.assign(n, 0);
  const Talk talk = talk_of(context, items);
  const std::uint32_t end_token = items.empty() ? 0 : items.back().last;

  // Clauses: a semicolon or "but" always starts one; a new subject after a comma or "and" does, too.
  std::uint32_t clause = 0;
  bool said_something = false;  // in this clause
  std::optional<Side> pending_side;
  bool pending_letter = false;
  bool at = false;  // a preposition stands before, with nothing solid since
  std::size_t start_of_group = 0;
  bool have_pending = false;

  // "Musculoskeletal exam is normal" is of the whole body; beside findings the words only introduce them.
  const bool exam_alone = std::ranges::none_of(items, [](const Item& item) {
    return item.is(ConceptKind::finding) || item.is(ConceptKind::component) || item.is(ConceptKind::motion) ||
           item.is(ConceptKind::test) || (item.is(ConceptKind::region) && !item.meaning->exam) ||
           item.is(ConceptKind::part);
  });
  const auto is_place = [&](std::size_t i) {
    const Item& item = items[i];
    if (item.is(ConceptKind::region) && item.meaning->exam) return exam_alone;
    if (item.is(ConceptKind::region) || item.is(ConceptKind::part)) return true;
    if (item.is(ConceptKind::elsewhere_place)) return true;
    if (item.is(ConceptKind::artery)) return talk.pulses || (talk.sensation && item.meaning->region == Region::wrist);
    if (item.is(ConceptKind::nerve)) return talk.sensation || talk.strength;
    if (item.is(ConceptKind::muscle)) return true;
    if (item.kind == ItemKind::level) {
      return true;
    }
    return false;
  };

  for (std::size_t i = 0; i < n; ++i) {
    const Item& item = items[i];
    if (item.kind == ItemKind::semicolon || item.is(Cue::but) ||
        (item.is(Cue::rest) && i > 0 && !(next_solid(items, i + 1) < n && items[next_solid(items, i + 1)].places()))) {
      ++clause;
      said_something = false;
      pending_side.reset();
      have_pending = false;
      at = false;
    }
    parts.clause[i] = clause;
    if (item.is(ConceptKind::side)) {
      const auto side = side_of(*item.meaning->side);
      if (side && *side != Side::midline) {
        pending_side = *side;
        pending_letter = item.meaning->letter;
        if (!have_pending) start_of_group = i;
        have_pending = true;
      }
      continue;
    }
    if (!is_place(i)) {
      if (is_filler(item) || item.kind == ItemKind::open || item.kind == ItemKind::close) continue;
      if (joins(item)) {
        // "right and left knee" is one phrase of its own; "right knee and ankle" keeps the side through the join.
        if (pending_side && !pending_letter) continue;
        at = at && item.kind != ItemKind::comma;
        continue;
      }
      if (item.has(kAt)) {
        at = true;
        continue;
      }
      if (item.is(Cue::equalled) || item.is(Cue::compared)) {
        at = true;
        continue;
      }
      if (says_something(item)) {
        if (!item.is(Cue::no) && !item.is(Cue::not_)) said_something = true;
      }
      // "right-sided tenderness", "left 4/5": a side that belongs to no place nearby.
      if (item.kind != ItemKind::word || (i > 0 && items[i - 1].kind == ItemKind::word)) {
        pending_side.reset();
        have_pending = false;
      }
      if (item.kind != ItemKind::word && item.kind != ItemKind::number) at = false;
      continue;
    }

    // A place.
    PlaceGroup::Member member;
    member.item = static_cast<std::uint32_t>(i);
    bool elsewhere = false;
    if (item.kind == ItemKind::level) {
      member.place = {item.level, Side::midline, false};
      if (talk.sensation || talk.reflexes || talk.strength) {
        // A root or dermatome: its limb.
        const char letter = document.text(item.first)[0];
        const std::string_view number = document.text(item.first + 1);
        const bool arm = letter == 'C' || letter == 'c' || ((letter == 'T' || letter == 't') && number == "1");
        const bool trunk = (letter == 'T' || letter == 't') && !arm;
        if (!trunk) member.place = {arm ? Region::upper_extremity : Region::lower_extremity, Side::unstated, false};
      }
    } else if (item.is(ConceptKind::elsewhere_place)) {
      elsewhere = true;
      member.place = {Region::whole_body, Side::midline, false};
    } else {
      const Concept& c = *item.meaning;
      Region region = *c.region;
      if (talk.reflexes && c.reflex_region) region = *c.reflex_region;
      if (c.kind == ConceptKind::artery && !talk.pulses)
        region = Region::upper_extremity;  // "median, radial and ulnar sensation"
      // "Lower right extremity": the words of the limb stand apart.
      if (region == Region::extremities && !c.many) {
        for (std::size_t k = i; k > 0 && k + 3 > i; --k) {
          const std::string_view before = document.text(items[k - 1].first);
          if (before == "lower" || before == "Lower" || before == "LOWER") region = Region::lower_extremity;
          if (before == "upper" || before == "Upper" || before == "UPPER") region = Region::upper_extremity;
        }
      }
      if (context.leg && c.leg_region) region = *c.leg_region;
      if (talk.pulses && c.artery_region) region = *c.artery_region;
      member.place = {region, Side::unstated, c.joints, c.back};
      // "Upper extremity range of motion": the limb as a kind, unless a side is in reach.
      const bool kind = i + 1 < n && items[i + 1].is(ConceptKind::component) && is_group(region) &&
                        c.kind == ConceptKind::region && !context.sided;
      member.plural = c.many || kind || limb_of_many(document, item, end_token);
      member.several = c.several;
      member.generic_part = c.kind == ConceptKind::part && region == Region::spine;
      member.structure = c.id;
      if (c.side && c.kind == ConceptKind::region) {
        member.place.side = *side_of(*c.side);
        member.sided = true;
      }
    }
    const bool paired = is_paired(member.place.region);
    if (paired && i > 0 &&
        (document.text(items[i - 1].first) == "neither" || document.text(items[i - 1].first) == "Neither")) {
      member.place.side = Side::both;
      member.sided = true;
    }
    // "both the cervical and the lumbar spine": counts the places.
    if (pending_side == Side::both && !paired && !elsewhere && !member.plural && start_of_group < i &&
        document.text(items[start_of_group].first) == "both")
      pending_side.reset();
    if (pending_side && !elsewhere) {
      member.place.side = *pending_side;
      member.sided = true;
    }
    // Sides that follow: "knees bilaterally", "knee (right)", "hip on the left".
    std::size_t after = i + 1;
    {
      std::size_t j = after;
      bool preposition = false;
      while (j < n && (items[j].kind == ItemKind::open || items[j].kind == ItemKind::close || is_filler(items[j]) ||
                       items[j].has(kAt) || items[j].kind == ItemKind::comma)) {
        if (items[j].has(kAt)) preposition = true;
        if (items[j].kind == ItemKind::comma && (preposition || j != after)) break;
        ++j;
        if (j - after > 3) break;
      }
      if (j < n && j - after <= 3 && items[j].is(ConceptKind::side) && !member.sided) {
        const auto side = side_of(*items[j].meaning->side);
        // The side belongs to the next place if one follows at once: "knee, left ankle".
        const std::size_t beyond = next_solid(items, j + 1);
        const bool next_is_place = beyond < n && is_place(beyond) && !items[beyond].is(ConceptKind::elsewhere_place);
        // ... or to a value: "hip right 4/5 left 5/5".
        const bool next_is_value =
            beyond < n && is_value(items[beyond]) && *side != Side::both && items[beyond].kind == ItemKind::figure;
        if (side && *side != Side::midline && !next_is_place && !next_is_value) {
          member.place.side = *side;
          member.sided = true;
          after = j + 1;
        }
      }
    }
    const std::size_t solid = next_solid(items, after);
    const bool verb_follows = solid < n && items[solid].has(kVerb);
    const bool said_follows =
        solid < n && (says_something(items[solid]) || verb_follows || items[solid].kind == ItemKind::colon);

    // Is it one of a list of places, or a new one?
    PlaceGroup* last = parts.groups.empty() ? nullptr : &parts.groups.back();
    bool joined = false;
    bool between_join = false;
    if (last != nullptr && last->elsewhere == elsewhere && last->clause == clause) {
      joined = true;
      for (std::size_t j = last->last; j < i; ++j) {
        if (joins(items[j])) {
          between_join = true;
        } else if (!(is_filler(items[j]) || items[j].is(ConceptKind::side) || items[j].has(kAt) ||
                     items[j].kind == ItemKind::open || items[j].kind == ItemKind::close || items[j].is(Cue::extent))) {
          joined = false;
          break;
        }
      }
    }
    bool at_before = at;
    // "the greater tuberosity of the humerus", "the dorsum of the foot": one place.
    if (joined && !between_join && last != nullptr && !last->members.empty() &&
        !last->members.back().structure.empty() &&
        document.text(items[last->last < i ? last->last : i].first) == "of" && !member.structure.empty() == false &&
        !elsewhere && !last->members.back().place.joints) {
      if (member.sided && !last->members.back().sided) {
        last->members.back().place.side = member.place.side;
        last->members.back().sided = true;
      }
      last->last = static_cast<std::uint32_t>(after);
      last->subject = said_follows;
      for (std::size_t k = i; k < after; ++k) parts.clause[k] = clause;
      i = after - 1;
      pending_side.reset();
      have_pending = false;
      at = false;
      continue;
    }
    if (joined && between_join && said_something && verb_follows && last != nullptr && last->at_before) {
      // "swelling below the malleolus and the foot is tender": the verb leads to something new.
      const std::size_t beyond = next_solid(items, solid + 1);
      if (beyond < n && says_something(items[beyond]) && !items[beyond].is(Cue::present) &&
          !items[beyond].is(Cue::tested)) {
        joined = false;
        at_before = false;
      }
    }
    if (joined && between_join && said_something && said_follows && !verb_follows && solid < n &&
        (items[solid].kind == ItemKind::figure ||
         (items[solid].is(ConceptKind::finding) && items[solid].meaning->adjective))) {
      joined = false;  // "tender over the AC joint, biceps groove nontender"
      at_before = false;
    }
    if (joined && !between_join && last != nullptr && !(last->at_before || at) && last->subject) joined = false;
    if (!joined && said_something && !at_before) {
      // A new subject after a comma or "and" opens a clause.
      std::size_t j = have_pending ? start_of_group : i;
      while (j > 0 && (is_filler(items[j - 1]) || items[j - 1].is(ConceptKind::side))) --j;
      const bool join_before = j > 0 && (joins(items[j - 1]));
      if (join_before && said_follows &&
          (verb_follows || (solid < n && is_value(items[solid])) || (solid < n && items[solid].is(Cue::not_)))) {
        ++clause;
        said_something = false;
        for (std::size_t k = j; k <= i; ++k) parts.clause[k] = clause;
        at_before = false;
      }
    }
    if (!paired && !member.sided) member.place.side = Side::midline;
    if (!paired && !member.sided && member.plural && item.is(ConceptKind::part)) {
      member.place.side = Side::both;  // SI joints
      member.sided = true;
    }
    // "cervical paraspinals", "plantar heel", "knee joint line": one place in two words.
    if (joined && last != nullptr && last->last == i && !member.sided && !last->members.empty() && !elsewhere) {
      auto& previous = last->members.back();
      if (previous.place.region == member.place.region || (member.generic_part && has_level(previous.place.region))) {
        if (!member.structure.empty()) previous.structure = member.structure;
        previous.plural = previous.plural || member.plural;
        previous.several = previous.several || member.several;
        last->last = static_cast<std::uint32_t>(after);
        last->subject = said_follows;
        parts.clause[i] = clause;
        i = after - 1;
        pending_side.reset();
        have_pending = false;
        at = false;
        continue;
      }
    }
    if (joined && last != nullptr) {
      // "hips, knees and ankles bilaterally": a side behind the list holds for the list.
      if (member.sided && !pending_side && member.place.side == Side::both) {
        for (auto& m : last->members) {
          if (!m.sided) m.place.side = Side::both, m.sided = true;
        }
      }
      // "the wrist, the hand or the elbow on the left side": a side behind the list, led by a preposition, is the
      // list's.
      if (member.sided && !pending_side && (member.place.side == Side::left || member.place.side == Side::right) &&
          after > i + 1 && items[i + 1].has(kAt)) {
        for (auto& m : last->members) {
          if (!m.sided && !m.plural && is_paired(m.place.region)) m.place.side = member.place.side, m.sided = true;
        }
      }
      // "right shoulder and elbow": a side before the list holds for the list, too.
      if (!member.sided && !member.plural && paired && !last->members.empty()) {
        const auto& previous = last->members.back();
        if (previous.sided && is_paired(previous.place.region)) {
          member.place.side = previous.place.side;
          member.sided = true;
        }
      }
      last->members.push_back(member);
      last->last = static_cast<std::uint32_t>(after);
      last->subject = said_follows;
    } else {
      PlaceGroup group;
      group.first = static_cast<std::uint32_t>(have_pending ? start_of_group : i);
      group.last = static_cast<std::uint32_t>(after);
      group.clause = clause;
      group.elsewhere = elsewhere;
      group.at_before = at_before;
      group.subject = said_follows;
      group.members.push_back(member);
      parts.groups.push_back(group);
    }
    if (item.kind == ItemKind::meaning && item.meaning->second_region) {
      PlaceGroup::Member second = member;
      second.place.region = *item.meaning->second_region;
      if (parts.groups.back().members.back().place.side != Side::unstated)
        second.place.side = parts.groups.back().members.back().place.side;
      parts.groups.back().members.push_back(second);
    }
    for (std::size_t k = i; k < after; ++k) parts.clause[k] = clause;
    i = after - 1;
    pending_side.reset();
    have_pending = false;
    at = false;
  }
  // A place behind "compared with", "than on the" is named to compare with.
  for (PlaceGroup& group : parts.groups) {
    for (std::uint32_t j = group.first; j > 0 && j + 4 > group.first; --j) {
      const Item& before = items[j - 1];
      if (before.is(Cue::compared)) group.compared = true;
      if (!(is_filler(before) || before.has(kAt) || before.kind == ItemKind::word || is_value(before))) break;
    }
  }
  if (!parts.groups.empty() && std::ranges::all_of(parts.groups, &PlaceGroup::compared)) {
    for (PlaceGroup& group : parts.groups) group.compared = false;
  }
  // A dermatome beside a named place only says which nerve.
  if (talk.sensation || talk.reflexes || talk.strength) {
    const auto is_level = [&](const PlaceGroup::Member& member) { return items[member.item].kind == ItemKind::level; };
    const bool all_levels = std::ranges::all_of(
        parts.groups, [&](const PlaceGroup& g) { return std::ranges::all_of(g.members, is_level); });
    if (!all_levels) {
      for (PlaceGroup& group : parts.groups) {
        group.members.erase(std::remove_if(group.members.begin(), group.members.end(), is_level), group.members.end());
      }
      std::erase_if(parts.groups, [](const PlaceGroup& g) { return g.members.empty(); });
    }
  }
  // "midway between the knee and the ankle" is neither.
  for (std::size_t g = 0; g < parts.groups.size(); ++g) {
    const PlaceGroup& group = parts.groups[g];
    const std::uint32_t from = group.first > 3 ? group.first - 3 : 0;
    const bool between = std::ranges::any_of(items.begin() + from, items.begin() + group.first,
                                             [&](const Item& item) { return document.text(item.first) == "between"; });
    if (!between) continue;
    const bool pair = group.members.size() == 2;
    const bool next = !pair && g + 1 < parts.groups.size() && parts.groups[g + 1].first <= group.last + 3;
    if (!pair && !next) continue;
    parts.groups.erase(parts.groups.begin() + static_cast<std::ptrdiff_t>(g),
                       parts.groups.begin() + static_cast<std::ptrdiff_t>(g + (pair ? 1 : 2)));
    --g;
  }
  // "from the toes to the knees" is a stretch of the limb.
  for (PlaceGroup& group : parts.groups) {
    if (group.members.size() < 2 || group.first == 0 || document.text(items[group.first - 1].first) != "from") continue;
    const PlaceGroup::Member& low = group.members[0];
    const PlaceGroup::Member& high = group.members[1];
    bool to = false;
    for (std::uint32_t j = low.item + 1; j < high.item; ++j)
      to = to || document.text(items[j].first) == "to" || document.text(items[j].first) == "through";
    for (const Region limb : {Region::lower_extremity, Region::upper_extremity}) {
      if (!to || !covers(limb, low.place.region) || !covers(limb, high.place.region)) continue;
      PlaceGroup::Member whole = low;
      whole.place.region = limb;
      whole.structure = {};
      whole.plural = low.plural || low.several || high.plural;
      group.members.assign(1, whole);
      break;
    }
  }
  for (std::size_t g = 0; g + 1 < parts.groups.size(); ++g) {
    PlaceGroup& lower = parts.groups[g];
    PlaceGroup& upper = parts.groups[g + 1];
    if (lower.first == 0 || lower.elsewhere || upper.first != lower.last + 1) continue;
    const bool from = document.text(items[lower.first - 1].first) == "from";
    const bool to =
        document.text(items[lower.last].first) == "to" || document.text(items[lower.last].first) == "through";
    if (!from || !to || lower.members.size() != 1 || upper.members.size() != 1) continue;
    for (const Region limb : {Region::lower_extremity, Region::upper_extremity}) {
      if (!covers(limb, lower.members[0].place.region)) continue;
      if (!covers(limb, upper.members[0].place.region) && !upper.elsewhere) continue;
      lower.members[0].place.region = limb;
      lower.members[0].structure = {};
      if (upper.members[0].plural || upper.members[0].several) lower.members[0].plural = true;
      lower.last = upper.last;
      parts.groups.erase(parts.groups.begin() + static_cast<std::ptrdiff_t>(g) + 1);
      break;
    }
  }
}

}  // namespace jointledger
