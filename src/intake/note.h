// A note as it comes in: what every format is turned into.
//
// Plain views, no copies. All of them point into the Decoder that made the note and into the Record it was made
// from; they hold until either is used again.
#pragma once

#include <span>
#include <string_view>

namespace jointledger {

/// One more thing that the source knew of a note (author, date, setting ...), carried through to the output.
struct Member {
  std::string_view key;   ///< UTF-8, without quotes or escapes; no two members of a note have the same
  std::string_view json;  ///< its value as it came in: one valid JSON value, UTF-8, on one line
};

struct Note {
  std::string_view id;        ///< UTF-8, not empty; of a text file its path, "-" for the standard input
  bool id_is_number = false;  ///< the id came as a JSON number, and is written as one
  std::string_view text;      ///< valid UTF-8 without NUL, more than white space, shorter than 4 GiB
  std::span<const Member> metadata;
};

}  // namespace jointledger
