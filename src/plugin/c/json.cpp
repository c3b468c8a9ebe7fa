// Ledgers and audits as the line that the command line writes.
#include "plugin/c/scratch.h"
#include "report/json_report.h"
#include "text/utf8.h"

namespace jointledger::plugin {
namespace {

/// The name that the command line has for what it reads from the standard input.
constexpr std::string_view kUnnamed = "-";

/// The note as the report is to call it. A code where `id` cannot be.
int name_note(jointledger_scratch& scratch, const char* id, std::size_t size, Note& note) {
  if (scratch.note) note = *scratch.note;
  if (id == nullptr) {
    if (!scratch.note) note.id = kUnnamed;
    return JOINTLEDGER_OK;
  }
  if (size == 0) return fail(scratch, JOINTLEDGER_BAD_ARGUMENT, "the id is empty");
  if (size > JOINTLEDGER_LONGEST_NOTE) return fail(scratch, JOINTLEDGER_TOO_LONG, "the id is longer than 64 MiB");
  note.id = {id, size};
  note.id_is_number = false;
  if (first_invalid_utf8(note.id)) return fail(scratch, JOINTLEDGER_BAD_TEXT, "the id is not UTF-8");
  if (note.id.find('\0') != std::string_view::npos) {
    return fail(scratch, JOINTLEDGER_BAD_TEXT, "the id has a NUL byte");
  }
  return JOINTLEDGER_OK;
}

int write(jointledger_scratch* scratch, const char* id, std::size_t id_size, bool audited, const char** json,
          std::size_t* size) noexcept {
  hand_out<const char*>(json, nullptr);
  hand_out<std::size_t>(size, 0);
  return with_scratch(scratch, [&](jointledger_scratch& s) -> int {
    s.json.clear();
    if (id == nullptr && id_size > 0) return fail(s, JOINTLEDGER_BAD_ARGUMENT, "an id without a pointer to it");
    if (!s.data) return fail(s, JOINTLEDGER_NOT_READ, "nothing has been read with this scratch");
    if (audited && !s.audit) return fail(s, JOINTLEDGER_NOT_READ, "the ledger has not been audited");
    Note note;
    if (const int code = name_note(s, id, id_size, note); code != JOINTLEDGER_OK) return code;
    const ReportRun run{.profile = audited ? s.audit->profile : nullptr};
    add_ndjson(run, {note, s.ledger, audited ? &*s.audit : nullptr}, s.json);
    s.json.pop_back();  // the line break
    hand_out<const char*>(json, s.json.c_str());
    hand_out(size, s.json.size());
    return JOINTLEDGER_OK;
  });
}

}  // namespace
}  // namespace jointledger::plugin

int jointledger_ledger_json(jointledger_scratch* scratch, const char* id, size_t id_size, const char** json,
                            size_t* size) noexcept {
  return jointledger::plugin::write(scratch, id, id_size, false, json, size);
}

int jointledger_audit_json(jointledger_scratch* scratch, const char* id, size_t id_size, const char** json,
                           size_t* size) noexcept {
  return jointledger::plugin::write(scratch, id, id_size, true, json, size);
}
