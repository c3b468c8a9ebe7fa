#include "reading/placing.h"

#include <algorithm>
#include <limits>

namespace jointledger {
namespace {

using Index = std::uint32_t;

bool is_filler(const Item& item) { return item.has(kFiller) || item.has(kAffirms); }

bool joins(const Item& item) {
  return item.kind == ItemKind::comma || item.kind == ItemKind::slash || item.kind == ItemKind::dash ||
         item.has(kAnd) || item.has(kOr);
}

bool has_level(Region region) {
  return region == Region::cervical_spine || region == Region::thoracic_spine || region == Region::lumbar_spine;
}

bool is_spine(Region region) {
  return region == Region::spine || region == Region::cervical_spine || region == Region::thoracic_spine ||
         region == Region::lumbar_spine;
}

bool same_limb(Region a, Region b) {
  return (covers(Region::upper_extremity, a) && covers(Region::upper_extremity, b)) ||
         (covers(Region::lower_extremity, a) && covers(Region::lower_extremity, b));
}

Side opposite(Side side) {
  if (side == Side::left) return Side::right;
  if (side == Side::right) return Side::left;
  return side;
}

struct Target {
  PlaceRef place;
  PlaceSource source = PlaceSource::none;
  SideSource side_source = SideSource::none;
  std::string_view structure;
  Span words;  // empty if the place has no words of its own here
};

class Placer {
 public:
  Placer(const Document& document, const SentenceParts& parts, std::uint32_t sentence, Topic& topic)
      : document_(document), parts_(parts), items_(parts.items), sentence_(sentence), topic_(topic) {}

  void run() {
    const std::size_t before = topic_.said->size();
    for (Index u = 0; u < parts_.units.size(); ++u) place(u);
    compare(before);
    mirror(before);
    exceptions_at_places(before);
    move_on();
  }

 private:
  Span span(Index first, Index last) const { return document_.span(items_[first].first, items_[last - 1].last); }

  bool waiting_place() const { return label_in_force() || !topic_.places.empty(); }
  bool label_in_force() const {
    return topic_.scope != nullptr && topic_.scope->label && !topic_.scope->places.empty();
  }
  bool system_places() const {
    return topic_.scope != nullptr && !topic_.scope->label && !topic_.scope->places.empty();
  }

  // ---- which group of places a unit belongs to -----------------------------------------------------------------

  // A group right before the unit, as in "calf tenderness", "knee flexion".
  std::optional<Index> modifier_of(const Unit& unit) const {
    for (Index g = 0; g < parts_.groups.size(); ++g) {
      const PlaceGroup& group = parts_.groups[g];
      if (group.first > unit.first && group.last <= unit.last) return g;  // "pain in her low back with range of motion"
      if (group.last > unit.first || group.clause != unit.clause || group.compared) continue;
      bool touching = true;
      for (Index j = group.last; j < unit.first; ++j) {
        if (!(is_filler(items_[j]) || items_[j].kind == ItemKind::dash || items_[j].is(Cue::extent) ||
              items_[j].kind == ItemKind::close || is_value(items_[j]))) {
          touching = false;
          break;
        }
      }
      if (touching) return g;
    }
    return std::nullopt;
  }

  // A group that a preposition ties to the unit, or to the list the unit stands in: "tenderness or warmth over the
  // knee".
  std::optional<Index> locus_of(const Unit& unit, bool topic_waits) const {
    for (Index g = 0; g < parts_.groups.size(); ++g) {
      const PlaceGroup& group = parts_.groups[g];
      if (group.first < unit.last || group.clause != unit.clause || group.compared) continue;
      if (!group.at_before) {
        // "tender left calf", "normal strength bilateral lower extremities": nothing but small words between.
        if (group.subject && followed_by_own_unit(group, unit)) return std::nullopt;
        for (Index j = unit.last; j < group.first; ++j) {
          const bool last_words = items_[j].kind == ItemKind::comma && !group.subject &&
                                  group.last + 2 >= items_.size() && parts_.units.size() == 1;
          if (last_words) continue;
          if (joins(items_[j]) || items_[j].kind == ItemKind::semicolon || items_[j].kind == ItemKind::colon)
            return std::nullopt;
          if (inside_other_unit(j, unit)) return std::nullopt;
        }
        return g;
      }
      // Everything between belongs to the same list.
      for (const Unit& other : parts_.units) {
        if (&other == &unit || other.first < unit.last || other.last > group.first || other.clause != unit.clause)
          continue;
        const bool same_list = other.outcome == unit.outcome && (other.coordinated || joined_only(unit, other));
        if (!same_list && (topic_waits || waiting_place())) return std::nullopt;
        if (!same_list && subject_before(unit)) return std::nullopt;
      }
      // "angiomas on his trunk and upper extremities": of two places in a list, the one that counts.
      if (group.elsewhere && g + 1 < parts_.groups.size()) {
        const PlaceGroup& next = parts_.groups[g + 1];
        bool list = !next.elsewhere && next.clause == group.clause && !next.subject;
        for (Index j = group.last; list && j < next.first; ++j) list = joins(items_[j]) || is_filler(items_[j]);
        if (list) return g + 1;
      }
      for (Index j = unit.last; j < group.first; ++j) {
        if (items_[j].is(Cue::except)) return std::nullopt;
      }
      return g;
    }
    return std::nullopt;
  }

  // "decreased range of motion and some ecchymosis": nothing but list words and judgements between.
  bool joined_only(const Unit& a, const Unit& b) const {
    for (Index j = a.last; j < b.first; ++j) {
      if (joins(items_[j]) || is_filler(items_[j]) || is_value(items_[j]) || inside_other_unit(j, a)) continue;
      return false;
    }
    return true;
  }

  bool inside_other_unit(Index item, const Unit& unit) const {
    return std::ranges::any_of(
        parts_.units, [&](const Unit& other) { return &other != &unit && item >= other.first && item < other.last; });
  }

  bool followed_by_own_unit(const PlaceGroup& group, const Unit& unit) const {
    for (const Unit& other : parts_.units) {
      if (&other == &unit || other.clause != group.clause) continue;
      if (other.first >= group.last && other.first <= group.last + 3) return true;
      // a muscle that is its own unit
      if (other.first >= group.first && other.last <= group.last) return true;
    }
    return false;
  }

  bool subject_before(const Unit& unit) const {
    return std::ranges::any_of(parts_.groups, [&](const PlaceGroup& g) {
      return g.clause == unit.clause && g.last <= unit.first && !g.at_before;
    });
  }

  // The nearest group before the unit in its clause, else in the clauses before it.
  std::optional<Index> preceding(const Unit& unit) const {
    std::optional<Index> same;
    std::optional<Index> subject;
    for (Index g = 0; g < parts_.groups.size(); ++g) {
      const PlaceGroup& group = parts_.groups[g];
      if (group.last > unit.first) break;
      if (group.compared) continue;
      if (group.clause == unit.clause) {
        same = g;
        if (!group.at_before) subject = g;
      }
    }
    if (subject) return subject;
    return same;
  }

  std::optional<Index> earlier_clause(const Unit& unit) const {
    std::optional<Index> found;
    for (Index g = 0; g < parts_.groups.size(); ++g) {
      if (parts_.groups[g].clause < unit.clause && !parts_.groups[g].compared) found = g;
    }
    return found;
  }

  // ---- sides ---------------------------------------------------------------------------------------------------

  // A side in the clause that stands beside no place: "positive on the left", "tenderness bilaterally".
  std::optional<Side> floating_side(const Unit& unit) const {
    std::optional<Side> after;
    std::optional<Side> before;
    for (Index j = 0; j < items_.size(); ++j) {
      if (parts_.clause[j] != unit.clause || !items_[j].is(ConceptKind::side)) continue;
      if (in_group(j)) continue;
      std::optional<Side> side = side_of(*items_[j].meaning->side);
      if (*items_[j].meaning->side == SideWord::affected && topic_.complaint) side = topic_.complaint->side;
      if (*items_[j].meaning->side == SideWord::other && topic_.side != Side::unstated) side = opposite(topic_.side);
      if (!side || *side == Side::midline) continue;
      if (compared_item(j)) continue;
      if (j >= unit.last) {
        // The side behind the unit, unless another unit with its own side comes first.
        bool blocked = false;
        if (*side != Side::both) {
          for (const Unit& other : parts_.units) {
            if (&other != &unit && other.first >= unit.last && other.first < j && other.clause == unit.clause &&
                !other.coordinated && !related(unit, other))
              blocked = true;
          }
        }
        if (!after && !blocked) after = side;
      } else if (j < unit.first) {
        before = side;
      }
    }
    if (after && before && *after == Side::both) return after;
    if (before && direct_before(unit)) return before;
    if (after) return after;
    return before;
  }

  bool direct_before(const Unit& unit) const {
    Index j = unit.first;
    while (j > 0 && (is_filler(items_[j - 1]) || is_value(items_[j - 1]))) --j;
    return j > 0 && items_[j - 1].is(ConceptKind::side) && parts_.clause[j - 1] == unit.clause;
  }

  static bool related(const Unit& a, const Unit& b) { return a.outcome == b.outcome; }

  bool in_group(Index item) const {
    return std::ranges::any_of(parts_.groups, [&](const PlaceGroup& g) { return item >= g.first && item < g.last; });
  }

  // Whether the item stands in a comparison: "than on the left".
  bool compared_item(Index item) const {
    for (Index j = item; j-- > 0;) {
      if (items_[j].is(Cue::compared) || items_[j].is(Cue::equalled)) return true;
      if (is_filler(items_[j]) || items_[j].has(kAt) || items_[j].is(ConceptKind::side) ||
          items_[j].kind == ItemKind::word) {
        if (item - j > 4) return false;
        continue;
      }
      return false;
    }
    return false;
  }

  // ---- placing -------------------------------------------------------------------------------------------------

  // "Back" is the lumbar spine where that is what the visit is about.
  PlaceRef settle_back(PlaceRef place) const {
    if (place.back && topic_.low_back_complaint) place.region = Region::lumbar_spine;
    return place;
  }

  // The side a place has once headings and the text before are considered.
  Side settle_side(const PlaceRef& place, bool sided, bool plural, SideSource& source, Index item = 0,
                   bool several = false) const {
    if (sided || (place.side != Side::unstated && place.side != Side::midline)) {
      source = SideSource::named;
      return place.side;
    }
    if (!is_paired(place.region)) {
      source = SideSource::fixed;
      for (const PlaceGroup& group : parts_.groups) {
        for (const auto& member : group.members) {
          if (member.item < item && member.sided && member.place.region == place.region) return member.place.side;
        }
      }
      return Side::midline;
    }
    if (plural && !(item_is_part(item) && labelled_limb(place.region))) {
      source = SideSource::plural;
      return Side::both;
    }
    if (place.region == Region::extremities) {
      source = SideSource::plural;
      return Side::both;
    }
    if (const auto side = earlier_side(item)) {
      source = SideSource::carried;
      return *side;
    }
    if (topic_.scope != nullptr && topic_.scope->side) {
      source = SideSource::named;
      return *topic_.scope->side;
    }
    if (topic_.side == Side::left || topic_.side == Side::right) {
      source = SideSource::carried;
      return topic_.side;
    }
    if (several && topic_.places.empty() && !label_in_force()) {
      source = SideSource::plural;
      return Side::both;
    }
    if (several) {
      // Fingers of an unstated hand stay unstated; fingers by themselves are those of both hands.
      const auto near = [&](const auto& refs) {
        return std::ranges::any_of(refs, [&](const PlaceRef& ref) {
          return ref.side == Side::unstated && same_limb(ref.region, place.region);
        });
      };
      const bool unstated_limb = near(topic_.places) || (topic_.scope != nullptr && near(topic_.scope->places));
      if (!unstated_limb) {
        source = SideSource::plural;
        return Side::both;
      }
    }
    if (topic_.side == Side::both) {
      // "both" holds for the places it was said of.
      for (const PlaceRef& ref : topic_.places) {
        if (ref.region == place.region && ref.side == Side::both) {
          source = SideSource::carried;
          return Side::both;
        }
      }
      if (topic_.scope != nullptr) {
        for (const PlaceRef& ref : topic_.scope->places) {
          if (is_group(place.region) && ref.region == Region::extremities)
            continue;  // "lower extremity" in the singular
          if (ref.side == Side::both &&
              (ref.region == place.region || covers(ref.region, place.region) || topic_.scope->label)) {
            source = SideSource::carried;
            return Side::both;
          }
        }
      }
    }
    if (bilateral_before(item)) {
      source = SideSource::carried;
      return Side::both;
    }
    source = SideSource::none;
    return Side::unstated;
  }

  bool item_is_part(Index item) const { return item < items_.size() && items_[item].is(ConceptKind::part); }

  // Whether a label with one side is in force for the limb ("Left shoulder: ... no tenderness of the AC joints").
  bool labelled_limb(Region region) const {
    if (!label_in_force()) return false;
    return std::ranges::any_of(topic_.scope->places, [&](const PlaceRef& ref) {
      return (ref.side == Side::left || ref.side == Side::right) &&
             (same_limb(ref.region, region) || ref.region == region);
    });
  }

  // "bilaterally" holds for the rest of its sentence.
  bool bilateral_before(Index item) const {
    for (Index j = 0; j < item && j < items_.size(); ++j) {
      if (items_[j].is(ConceptKind::side) && *items_[j].meaning->side == SideWord::both) return true;
    }
    return false;
  }

  // The side stated beside a place earlier in the sentence.
  std::optional<Side> earlier_side(Index item) const {
    std::optional<Side> found;
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (member.item < item && member.sided && is_paired(member.place.region) && !group.elsewhere)
          found = member.place.side;
      }
    }
    return found;
  }

  // A part of the spine that names no level belongs to the level that the sentence, the label or the topic names.
  Region level_for(Region region, bool generic) const {
    if (!generic) return region;
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (has_level(member.place.region)) return member.place.region;
      }
    }
    if (topic_.scope != nullptr && topic_.scope->label) {
      for (const PlaceRef& ref : topic_.scope->places) {
        if (has_level(ref.region)) return ref.region;
      }
    }
    for (const PlaceRef& ref : topic_.places) {
      if (has_level(ref.region)) return ref.region;
    }
    return region;
  }

  void targets_of_group(Index g, PlaceSource source, std::vector<Target>& out) const {
    const PlaceGroup& group = parts_.groups[g];
    for (const auto& member : group.members) {
      if (member.place.joints && group.members.size() > 1) continue;
      Target target;
      target.place = settle_back(member.place);
      target.place.region = level_for(target.place.region, member.generic_part);
      target.place.side =
          settle_side(member.place, member.sided, member.plural, target.side_source, member.item, member.several);
      if (member.place.joints && (label_in_force() || system_places())) {
        // "all joints", "throughout" under a label are those of the label.
        scope_targets(PlaceSource::label, out);
        continue;
      }
      target.source = source;
      target.structure = member.structure;
      target.words = document_.span(items_[member.item].first, items_[member.item].last);
      if (member.sided && group.first < member.item && group.members.size() == 1)
        target.words = span(group.first, std::max(member.item + 1, group.last));
      out.push_back(target);
    }
  }

  void scope_targets(PlaceSource source, std::vector<Target>& out) const {
    for (const PlaceRef& place : topic_.scope->places) {
      Target target;
      target.place = settle_back(place);
      target.source = source;
      target.side_source = SideSource::named;
      if (place.side == Side::unstated) target.place.side = settle_side(place, false, false, target.side_source);
      target.words = topic_.scope_words;
      out.push_back(target);
    }
  }

  void topic_targets(std::vector<Target>& out) const {
    for (std::size_t i = 0; i < topic_.places.size(); ++i) {
      Target target;
      target.place = topic_.places[i];
      target.source = PlaceSource::topic;
      target.side_source = SideSource::carried;
      if (i < topic_.place_words.size()) target.words = topic_.place_words[i];
      out.push_back(target);
    }
  }

  bool admits(const Unit& unit, PlaceSource source) const {
    const Admits admits = topic_.scope != nullptr ? topic_.scope->admits : Admits::all;
    if (source == PlaceSource::named || source == PlaceSource::sentence)
      return admits != Admits::nothing || neurological(unit);
    const Admit admit = unit.meaning != nullptr ? unit.meaning->admit : Admit::in_scope;
    switch (admits) {
      case Admits::all:
        break;
      case Admits::anywhere:
        if (source == PlaceSource::topic) break;
        if (admit != Admit::anywhere) return false;
        break;
      case Admits::explicit_only:
        return unit.component == Component::gait || (unit.component == Component::reflexes && neurological(unit));
      case Admits::nothing:
        return neurological(unit);
    }
    return true;
  }

  // Power, reflexes and sense told in the run of a text about the cranial nerves or the mind, by name.
  bool neurological(const Unit& unit) const {
    if (unit.meaning == nullptr || unit.meaning->kind != ConceptKind::component || unit.meaning->region ||
        unit.first > 4)
      return false;
    for (const PlaceGroup& group : parts_.groups) {
      if (group.elsewhere) return false;
    }
    return unit.component == Component::strength || unit.component == Component::reflexes ||
           unit.component == Component::sensation;
  }

  // Regions that a phrase may take from what is in force, although it has a usual place of its own.
  std::optional<Region> borrowed(const Unit& unit, Region in_force) const {
    const Concept& c = *unit.meaning;
    if (c.kind == ConceptKind::test) {
      for (const Region region : c.test_regions) {
        if (region == in_force) return region;
      }
      return std::nullopt;
    }
    if (c.kind == ConceptKind::motion) {
      if (*c.region == in_force) return in_force;
      if (c.motions.contains(Motion::supination) || c.motions.contains(Motion::pronation)) {
        if (in_force == Region::forearm) return in_force;
        return std::nullopt;
      }
      if (!is_group(in_force) && is_paired(in_force) &&
          (same_limb(in_force, *c.region) || c.motions.contains(Motion::dorsiflexion)))
        return in_force;
      return std::nullopt;
    }
    return std::nullopt;
  }

  void place(Index u) {
    const Unit& unit = parts_.units[u];
    std::vector<Target> targets;
    const bool gait = unit.component == Component::gait;
    bool elsewhere = false;
    bool own_region = false;

    const auto modifier = modifier_of(unit);
    const bool topic_waits = label_in_force();
    std::optional<Index> group;
    PlaceSource source = PlaceSource::named;
    if (unit.value_group) {
      group = unit.value_group;
    } else if (unit.after_rest && unit.kind == Unit::Kind::judgement && unit.component == Component::unspecified) {
      group = earlier_clause(unit);  // "tender medially but otherwise unremarkable"
    } else if (unit.after_rest) {
      group = locus_of(unit, topic_waits);
      if (!group) group = modifier_of(unit);
      if (group && parts_.groups[*group].clause != unit.clause) group.reset();
    } else if (unit.kind == Unit::Kind::muscle && unit.meaning != nullptr &&
               unit.meaning->kind == ConceptKind::muscle) {
      // Its own place is a member of some group.
      for (Index g = 0; g < parts_.groups.size(); ++g) {
        for (const auto& member : parts_.groups[g].members) {
          if (member.item == unit.first) {
            Target target;
            target.place = member.place;
            target.place.side = settle_side(member.place, member.sided, member.plural || plural_muscle(unit),
                                            target.side_source, member.item);
            target.source = PlaceSource::own;
            target.structure = member.structure;
            targets.push_back(target);
            own_region = true;
          }
        }
      }
    } else if (unit.kind == Unit::Kind::judgement && unit.last < items_.size() && items_[unit.last].is(Cue::extent) &&
               (system_places() || label_in_force())) {
      // "1/1 quads and hamstrings, 0/0 distally": of the limb of the heading.
      group = locus_of(unit, topic_waits);
    } else if (modifier) {
      group = modifier;
      // "no edema of the ankles, knee effusion" and the like: nearest wins.
    } else {
      group = locus_of(unit, topic_waits);
      if (!group) {
        auto before = preceding(unit);
        // Unnamed pulses are of the place only if a preposition ties them to it.
        const bool pulses = unit.component == Component::perfusion && unit.meaning != nullptr &&
                            unit.meaning->region == Region::extremities;
        if (pulses && before && !artery_group(parts_.groups[*before])) before.reset();
        if (before) {
          const PlaceGroup& candidate = parts_.groups[*before];
          // What was pressed or seen at a place does not become the subject where a label is in force.
          const bool aside = candidate.at_before && topic_waits && !candidate.elsewhere;
          if (!aside) {
            group = before;
            if (!nearby(candidate, unit)) source = PlaceSource::sentence;
          }
        } else if (!topic_waits && unit.component != Component::reflexes && !pulses) {
          group = earlier_clause(unit);
          source = PlaceSource::sentence;
          if (group && parts_.groups[*group].elsewhere && foreign_done(*group, unit)) group.reset();
        }
      }
    }

    // Phrases with a usual place of their own.
    const std::optional<Region> usual = unit.meaning != nullptr ? unit.meaning->region : std::nullopt;
    const bool whole_motion = usual == Region::extremities && unit.component == Component::range_of_motion;
    const bool fixed_place =
        gait || whole_motion ||
        (usual && unit.meaning->kind != ConceptKind::finding && unit.meaning->kind != ConceptKind::component) ||
        (usual && (unit.meaning->kind == ConceptKind::component || unit.meaning->kind == ConceptKind::finding) &&
         usual != Region::whole_body && usual != Region::extremities && usual != Region::spine);
    if (!own_region && group) {
      elsewhere = parts_.groups[*group].elsewhere;
      if (elsewhere && !fixed_place && unit.meaning != nullptr && unit.meaning->admit == Admit::anywhere && !modifier &&
          source == PlaceSource::sentence)
        elsewhere = false;
      if (!elsewhere || fixed_place) targets_of_group(*group, source, targets);
      if (elsewhere && !fixed_place) return;
      if (elsewhere) targets.clear();
    }

    if (fixed_place && !own_region) {
      Region region = gait ? Region::whole_body : *usual;
      Side side = Side::unstated;
      SideSource side_source = SideSource::none;
      Span words;
      if (!gait) {
        for (const Target& target : targets) {
          if (const auto taken =
                  unit.meaning->kind == ConceptKind::finding || unit.meaning->kind == ConceptKind::component
                      ? place_instead(unit, target.place.region, region)
                      : borrowed(unit, target.place.region)) {
            region = *taken;
          }
          if (target.side_source == SideSource::named ||
              (target.side_source == SideSource::plural && is_paired(target.place.region))) {
            side = target.place.side;
            side_source = target.side_source;
          }
          words = target.words;
        }
        if (targets.empty() && topic_.scope != nullptr) {
          for (const PlaceRef& ref : topic_.scope->places) {
            if (!topic_.scope->label) break;
            if (const auto taken = borrowed_any(unit, ref.region)) {
              region = *taken;
              if (ref.side != Side::unstated) {
                side = ref.side;
                side_source = SideSource::carried;
              }
            }
          }
          if (topic_.scope->places.empty()) {
            for (const PlaceRef& ref : topic_.places) {
              if (const auto taken = borrowed_any(unit, ref.region)) {
                region = *taken;
                if (side == Side::unstated && ref.side != Side::unstated) {
                  side = ref.side;
                  side_source = SideSource::carried;
                }
              }
            }
          }
        }
      }
      if (side == Side::midline) side = Side::unstated;
      Target target;
      target.place = {region, side, false};
      target.source = targets.empty() ? PlaceSource::own : PlaceSource::named;
      if (side == Side::unstated) {
        PlaceRef bare{region, Side::unstated, false};
        target.place.side = settle_side(bare, false, plural_words(unit), side_source);
        // A side said of another place does not hold for a phrase that brings its own ("pedal edema" after a hip).
        const bool brings_own = unit.meaning != nullptr && (unit.meaning->kind == ConceptKind::finding ||
                                                            unit.meaning->kind == ConceptKind::component);
        if (side_source == SideSource::carried && brings_own && !label_in_force() && !said_of(region)) {
          const bool limbs = system_places() && topic_.scope->places.front().side == Side::both &&
                             covers(topic_.scope->places.front().region, region);
          target.place.side = limbs ? Side::both : Side::unstated;
          side_source = limbs ? SideSource::plural : SideSource::none;
        }
        if (target.place.side == Side::unstated && unit.component == Component::reflexes &&
            region == Region::upper_extremity) {
          target.place.side = Side::both;  // Hoffmann
          side_source = SideSource::plural;
        }
        if (target.place.side == Side::unstated &&
            (unit.component == Component::reflexes ||
             (unit.component == Component::strength && region == Region::upper_extremity))) {
          // Reflexes and drift are looked for in pairs.
          if (unit.component == Component::strength) {
            target.place.side = Side::both;
            side_source = SideSource::plural;
          }
        }
      }
      if (gait) target.place.side = Side::midline;
      target.side_source = side_source;
      target.words = words;
      targets.assign(1, target);
      own_region = true;
      if (unit.meaning != nullptr && unit.meaning->id == "neck" && !neck_in_force()) return;
      if (!admits_own(unit) && !(group && !elsewhere && parts_.groups[*group].members.front().place.region == region))
        return;
    }

    if (targets.empty()) {
      // Nothing named: a label, the heading, the sentences before, or the component's usual place.
      if (label_in_force()) {
        scope_targets(PlaceSource::label, targets);
      } else if (topic_.elsewhere && elsewhere_claims(unit)) {
        return;
      } else if (const auto limb = distal_limb(unit)) {
        targets.push_back(*limb);
      } else if (!unit.after_rest && !topic_.places.empty() && topic_fits(unit)) {
        topic_targets(targets);
      } else if (system_places()) {
        scope_targets(PlaceSource::heading, targets);
      }
      adjust_defaults(unit, targets);
      if (!targets.empty() && targets.front().source == PlaceSource::heading &&
          targets.front().place.region == Region::chest_wall && !of_chest(unit))
        return;
      if (!targets.empty() && !admits(unit, targets.front().source)) return;
      if (targets.empty()) {
        if (!admits(unit, PlaceSource::none)) return;
        if (unit.component == Component::unspecified) return;
        if (unit.meaning != nullptr && unit.meaning->kind == ConceptKind::component && unit.meaning->weak &&
            unit.component == Component::perfusion)
          return;                                                                       // the heart's
        if (unit.component == Component::stability && unit.meaning == nullptr) return;  // "stable": who knows what
        // The skin as such, or how somebody looks, is of no joint.
        if (unit.meaning != nullptr && unit.meaning->kind == ConceptKind::component && unit.meaning->weak &&
            unit.component == Component::inspection)
          return;
        Target target;
        target.place.region = default_region(unit);
        target.place.side = is_paired(target.place.region) ? Side::both : Side::midline;
        target.side_source = SideSource::fixed;
        if (const auto floating = floating_side(unit); floating && target.place.region == Region::whole_body) {
          target.place.side = *floating;
          target.side_source = SideSource::named;
        } else if (target.place.region == Region::whole_body && symmetric_words(unit)) {
          target.place.side = Side::both;
          target.side_source = SideSource::named;
        } else if (target.place.region == Region::whole_body && pair_figure(unit)) {
          target.place.side = Side::both;
          target.side_source = SideSource::named;
        }
        targets.push_back(target);
      }
    } else if (!own_region && !admits(unit, source)) {
      return;
    }

    if (unit.component == Component::unspecified && targets.front().source == PlaceSource::topic) return;
    for (Target& target : targets) finish_side(unit, target, own_region);
    whole_sides(unit, targets);
    for (const Target& target : targets) say(unit, target);
  }

  // What is seen, felt or moved after talk of another organ is of that organ; power, reflexes and gait are not.
  static bool elsewhere_claims(const Unit& unit) {
    if (unit.meaning != nullptr && unit.meaning->admit == Admit::anywhere) return false;
    switch (unit.component) {
      case Component::strength:
      case Component::reflexes:
      case Component::gait:
      case Component::perfusion:
      case Component::special_test:
        return false;
      default:
        return true;
    }
  }

  // What counts of the chest where only the heading names it.
  static bool of_chest(const Unit& unit) {
    if (unit.meaning == nullptr) return unit.component == Component::inspection;
    if (unit.meaning->kind == ConceptKind::finding) return unit.meaning->id == "chest";
    return unit.component == Component::inspection && unit.kind == Unit::Kind::component;
  }

  // "Sensation intact distally" without a place: the limb of the complaint.
  std::optional<Target> distal_limb(const Unit& unit) const {
    if (unit.component != Component::sensation && unit.component != Component::perfusion) return std::nullopt;
    if (!topic_.complaint || !topic_.places.empty()) return std::nullopt;
    const bool distal = (unit.meaning != nullptr && unit.meaning->second_component) ||
                        std::ranges::any_of(items_, [&](const Item& item) {
                          return item.is(Cue::extent) && document_.text(item.first).starts_with("distal");
                        });
    if (!distal) return std::nullopt;
    for (const Region limb : {Region::upper_extremity, Region::lower_extremity}) {
      if (!covers(limb, topic_.complaint->region)) continue;
      Target target;
      target.place = {limb, topic_.complaint->side, false};
      target.source = PlaceSource::topic;
      target.side_source = SideSource::carried;
      return target;
    }
    return std::nullopt;
  }

  // Whether another unit already stands between the elsewhere-place and this one, closing it.
  bool foreign_done(Index, const Unit& unit) const {
    return unit.meaning != nullptr && unit.meaning->admit == Admit::anywhere;
  }

  bool said_of(Region region) const {
    return std::ranges::any_of(topic_.places, [&](const PlaceRef& ref) { return ref.region == region; });
  }

  bool artery_group(const PlaceGroup& group) const {
    const Item& item = items_[group.members.front().item];
    return item.is(ConceptKind::artery) || item.is(ConceptKind::muscle) ||
           (item.is(ConceptKind::region) && is_group(group.members.front().place.region));
  }

  bool neck_in_force() const {
    const auto is_neck = [](const PlaceRef& ref) { return ref.region == Region::cervical_spine; };
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (is_neck(member.place)) return true;
      }
    }
    for (const Item& item : items_) {
      if (item.is(ConceptKind::finding) && document_.text(item.first).size() == 4 &&
          (document_.text(item.first)[0] == 'n' || document_.text(item.first)[0] == 'N'))
        return true;
    }
    if (std::ranges::any_of(topic_.places, is_neck)) return true;
    if (topic_.scope == nullptr) return false;
    if (std::ranges::any_of(topic_.scope->places, is_neck)) return true;
    const std::string_view heading =
        document_.note().substr(topic_.scope_words.start, topic_.scope_words.end - topic_.scope_words.start);
    return heading.find("eck") != std::string_view::npos || heading.find("ECK") != std::string_view::npos;
  }

  bool nearby(const PlaceGroup& group, const Unit& unit) const { return unit.first - group.last < 8; }

  // "quads", "hip flexors": the plural means both sides. "biceps" and "triceps" only look like one.
  bool plural_muscle(const Unit& unit) const {
    const std::string_view text = document_.text(items_[unit.last - 1].last - 1);
    return text.ends_with('s') && !text.ends_with("ss") && !text.ends_with("ceps") && !text.ends_with("us") &&
           !text.ends_with("is") && !text.ends_with("ps");
  }

  bool plural_words(const Unit& unit) const {
    const std::string_view text = document_.text(items_[unit.last - 1].last - 1);
    return (unit.component == Component::reflexes || unit.component == Component::strength) && text.size() > 3 &&
           text.ends_with('s') && !text.ends_with("ss") && unit.meaning != nullptr &&
           (unit.meaning->kind == ConceptKind::finding || unit.meaning->kind == ConceptKind::component);
  }

  std::optional<Region> borrowed_any(const Unit& unit, Region in_force) const {
    if (unit.meaning->kind == ConceptKind::test || unit.meaning->kind == ConceptKind::motion)
      return borrowed(unit, in_force);
    if (unit.meaning->region == in_force) return in_force;
    return std::nullopt;
  }

  // Findings and components with a place of their own keep it, but a named place nearer to the words wins over a wide
  // one.
  std::optional<Region> place_instead(const Unit& unit, Region named, Region own) const {
    (void)unit;
    return is_group(own) && own != Region::upper_extremity ? named : own;
  }

  bool admits_own(const Unit& unit) const {
    const Admits admits = topic_.scope != nullptr ? topic_.scope->admits : Admits::all;
    if (admits == Admits::nothing) return false;
    if (admits == Admits::all) return true;
    if (unit.meaning != nullptr && unit.meaning->id == "neck") return true;
    if (unit.component == Component::gait) return true;
    if (unit.meaning != nullptr && unit.meaning->admit == Admit::anywhere) return admits == Admits::anywhere;
    return unit.meaning != nullptr &&
           (unit.meaning->kind == ConceptKind::test || unit.meaning->kind == ConceptKind::muscle ||
            unit.meaning->kind == ConceptKind::motion || unit.meaning->component == Component::strength ||
            unit.meaning->component == Component::reflexes);
  }

  // Whether the place of the sentence before can be what this unit is about.
  bool topic_fits(const Unit& unit) const {
    // Bulk and tone are looked at as a whole.
    if (unit.meaning != nullptr && unit.meaning->kind == ConceptKind::component &&
        unit.meaning->region == Region::whole_body)
      return false;
    const Region region = topic_.places.front().region;
    switch (unit.component) {
      case Component::strength:
      case Component::sensation:
      case Component::reflexes:
        // Reflexes are of the whole body unless their level is named, and a limb named for its power is not the one
        // whose sensation is told next.
        if (unit.component == Component::reflexes) return false;
        if (unit.component == Component::sensation &&
            (is_group(region) || (topic_.scope != nullptr && topic_.scope->is_system)))
          return false;
        return is_paired(region);
      case Component::perfusion:
        // Unnamed pulses are those of the extremities; capillary refill is where the sentence before was.
        return is_paired(region) && !(unit.meaning != nullptr && unit.meaning->region == Region::extremities);
      default:
        break;
    }
    if (unit.meaning != nullptr && unit.meaning->kind == ConceptKind::finding &&
        unit.meaning->region == Region::extremities)
      return false;
    if (unit.kind == Unit::Kind::judgement && unit.component == Component::unspecified) return false;
    return true;
  }

  // Components that do not take the heading's region: reflexes under Extremities, gait.
  void adjust_defaults(const Unit& unit, std::vector<Target>& targets) const {
    if (targets.empty()) return;
    const PlaceSource source = targets.front().source;
    const Region region = targets.front().place.region;
    const bool finding_with_place =
        unit.meaning != nullptr && unit.meaning->kind == ConceptKind::finding && unit.meaning->region.has_value();
    if (finding_with_place && *unit.meaning->region == Region::spine && source == PlaceSource::heading &&
        !is_spine(region)) {
      targets.clear();  // kyphosis under Chest
      return;
    }
    if (finding_with_place && *unit.meaning->region == Region::extremities && source != PlaceSource::label) {
      // Edema, clubbing, cyanosis: the limb of the heading, or the extremities.
      if (!covers(Region::extremities, region) || source == PlaceSource::topic) targets.clear();
      return;
    }
    if (unit.component == Component::reflexes && source == PlaceSource::heading && region == Region::extremities)
      targets.clear();
    if (is_spine(region) && (unit.component == Component::strength || unit.component == Component::sensation ||
                             unit.component == Component::reflexes)) {
      const Region limb = region == Region::cervical_spine ? Region::upper_extremity : Region::lower_extremity;
      const auto side = floating_side(unit);
      const Target base = targets.front();
      targets.clear();
      if (side || unit.value_side) {
        Target target = base;
        target.place = {limb, side.value_or(*unit.value_side), false};
        target.side_source = SideSource::named;
        targets.push_back(target);
      }
      return;
    }
    if (unit.component == Component::perfusion && !is_paired(region)) targets.clear();
    if (unit.component == Component::perfusion && source == PlaceSource::label && unit.meaning != nullptr &&
        unit.meaning->region == Region::extremities) {
      if (floating_side(unit) == Side::both || symmetric_pair(unit))
        targets.clear();  // "pulses equal bilaterally" under one joint
    }
  }

  Region default_region(const Unit& unit) const {
    if (unit.meaning != nullptr && unit.meaning->region) return *unit.meaning->region;
    if (unit.component == Component::perfusion && unit.meaning == nullptr) return Region::extremities;
    return Region::whole_body;
  }

  bool symmetric_words(const Unit& unit) const {
    for (Index j = 0; j < items_.size(); ++j) {
      if (parts_.clause[j] != unit.clause || !(items_[j].is(Cue::symmetric) || items_[j].is(Cue::equal))) continue;
      return unit.component == Component::strength || unit.component == Component::reflexes ||
             unit.component == Component::sensation;
    }
    return false;
  }

  void finish_side(const Unit& unit, Target& target, bool) const {
    if (unit.component == Component::gait) return;
    const bool paired = is_paired(target.place.region);
    std::optional<Side> floating = unit.value_side;
    if (!floating) floating = floating_side(unit);
    if (!floating) {
      if (target.side_source == SideSource::carried && paired && symmetric_pair(unit)) target.place.side = Side::both;
      const bool muscles = unit.kind == Unit::Kind::muscle && unit.meaning != nullptr &&
                           unit.meaning->kind == ConceptKind::motion_muscle;
      const bool reflex_level = unit.component == Component::reflexes && target.source != PlaceSource::own;
      if (paired && target.place.side == Side::unstated &&
          (symmetric_pair(unit) || pair_figure(unit) || reflex_level || paired_pulses(unit) || muscles)) {
        target.place.side = Side::both;
        target.side_source = SideSource::named;
      }
      return;
    }
    if (!paired) {
      // Bending and turning to a side is a direction of the motion.
      if (is_spine(target.place.region) && unit.component == Component::range_of_motion) return;
      if (target.place.region == Region::whole_body && *floating == Side::both && unit.kind == Unit::Kind::finding)
        return;
      if (target.place.region == Region::whole_body && target.source == PlaceSource::own) return;
      target.place.side = *floating;
      target.side_source = SideSource::named;
      return;
    }
    if (target.side_source == SideSource::named && target.source == PlaceSource::named && !unit.value_side) {
      return;  // said beside the place
    }
    if (target.side_source == SideSource::plural && *floating != Side::both && target.source == PlaceSource::named &&
        !unit.value_side) {
      target.place.side = *floating;
      target.side_source = SideSource::named;
      return;
    }
    target.place.side = *floating;
    target.side_source = SideSource::named;
  }

  // "Left-sided weakness", "strength 4/5 on the right": power told by side, of no limb, is that of the limbs of the
  // side; after the back or the neck, of the limb that it supplies.
  void whole_sides(const Unit& unit, std::vector<Target>& targets) const {
    if (unit.component != Component::strength || targets.size() != 1) return;
    const Target target = targets.front();
    if (target.place.region != Region::whole_body ||
        (target.place.side != Side::left && target.place.side != Side::right))
      return;
    Region spine = Region::whole_body;
    for (const PlaceRef& ref : topic_.places) {
      if (is_spine(ref.region)) spine = ref.region;
    }
    targets.clear();
    for (const Region limb : {Region::upper_extremity, Region::lower_extremity}) {
      if (spine == Region::cervical_spine && limb != Region::upper_extremity) continue;
      if (is_spine(spine) && spine != Region::cervical_spine && limb != Region::lower_extremity) continue;
      Target one = target;
      one.place.region = limb;
      targets.push_back(one);
    }
  }

  // "4/4-": right and left values.
  static bool pair_figure(const Unit& unit) {
    return std::ranges::any_of(unit.grades, [](const Grade& grade) { return grade.side != Side::unstated; });
  }

  // "dorsalis pedis pulses": the plural of one artery means both sides.
  bool paired_pulses(const Unit& unit) const {
    if (unit.component != Component::perfusion || unit.meaning == nullptr) return false;
    const std::string_view text = document_.text(items_[unit.last - 1].last - 1);
    if (!text.ends_with("s")) return false;
    int arteries = 0;
    for (const Item& item : items_)
      arteries += item.is(ConceptKind::artery) || (item.is(ConceptKind::muscle) && item.meaning->artery_region) ? 1 : 0;
    return arteries == 1;
  }

  // "symmetric", "equal" said of one limb means the pair.
  bool symmetric_pair(const Unit& unit) const {
    for (Index j = 0; j < items_.size(); ++j) {
      if (parts_.clause[j] == unit.clause && (items_[j].is(Cue::symmetric) || items_[j].is(Cue::equal))) return true;
    }
    return false;
  }

  void say(const Unit& unit, const Target& target) {
    if (target.place.region == Region::whole_body && unit.component == Component::inspection &&
        target.source == PlaceSource::none && unit.meaning != nullptr && unit.meaning->kind == ConceptKind::finding &&
        unit.meaning->admit == Admit::region && topic_.scope != nullptr && !topic_.scope->is_system &&
        !topic_.scope->component) {
      return;
    }
    // Masses in the neck are not of its joints.
    if (target.place.region == Region::cervical_spine && unit.meaning != nullptr && unit.meaning->id == "mass") return;
    Statement s;
    s.region = target.place.region;
    if (unit.component == Component::inspection && is_paired(s.region) && extent_of_edema(unit, target)) {
      s.region = covers(Region::lower_extremity, s.region) ? Region::lower_extremity : Region::upper_extremity;
    }
    if (target.place.joints && system_places() && topic_.scope->places.front().region == Region::extremities)
      s.region = Region::extremities;
    s.component = unit.component;
    s.side = target.place.side;
    if (s.region == Region::whole_body && target.place.joints && s.side == Side::both) s.side = Side::midline;
    if (s.region == Region::extremities && s.side == Side::midline) s.side = Side::both;
    s.outcome = *unit.outcome;
    s.motions = unit.component == Component::range_of_motion ? unit.motions : MotionSet();
    s.place_source = target.source;
    s.side_source = target.side_source;
    s.judged = unit.judged;
    s.degrees.assign(unit.degrees.begin(), unit.degrees.end());
    for (Degrees& degrees : s.degrees) degrees.side = s.side;
    s.grades.assign(unit.grades.begin(), unit.grades.end());
    for (Grade& grade : s.grades) {
      if (grade.side == Side::unstated) grade.side = s.side;
    }
    if (!target.structure.empty()) s.structures.push_back(target.structure);
    if (unit.meaning != nullptr && unit.meaning->kind == ConceptKind::test) s.tests.push_back(unit.meaning->id);
    s.evidence.assign(unit.words.begin(), unit.words.end());
    if (target.words.end > target.words.start) s.evidence.push_back(target.words);
    s.sentence = sentence_;
    topic_.said->push_back(std::move(s));
  }

  // "edema to the knees", "up to the level of the thighs": how far up the limb it goes.
  bool extent_of_edema(const Unit& unit, const Target& target) const {
    if (unit.meaning == nullptr || unit.meaning->region != Region::extremities || is_group(target.place.region) ||
        target.place.region == Region::lower_leg || target.place.region == Region::forearm)
      return false;
    for (const PlaceGroup& group : parts_.groups) {
      if (group.first <= unit.first || group.members.front().place.region != target.place.region) continue;
      for (Index j = group.members.front().item; j > unit.last && j + 6 > group.members.front().item; --j) {
        const std::string_view text = document_.text(items_[j - 1].first);
        if (text == "to" || text == "up" || text == "through") return true;
        if (items_[j - 1].kind == ItemKind::comma) break;
      }
      return false;
    }
    return false;
  }

  // "tenderness greater on the right than on the left", "weaker compared with the other side": the other side was
  // examined.
  void compare(std::size_t before) {
    for (Index i = 0; i < items_.size(); ++i) {
      const bool alike = items_[i].is(Cue::equalled);
      if (!items_[i].is(Cue::compared) && !alike) continue;
      std::optional<Side> other;
      for (Index j = i + 1; j < items_.size() && j < i + 7; ++j) {
        if (!items_[j].is(ConceptKind::side)) continue;
        const SideWord word = *items_[j].meaning->side;
        if (const auto side = side_of(word)) {
          other = side;
        } else if (word == SideWord::other) {
          other = Side::unstated;
        }
        break;
      }
      if (!other) continue;
      bool more = false;
      for (Index j = 0; j < items_.size(); ++j)
        more = more || items_[j].is(Cue::comparing) ||
               (items_[j].is(ConceptKind::finding) && document_.text(items_[j].first).ends_with("er"));
      const std::size_t count = topic_.said->size();
      for (std::size_t s = before; s < count; ++s) {
        Statement copy = (*topic_.said)[s];
        if (!is_paired(copy.region) || copy.component == Component::gait) continue;
        const Side side = *other == Side::unstated ? opposite(copy.side) : *other;
        if (side != Side::left && side != Side::right) continue;
        if (copy.side == Side::both || copy.side == side) continue;
        copy.side = side;
        // The words imply that the other side is sound, or only that it was looked at.
        if (more) {
          copy.outcome = Outcome::stated;
        } else if (!alike) {
          copy.outcome = copy.outcome == Outcome::abnormal ? Outcome::normal : copy.outcome;
        }
        copy.judged = false;
        copy.evidence.push_back(span(i, i + 1));
        topic_.said->push_back(std::move(copy));
      }
      return;
    }
  }

  // "same on the left", "findings are consistent bilaterally": every finding of the region holds for the other side.
  void mirror(std::size_t before) {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::same)) continue;
      std::optional<Side> side;
      for (Index j = 0; j < items_.size(); ++j) {
        if (!items_[j].is(ConceptKind::side)) continue;
        if (const auto named = side_of(*items_[j].meaning->side)) {
          side = named;
        } else if (*items_[j].meaning->side == SideWord::other) {
          side = opposite(topic_.side);
        }
      }
      if (!side) continue;
      const std::size_t told = topic_.said->size();
      std::vector<Region> regions;
      if (!parts_.groups.empty() && !parts_.groups.front().elsewhere) {
        for (const auto& group : parts_.groups) {
          for (const auto& member : group.members) regions.push_back(member.place.region);
        }
      } else if (label_in_force()) {
        for (const PlaceRef& ref : topic_.scope->places) regions.push_back(ref.region);
      } else if (!topic_.places.empty()) {
        for (const PlaceRef& ref : topic_.places) regions.push_back(ref.region);
      } else if (before > 0) {
        regions.push_back((*topic_.said)[before - 1].region);
      }
      for (std::size_t s = 0; s < told; ++s) {
        const Statement& original = (*topic_.said)[s];
        if (std::ranges::find(regions, original.region) == regions.end() || !is_paired(original.region)) continue;
        if (original.side == *side || original.side == Side::both) continue;
        Statement copy = original;
        copy.side = *side;
        copy.judged = false;
        copy.sentence = sentence_;
        copy.evidence.push_back(span(i, i + 1));
        topic_.said->push_back(std::move(copy));
      }
      return;
    }
  }

  // "No tenderness except over the medial joint line": the place behind "except" has the opposite outcome.
  void exceptions_at_places(std::size_t before) {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::except)) continue;
      const bool unit_after = std::ranges::any_of(parts_.units, [&](const Unit& u) { return u.first > i; });
      if (unit_after) return;
      const std::size_t count = topic_.said->size();
      if (count == before) return;
      const Statement last = (*topic_.said)[count - 1];
      for (Index g = 0; g < parts_.groups.size(); ++g) {
        if (parts_.groups[g].first <= i || parts_.groups[g].elsewhere) continue;
        std::vector<Target> targets;
        targets_of_group(g, PlaceSource::named, targets);
        for (const Target& target : targets) {
          Statement copy = last;
          copy.region = target.place.region;
          copy.side = target.place.side;
          copy.outcome = last.outcome == Outcome::normal ? Outcome::abnormal : Outcome::normal;
          copy.evidence.push_back(target.words);
          copy.place_source = PlaceSource::named;
          copy.side_source = target.side_source;
          topic_.said->push_back(std::move(copy));
        }
      }
      return;
    }
  }

  // ---- the topic moves on ----------------------------------------------------------------------------------------

  void move_on() {
    const PlaceGroup* chosen = nullptr;
    for (const PlaceGroup& group : parts_.groups) {
      if (group.elsewhere) {
        if (!group.at_before) {
          chosen = nullptr;
          const Item& named = items_[group.members.front().item];
          topic_.elsewhere = named.meaning == nullptr || named.meaning->id != "neck";
        }
        continue;
      }
      if (items_[group.members.front().item].is(ConceptKind::artery)) continue;
      // A place where something normal was found, named in passing, does not become the subject.
      if (group.at_before && passing(group)) continue;
      chosen = &group;
      topic_.elsewhere = false;
    }
    move_side();
    if (chosen != nullptr) {
      topic_.places.clear();
      topic_.place_words.clear();
      for (const auto& member : chosen->members) {
        SideSource source = SideSource::none;
        PlaceRef ref = settle_back(member.place);
        ref.side = is_paired(ref.region)
                       ? settle_side(ref, member.sided, member.plural, source, member.item, member.several)
                       : Side::midline;
        ref.region = level_for(ref.region, member.generic_part);
        if (ref.joints) continue;
        topic_.places.push_back(ref);
        topic_.place_words.push_back(document_.span(items_[member.item].first, items_[member.item].last));
      }
    }
  }

  bool passing(const PlaceGroup& group) const {
    if (group.compared) return true;
    bool normal = parts_.units.empty() && !examined(group);
    for (const Unit& unit : parts_.units) {
      if (unit.clause != group.clause || unit.last > group.first) continue;
      if (unit.outcome != Outcome::normal) return false;
      normal = true;
    }
    return normal && ((topic_.scope != nullptr && topic_.scope->is_system) || parts_.units.empty());
  }

  // "Examination of the right knee."
  bool examined(const PlaceGroup& group) const {
    for (Index j = 0; j < group.first; ++j) {
      const std::string_view text = document_.text(items_[j].first);
      if (text.size() >= 4 && (text.substr(1).starts_with("xam") || text.substr(1).starts_with("XAM") ||
                               text.substr(1).starts_with("nspection") || text.substr(1).starts_with("alpation")))
        return true;
    }
    return false;
  }

  void move_side() {
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (member.sided && is_paired(member.place.region)) {
          // Under a label with a side, another side mentioned in passing does not take over.
          if (topic_.scope != nullptr && topic_.scope->label && labelled_side()) continue;
          topic_.side = member.place.side;
        } else if (member.plural && is_paired(member.place.region)) {
          if (topic_.scope != nullptr && topic_.scope->label && labelled_side()) continue;
          topic_.side = Side::both;
        }
      }
    }
  }

  bool labelled_side() const {
    return std::ranges::any_of(topic_.scope->places,
                               [](const PlaceRef& ref) { return ref.side == Side::left || ref.side == Side::right; });
  }

  const Document& document_;
  const SentenceParts& parts_;
  const std::vector<Item>& items_;
  std::uint32_t sentence_;
  Topic& topic_;
};

}  // namespace

void place_units(const Document& document, const SentenceParts& parts, std::uint32_t sentence, Topic& topic) {
  Placer(document, parts, sentence, topic).run();
}

}  // namespace jointledger
