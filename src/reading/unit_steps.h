// The steps of find_units(), in the order in which they run. Each works on the units that the steps before it left.
//
// Private to units.cpp and the files named here.
#pragma once

#include <boost/container/small_vector.hpp>

#include "reading/sentence_state.h"

namespace jointledger {

// collecting.cpp

/// Adds a unit for every part of the exam, finding, motion, muscle and test that the sentence names.
void collect_units(SentenceState& s);

// blanks.cpp

/// Takes out the units that a template asks for and nobody filled in.
void strike_blanks(SentenceState& s);

// pains.cpp

/// Makes a finding of each pain and what brings it on ("pain with flexion"), and takes the units in between into it. A
/// pain that nothing brings on goes to `notes.pains`.
void find_pains(SentenceState& s);

// denials.cpp

/// Answers the findings, denied or met with, and notes which values and components stand under a denial.
void apply_denials(SentenceState& s);

// judging.cpp

/// Gives the values to the components, motions, muscles and tests that they judge.
void judge_units(SentenceState& s);

// splitting.cpp

/// A value and the unit it judges.
struct GivenValue {
  Index unit;
  Index item;
};
using GivenValues = boost::container::small_vector<GivenValue, 8>;

/// Answers the units by the values `given` to them. A unit whose values have sides or places of their own ("4/5 on the
/// right, 5/5 on the left") becomes one unit each; the new ones are added behind all others.
void answer_units(SentenceState& s, const GivenValues& given);

/// Makes two units of each that has unlike values for right and left in one figure ("4/4-").
void split_unlike_pairs(SentenceState& s);

// sharing.cpp

/// Lets answers reach along lists: "motor and sensory are intact", "normal strength, tone and bulk".
void share_answers(SentenceState& s);

// signs.cpp

/// Whether the unit is a sign that is elicited rather than met with: Babinski, Romberg, clonus.
bool is_sign(const Unit& unit);

/// Makes one remark of a sign and its result: "Babinski downgoing", "Romberg and heel-to-shin are normal".
void answer_signs(SentenceState& s);

// wounds.cpp

/// Answers incisions and wounds: one that is healed, clean or free of infection is as it should be.
void answer_wounds(SentenceState& s);

// exceptions.cpp

/// Gives what follows "except" the opposite outcome: "full except for external rotation".
void turn_exceptions(SentenceState& s);

/// Takes the result from findings in doubt: "questionable fasciculations", "Babinski equivocal".
void apply_doubts(SentenceState& s);

/// Marks what was put off: "range of motion deferred". Adds a unit if nothing in the clause can be it.
void apply_deferrals(SentenceState& s);

/// Marks what is said of the rest: "otherwise 5/5", "the remainder of the exam is normal".
void mark_remainders(SentenceState& s);

// bare_values.cpp

/// Adds a unit for each value that no unit took, where value and heading tell what it judges.
void take_bare_values(SentenceState& s);

}  // namespace jointledger
