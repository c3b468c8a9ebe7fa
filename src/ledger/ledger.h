// The ledger of a note: what its text documents, each entry with the words that say so.
//
// Plain data. Values follow the codebook (fixtures/schema/ledger.schema.json is the same in JSON Schema).
// A Ledger owns nothing but its vectors; the string_views in it point into the Lexicon that read the note
// and live as long as that does.
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "ledger/remark.h"
#include "ledger/span.h"
#include "ledger/terms.h"

namespace jointledger {

/// What was measured of one motion, in degrees. A single figure ("flexion 120") has `from` empty.
/// `lacking` is set where the note counts down from full ("lacks 10 degrees of extension").
struct Degrees {
  std::optional<Motion> motion;  ///< nothing where the note gives a range without naming the motion ("0-140")
  Side side = Side::unstated;
  std::optional<int> from;
  int to = 0;
  bool lacking = false;
  Span evidence;
};

/// A grade as written: muscle power on the scale 0-5 ("4+/5"), or a reflex or pulse ("2+").
/// `tenths` is its value times ten, a plus or minus sign counting 3 ("4+" is 43, "5-" is 47).
struct Grade {
  Side side = Side::unstated;
  int tenths = 0;
  int scale = 5;  ///< the number after the slash; 5 for power, 4 for reflexes and pulses
  Span evidence;
};

struct Entry {
  Region region = Region::whole_body;
  Component component = Component::unspecified;
  Side side = Side::unstated;
  Outcome outcome = Outcome::stated;
  MotionSet motions;       ///< only for range_of_motion: those that the note names
  float certainty = 1.0F;  ///< calibrated share of such entries that are right, 0..1
  boost::container::small_vector<Degrees, 2> degrees;
  boost::container::small_vector<Grade, 2> grades;
  boost::container::small_vector<std::string_view, 2> structures;  ///< ids from lexicon/structures.tsv
  boost::container::small_vector<std::string_view, 2> tests;       ///< ids from lexicon/tests.tsv
  boost::container::small_vector<Span, 4> evidence;                ///< at least one, ascending, not overlapping
};

/// What the visit is about: a region and side that the history describes as the current problem.
struct Complaint {
  Region region = Region::whole_body;
  Side side = Side::unstated;
  Span evidence;
  bool injury = false;  ///< the history speaks of an injury, fall, accident or the like
};

struct Ledger {
  std::vector<Entry> entries;         ///< at most one per (region, component, side), ordered by those
  std::vector<Complaint> complaints;  ///< at most one per (region, side), in order of appearance

  // What the checks of the note against itself look at, in order of appearance.
  std::vector<Remark> remarks;
  std::vector<NamedPlace> named_in_exam;
  std::vector<NamedPlace> named_in_assessment;  ///< assessment, diagnosis and plan
  std::vector<JointState> joint_states;
  std::vector<SideSlip> side_slips;
  std::vector<Span> exam;  ///< the text of the exam, ascending; a heading's own words left out
};

}  // namespace jointledger
