// Making notes of records, the second half of reading a format.
#pragma once

#include <variant>

#include "intake/note.h"
#include "intake/record.h"

namespace jointledger {

struct EndOfNotes {};
using Incoming = std::variant<EndOfNotes, Note, RecordFault>;

/// One for each thread: it holds the working memory. Records are independent of each other, so any decoder of a format
/// may be given any record of it, in any order.
class Decoder {
 public:
  Decoder() = default;
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;
  virtual ~Decoder() = default;

  /// Begins a record, which must stay as it is until its last note has been used.
  virtual void open(const Record& record) = 0;

  /// The next note of the record, or a fault, or the end. A record may hold no note (an empty line) or several.
  virtual Incoming next() = 0;
};

}  // namespace jointledger
