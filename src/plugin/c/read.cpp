// From text, or a record, to a ledger.
#include <utility>
#include <variant>

#include "intake/note_text.h"
#include "plugin/c/engine.h"
#include "plugin/c/scratch.h"
#include "plugin/c/views.h"

namespace jointledger::plugin {
namespace {

static_assert(JOINTLEDGER_LONGEST_NOTE == kLongestRecord, "the command line and the library take the same notes");

/// Reads `text` into the scratch, which has been cleared.
int read_into(jointledger_engine& engine, jointledger_scratch& scratch, std::string_view text,
              const jointledger_ledger** ledger) {
  const auto data = engine.data();
  scratch.stopped = false;
  if (scratch.stop_asked()) return JOINTLEDGER_INTERRUPTED;
  scratch.ledger = read_note(*data->lexicon, text, scratch.reading);
  if (scratch.stopped) return JOINTLEDGER_INTERRUPTED;
  if (ledger != nullptr) {
    scratch.ledger_view = view_of(scratch.ledger, scratch.ledger_arena);
    *ledger = &scratch.ledger_view;
  }
  scratch.data = data;
  return JOINTLEDGER_OK;
}

/// A read forgets what was read before, and leaves nothing half read.
template <class Work>
int reading(jointledger_engine* engine, jointledger_scratch* scratch, const jointledger_ledger** ledger,
            const Work& work) {
  hand_out<const jointledger_ledger*>(ledger, nullptr);
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    s.clear();
    s.audit_arena.clear();
    s.ledger_arena.clear();
    if (engine == nullptr) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "no engine");
    const int code = guarded([&] { return work(s); });
    if (code != JOINTLEDGER_OK) s.clear();
    return code;
  });
}

std::string_view without_line_break(std::string_view line) {
  if (line.ends_with('\n')) line.remove_suffix(1);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

}  // namespace
}  // namespace jointledger::plugin

using namespace jointledger;
using namespace jointledger::plugin;

int jointledger_read(jointledger_engine* engine, jointledger_scratch* scratch, const char* text, size_t size,
                     const jointledger_ledger** ledger) noexcept {
  return reading(engine, scratch, ledger, [&](jointledger_scratch& s) -> int {
    if (text == nullptr) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "no text");
    if (size > JOINTLEDGER_LONGEST_NOTE) return fail(s, JOINTLEDGER_TOO_LONG, "the note is longer than 64 MiB");
    if (const auto fault = fault_in_text({text, size})) return fail(s, JOINTLEDGER_BAD_TEXT, fault->reason);
    return read_into(*engine, s, {text, size}, ledger);
  });
}

int jointledger_read_record(jointledger_engine* engine, jointledger_scratch* scratch, const char* line, size_t size,
                            const jointledger_ledger** ledger) noexcept {
  return reading(engine, scratch, ledger, [&](jointledger_scratch& s) -> int {
    if (line == nullptr) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "no record");
    if (size > JOINTLEDGER_LONGEST_NOTE) return fail(s, JOINTLEDGER_TOO_LONG, "the record is longer than 64 MiB");
    const std::string_view bytes = without_line_break({line, size});
    // What travels through would break the line that comes out.
    if (bytes.find('\n') != std::string_view::npos) {
      return fail(s, JOINTLEDGER_BAD_RECORD, "a line break inside the record");
    }
    s.record.place = {.line = 1, .offset = 0};
    s.record.bytes.reserve(bytes.size() + kRecordPadding);
    s.record.bytes.assign(bytes);
    s.decoder->open(s.record);
    const Incoming incoming = s.decoder->next();
    if (const auto* fault = std::get_if<RecordFault>(&incoming)) {
      return fail(s, JOINTLEDGER_BAD_RECORD, fault->reason);
    }
    if (std::holds_alternative<EndOfNotes>(incoming)) return fail(s, JOINTLEDGER_BAD_RECORD, "the record is empty");
    s.note = std::get<Note>(incoming);
    return read_into(*engine, s, s.note->text, ledger);
  });
}

int jointledger_scratch_text(jointledger_scratch* scratch, const char** text, size_t* size) noexcept {
  hand_out<const char*>(text, nullptr);
  hand_out<size_t>(size, 0);
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    if (!s.note) return fail(s, JOINTLEDGER_NOT_READ, "no record has been read");
    hand_out(text, s.note->text.data());
    hand_out(size, s.note->text.size());
    return JOINTLEDGER_OK;
  });
}
