// The notes of one input, one after the other: a splitter and a decoder joined, for a single thread.
#pragma once

#include <memory>
#include <string>

#include "intake/decoder.h"
#include "intake/format.h"

namespace jointledger {

/// Not thread-safe. Memory: one record at a time, whatever the length of the input.
class NoteSource {
 public:
  /// `input` is a path, or "-" for the standard input. An input that cannot be opened is its only fault.
  NoteSource(std::string input, const Format& format, const IntakeOptions& options = {});
  /// The same of bytes that are already open; `input` is what to call them.
  NoteSource(std::string input, const Format& format, std::unique_ptr<ByteStream> bytes,
             const IntakeOptions& options = {});

  /// The next note, which holds until the next call; or a fault, after which the rest is still read; or the end.
  Incoming next();

 private:
  Record record_;
  std::unique_ptr<Splitter> splitter_;  // null once the input could not be opened
  std::unique_ptr<Decoder> decoder_;
  std::string unopened_;  // why the input could not be opened
  bool in_record_ = false;
};

}  // namespace jointledger
