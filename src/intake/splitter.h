// Cutting an input into records, the first half of reading a format. Cheap, and in order: one thread can keep many
// decoders busy. How records are told apart (by line, by file) is shared by formats, so it has files of its own.
#pragma once

#include <variant>

#include "intake/record.h"

namespace jointledger {

struct EndOfInput {};
struct RecordReady {};
using Split = std::variant<EndOfInput, RecordReady, RecordFault>;

/// Not thread-safe. Holds a bounded amount of memory, whatever comes in.
class Splitter {
 public:
  Splitter() = default;
  Splitter(const Splitter&) = delete;
  Splitter& operator=(const Splitter&) = delete;
  virtual ~Splitter() = default;

  /// Puts the next record into `record`; or names one that had to be passed over (too long, unreadable), after which
  /// there may be more; or ends. `record.input` is the caller's to set, and kept.
  virtual Split next(Record& record) = 0;
};

}  // namespace jointledger
