// The parts of a sentence: places, and things said of them, with what the words judge.
//
// find_places() and find_units() work on the items of one sentence; placing.h then brings the two together. Their steps
// are declared in place_steps.h and unit_steps.h, in the order in which they run.
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/document.h"
#include "reading/items.h"

namespace jointledger {

/// An index into the items, clauses, groups or units of a sentence.
using Index = std::uint32_t;

/// Places named side by side ("shoulders, elbows and wrists").
struct PlaceGroup {
  struct Member {
    PlaceRef place;
    bool sided = false;  ///< a side is stated beside it
    bool plural = false;
    bool several = false;        ///< parts that one limb has several of
    bool generic_part = false;   ///< a part of the spine that names no level
    std::string_view structure;  ///< lexicon id, empty for a region
    Index item = 0;
  };
  boost::container::small_vector<Member, 4> members;
  Index first = 0;  ///< items [first, last), sides included
  Index last = 0;
  Index clause = 0;
  bool compared = false;   ///< named only to compare with: "than on the left knee"
  bool elsewhere = false;  ///< a place that is no joint
  bool at_before = false;  ///< a preposition leads to it: "over the knee"
  bool subject = false;    ///< something is said of it right after: "the knee is ..."
};

/// One thing said or asked of the exam.
struct Unit {
  enum class Kind : std::uint8_t { component, finding, motion, muscle, test, judgement, elsewhere };
  Kind kind = Kind::finding;
  Component component = Component::unspecified;
  const Concept* meaning = nullptr;  ///< nothing for a bare grade or judgement
  Index first = 0;                   ///< items [first, last)
  Index last = 0;
  Index clause = 0;
  std::optional<Outcome> outcome;
  bool judged = true;
  MotionSet motions;
  /// The value's own place or side, where several values share one subject ("4/5 on the right, 5/5 on the left").
  std::optional<Side> value_side;
  std::optional<Index> value_group;  ///< a PlaceGroup
  bool coordinated = false;          ///< joined to the unit before it in one list, under one denial or judgement
  bool after_rest = false;           ///< said of "the remainder": no place named before it counts
  boost::container::small_vector<Degrees, 2> degrees;
  boost::container::small_vector<Grade, 2> grades;
  boost::container::small_vector<Span, 4> words;  ///< evidence: the unit and what judges it
};

/// What a sentence is read in: headings in force.
struct Context {
  std::optional<Component> component;  ///< of a part heading
  SectionKind section = SectionKind::exam;
  std::optional<std::pair<Side, Side>> columns;  ///< of a table: "R L" in the line above
  bool sided = false;                            ///< a left or right side is in force
  bool leg = false;                              ///< a leg, ankle or foot is in force or complained of
  std::span<const PlaceRef> named;               ///< places of the last sentence that named several, in its order
};

/// What one step of find_units() leaves for a later one.
struct UnitNotes {
  /// Unlike values of a right and a left side, written as one figure: "4/4-".
  struct UnlikePair {
    Span words;
    Outcome right = Outcome::stated;
    Outcome left = Outcome::stated;
  };
  std::vector<Index> pains;                ///< items: words of pain that judge what stands before them
  std::vector<Index> turned_round;         ///< items: values under a denial
  std::vector<Index> denied;               ///< units: components under a denial that have no answer yet
  std::vector<std::uint8_t> value_before;  ///< by unit: a value that stands before it judges it
  std::vector<std::uint8_t> value_after;   ///< by unit: ... behind it
  std::vector<UnlikePair> unlike_pairs;
};

/// One sentence, from its items to its units. Reused from sentence to sentence, it stops allocating once warm.
struct SentenceParts {
  std::vector<Item> items;
  std::vector<Index> clause;  ///< by item
  std::vector<PlaceGroup> groups;
  std::vector<Unit> units;
  std::vector<std::uint8_t> consumed;  ///< by item: already part of a unit
  UnitNotes notes;                     ///< scratch of find_units()
};

/// Cuts the sentence of `parts.items` into clauses and finds its groups of places. Replaces `parts.clause` and
/// `parts.groups`.
void find_places(const Document& document, const Context& context, SentenceParts& parts);

/// Finds what is said, and judges it. Needs find_places() first. Replaces `parts.units` and `parts.consumed`.
void find_units(const Document& document, const Context& context, SentenceParts& parts);

}  // namespace jointledger
