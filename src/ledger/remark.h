// What the checks of a note against itself need beyond its entries: remarks before they merge, places named with a
// side, joints said to be gone or fixed, sides that slip.
//
// Plain data; the string_views point into the Lexicon that read the note.
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <string_view>

#include "ledger/span.h"
#include "ledger/terms.h"

namespace jointledger {

/// A remark that can be held against another: judged outright, of one place whose side is known, without a word of
/// change, comparison or exception beside it. Two of them clash only if they speak of the same thing.
struct Remark {
  Region region = Region::whole_body;
  Component component = Component::unspecified;
  Side side = Side::unstated;
  Outcome outcome = Outcome::normal;  ///< normal or abnormal
  MotionSet motions;                  ///< of range_of_motion and strength; empty: of motion as a whole
  /// What is spoken of: ids of findings (lexicon/remark_words.tsv) and named tests, sorted.
  boost::container::small_vector<std::string_view, 2> subjects;
  /// What it is narrowed to: ids and words of structures and directions ("medial", "passive"), sorted.
  boost::container::small_vector<std::string_view, 2> narrowed;
  boost::container::small_vector<Span, 4> evidence;  ///< ascending
  std::uint32_t sentence = 0;
  std::uint32_t exam = 0;  ///< counts the exams of the note: text of another kind or an exam heading parts them
};

/// A place that the text names with a side.
struct NamedPlace {
  Region region = Region::whole_body;  ///< whole_body where a side stands by itself
  Side side = Side::unstated;          ///< unstated: the place is named without a side
  Span words;
};

/// A joint that is said to be no longer there, or not to move.
struct JointState {
  enum class Kind : std::uint8_t {
    absent,  ///< amputated: the region and all beyond it
    fused,
  };
  Kind kind = Kind::absent;
  Region region = Region::foot;
  Side side = Side::unstated;
  Span words;
};

/// The other side named under a heading with a side, for the same region: "left knee" under "RIGHT KNEE".
struct SideSlip {
  Region region = Region::knee;
  Side heading_side = Side::right;
  Span heading;
  Span words;
};

}  // namespace jointledger
