// The words in which a gap is put to a person.
//
// A prompt asks, with blanks to fill in; it never states a finding, nor offers one to tick.
#pragma once

#include <string>
#include <string_view>

#include "audit/audit.h"

namespace jointledger {

/// The line that would close the gap, e.g. "Left shoulder motion: flexion ___, abduction ___, or why not tested".
/// Reads all of the gap but its `prompt`.
std::string prompt_for(const Gap& gap);

/// "left shoulder", "both knees", "neck"; a paired region without a side is the bare word. No capital.
std::string place(Region region, Side side);

/// In plain words: "range of motion", "internal rotation". Static storage.
std::string_view phrase(Component value);
std::string_view phrase(Motion value);

}  // namespace jointledger
