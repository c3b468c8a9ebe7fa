// Everything that comes out of an input, with copies of what notes borrow.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "intake/note_source.h"
#include "streams.h"

namespace jointledger::testing {

struct Kept {
  std::string id;
  bool id_is_number = false;
  std::string text;
  std::vector<std::pair<std::string, std::string>> metadata;

  /// The JSON under that key; empty where there is none.
  std::string operator[](std::string_view key) const {
    for (const auto& [k, json] : metadata) {
      if (k == key) return json;
    }
    return {};
  }
};

struct Taken {
  std::vector<Kept> notes;
  std::vector<RecordFault> faults;
};

inline Taken take(NoteSource source) {
  Taken taken;
  while (true) {
    const Incoming incoming = source.next();
    if (std::holds_alternative<EndOfNotes>(incoming)) return taken;
    if (const auto* fault = std::get_if<RecordFault>(&incoming)) {
      taken.faults.push_back(*fault);
      continue;
    }
    const Note& note = std::get<Note>(incoming);
    Kept kept{std::string(note.id), note.id_is_number, std::string(note.text), {}};
    for (const Member& m : note.metadata) kept.metadata.emplace_back(m.key, m.json);
    taken.notes.push_back(std::move(kept));
  }
}

/// The same of bytes in a format, which come in pieces of seven.
inline Taken take_as(std::string_view format, std::string bytes, std::string name = "in",
                     const IntakeOptions& options = {}) {
  return take(NoteSource(std::move(name), *format_named(format), stream_of(std::move(bytes)), options));
}

}  // namespace jointledger::testing
