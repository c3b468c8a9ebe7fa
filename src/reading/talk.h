// What a sentence talks about as a whole, which decides what some of its words mean: "radial" is an artery beside
// pulses and a nerve beside sensation; "biceps" is a reflex, a power or a place.
#pragma once

#include <vector>

#include "reading/clause.h"

namespace jointledger {

/// The parts of the exam that a sentence talks about.
struct Talk {
  bool strength = false;
  bool reflexes = false;
  bool sensation = false;
  bool motion = false;
  bool perfusion = false;
};

/// What `items` talk about, for the question whether a word is a place. A part heading in force (`context`) counts, and
/// so do arteries that are felt or graded.
Talk talk_for_places(const Context& context, const std::vector<Item>& items);

/// What `items` talk about, for the question whether a muscle or motion is graded. Stricter: a part heading counts only
/// for strength, reflexes and motion.
Talk talk_for_units(const Context& context, const std::vector<Item>& items);

}  // namespace jointledger
