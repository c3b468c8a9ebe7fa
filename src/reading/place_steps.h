// The steps of find_places(): a scan that meets clauses, sides and places in the order of the sentence, then passes
// over the groups it leaves.
//
// Private to places.cpp and the files named here.
#pragma once

#include <optional>

#include "reading/clause.h"
#include "reading/talk.h"

namespace jointledger {

/// Where the scan of a sentence stands.
struct PlaceScan {
  const Document& document;
  const Context& context;
  SentenceParts& parts;
  const std::vector<Item>& items;  ///< those of `parts`
  Talk talk;
  bool only_exam = false;  ///< the sentence names nothing but the exam: "Musculoskeletal exam is normal"

  Index clause = 0;
  bool said = false;           ///< something was said in this clause
  bool at = false;             ///< a preposition stands before, with nothing solid since
  std::optional<Side> side;    ///< stated, and waits for its place
  bool side_letter = false;    ///< ... by a single capital
  std::optional<Index> start;  ///< where the words of the next group begin, if a side does
};

/// The item at `i` or behind it that is neither filler, side, bracket nor "proximally"; one past the last if there is
/// none.
Index next_solid(const std::vector<Item>& items, Index i);

// place_words.cpp

/// Whether item `i` is a place in this sentence.
bool is_place(const PlaceScan& scan, Index i);

/// The place that item `i` names, with the side that its own words give it.
PlaceGroup::Member name_place(const PlaceScan& scan, Index i);

// place_sides.cpp

/// Gives a place the side that stands before or right behind it. Returns one past the last item of the place, its side
/// included.
Index take_side(PlaceScan& scan, PlaceGroup::Member& member);

// place_groups.cpp

/// A place with what stands around it.
struct FoundPlace {
  PlaceGroup::Member member;
  Index last = 0;  ///< one past its last item
  bool elsewhere = false;
  bool paired = false;  ///< its region has two sides
};

/// Adds a place to the groups: to the last one if they are joined, else to a new one, which may open a clause.
void add_place(PlaceScan& scan, FoundPlace place);

// place_cleaning.cpp

/// Whether item `i` says where from a landmark: "just above", "inferior to".
bool is_relation(const PlaceScan& scan, Index i);

/// Marks and takes out the groups that name no place to say something of, and joins those that make one stretch of a
/// limb.
void clean_groups(const PlaceScan& scan);

}  // namespace jointledger
