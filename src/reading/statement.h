// What one sentence says of one part of the exam in one place: the step between words and the ledger.
#pragma once

#include <boost/container/small_vector.hpp>
#include <cstdint>
#include <string_view>
#include <vector>

#include "ledger/ledger.h"

namespace jointledger {

/// How a statement's region was found, from the surest to the least sure.
enum class PlaceSource : std::uint8_t {
  own,       ///< the phrase itself says it ("grip", "Phalen", "pedal edema")
  named,     ///< named in the same clause
  sentence,  ///< named elsewhere in the sentence
  label,     ///< a label in force ("Right knee:")
  heading,   ///< a system heading in force (Extremities)
  topic,     ///< the sentence before
  none,      ///< named nowhere: the component's usual place
};

/// How its side was found.
enum class SideSource : std::uint8_t { named, plural, fixed, carried, none };

struct Statement {
  Region region = Region::whole_body;
  Component component = Component::unspecified;
  Side side = Side::unstated;
  Outcome outcome = Outcome::stated;
  MotionSet motions;
  PlaceSource place_source = PlaceSource::none;
  SideSource side_source = SideSource::none;
  bool judged = true;  ///< the words judge; false where a result had to be inferred
  boost::container::small_vector<Degrees, 2> degrees;
  boost::container::small_vector<Grade, 2> grades;
  boost::container::small_vector<std::string_view, 2> structures;
  boost::container::small_vector<std::string_view, 2> tests;
  boost::container::small_vector<Span, 4> evidence;
  std::uint32_t sentence = 0;  ///< counts the sentences of the note
  bool change = false;  ///< said with a word of change ("improved", "later"): no contradiction with an earlier one
  /// "Same on the left" has said it of the other side, or made it of the other side's. Said again, it adds nothing:
  /// copies of copies would double with each time.
  bool mirrored = false;
};

}  // namespace jointledger
