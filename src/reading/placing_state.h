// The working state of one sentence while its units are placed, and what the steps of place_units() ask of it.
//
// Private to those steps; placing.h is the door.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "reading/clause.h"
#include "reading/topic.h"

namespace jointledger {

/// Everything the steps of place_units() work on. `items` are those of `parts`.
struct PlacingState {
  const Document& document;
  const SentenceParts& parts;
  const std::vector<Item>& items;
  std::uint32_t sentence;
  Topic& topic;
};

/// A place that a unit is said of.
struct Target {
  PlaceRef place;
  PlaceSource source = PlaceSource::none;
  SideSource side_source = SideSource::none;
  std::string_view structure;
  Span words;  ///< empty if the place has no words of its own here
};
using Targets = std::vector<Target>;

/// Whether a label names the places in force: "Right knee:".
inline bool label_in_force(const PlacingState& p) {
  return p.topic.scope != nullptr && p.topic.scope->label && !p.topic.scope->places.empty();
}

/// Whether the heading of a system does: "Extremities:".
inline bool system_in_force(const PlacingState& p) {
  return p.topic.scope != nullptr && !p.topic.scope->label && !p.topic.scope->places.empty();
}

/// What the heading in force lets count.
inline Admits admits_in_force(const PlacingState& p) {
  return p.topic.scope != nullptr ? p.topic.scope->admits : Admits::all;
}

/// Whether the unit is a phrase of the kind, and not a bare judgement.
inline bool is_phrase(const Unit& unit, ConceptKind kind) {
  return unit.meaning != nullptr && unit.meaning->kind == kind;
}

/// The region that the unit's phrase has of its own; nothing if it has none.
inline std::optional<Region> usual_region(const Unit& unit) {
  return unit.meaning != nullptr ? unit.meaning->region : std::nullopt;
}

/// A judgement of no component: "Left hip: normal".
inline bool is_blanket(const Unit& unit) {
  return unit.kind == Unit::Kind::judgement && unit.component == Component::unspecified;
}

/// Whether the unit's phrase counts under headings of other systems, too: edema.
inline bool counts_anywhere(const Unit& unit) {
  return unit.meaning != nullptr && unit.meaning->admit == Admit::anywhere;
}

/// The last word of the unit.
inline std::string_view last_word(const PlacingState& p, const Unit& unit) {
  return p.document.text(p.items[unit.last - 1].last - 1);
}

}  // namespace jointledger
