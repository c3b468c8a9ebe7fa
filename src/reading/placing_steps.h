// The steps of place_units(). For each unit: which group of places it belongs to, the places that gives it, their
// sides, the statement. For the sentence: what it says by comparing, and where it leaves the topic.
//
// Private to placing.cpp and the files named here. None of them but those of comparing.cpp, saying.cpp and
// moving_on.cpp changes anything but its last parameter.
#pragma once

#include "reading/placing_state.h"

namespace jointledger {

// locus.cpp

/// The group of places that a unit belongs to, if one is named in its sentence.
struct Locus {
  std::optional<Index> group;
  PlaceSource source = PlaceSource::named;  ///< named or sentence
};

/// Finds that group. No group: nothing in the sentence ties the unit to a place.
Locus locus_of(const PlacingState& p, const Unit& unit);

// targets.cpp

/// Adds the places of a group.
void add_group(const PlacingState& p, Index group, PlaceSource source, Targets& targets);

/// Adds the places of the heading in force, which there must be.
void add_scope(const PlacingState& p, PlaceSource source, Targets& targets);

/// Adds the places of the sentences before.
void add_topic(const PlacingState& p, Targets& targets);

/// Adds the place of a graded muscle, which stands in a group of its own sentence.
void add_muscle(const PlacingState& p, const Unit& unit, Targets& targets);

/// "Back" as the lumbar spine where that is what the visit is about; any other place as it is.
PlaceRef settle_back(const PlacingState& p, PlaceRef place);

/// The level of the spine that a part which names none (`generic`) belongs to: the one that the sentence, the heading
/// or the topic names. Any other region as it is.
Region level_for(const PlacingState& p, Region region, bool generic);

// sides.cpp

/// How a place is named, as far as it bears on its side.
struct SideClues {
  bool sided = false;  ///< its side is stated beside it
  bool plural = false;
  bool several = false;  ///< parts that one limb has several of
  Index item = 0;        ///< where it is named; 0 if it is not named in the sentence
};
struct SettledSide {
  Side side = Side::unstated;
  SideSource source = SideSource::none;
};

/// The side a place has once headings and the text before it are considered.
SettledSide settle_side(const PlacingState& p, const PlaceRef& place, const SideClues& clues);

// floating_sides.cpp

/// The side in the unit's clause that stands beside no place: "positive on the left"; nothing if there is none.
std::optional<Side> floating_side(const PlacingState& p, const Unit& unit);

/// Whether the unit's clause judges by comparing both sides: "symmetric", "equal".
bool is_symmetric(const PlacingState& p, const Unit& unit);

/// Whether the unit has a figure with right and left values: "4/4-".
bool has_pair_figure(const Unit& unit);

/// Gives the targets the side that the unit's own words name.
void finish_sides(const PlacingState& p, const Unit& unit, Targets& targets);

// own_places.cpp

/// Whether the unit's phrase has a place of its own that it keeps, or only exchanges for one like it: "grip", "pedal
/// edema", "Phalen".
bool has_own_place(const Unit& unit);

/// That place. `named`: the places that the sentence names for the unit.
Target own_place(const PlacingState& p, const Unit& unit, const Targets& named);

// admitting.cpp

/// Whether the heading in force lets a unit count whose place was found like this.
bool admits(const PlacingState& p, const Unit& unit, PlaceSource source);

/// The same for a unit with a place of its own.
bool admits_own(const PlacingState& p, const Unit& unit);

/// Whether the neck is named, in force, or in the heading: what is said of "the neck" as an organ counts only then.
bool neck_in_force(const PlacingState& p);

// defaults.cpp

/// Adds the places of a unit for which the sentence names none: those in force, or the usual one. Returns whether the
/// unit is of a joint at all.
bool find_default(const PlacingState& p, const Unit& unit, Targets& targets);

// saying.cpp

/// Appends the statement that the unit makes of the target to those of the note.
void say(PlacingState& p, const Unit& unit, const Target& target);

// comparing.cpp

/// Appends what the statements from index `from` on say of the other side: "greater on the right than on the left".
void compare_sides(PlacingState& p, std::size_t from);

/// Appends all that was said of a region for its other side: "same on the left". `from`: the sentence's first
/// statement.
void mirror_sides(PlacingState& p, std::size_t from);

/// Appends the opposite of what was said last for a place of which the sentence says only "is not": "the right knee is
/// swollen, the left knee is not". `from`: the sentence's first statement.
void deny_places(PlacingState& p, std::size_t from);

/// Appends the opposite of the last statement for the places behind "except": "no tenderness except over the joint
/// line".
void except_places(PlacingState& p, std::size_t from);

// moving_on.cpp

/// Leaves in the topic what the sentence was about.
void move_on(PlacingState& p);

}  // namespace jointledger
