#include "report/omop_report.h"

#include <limits>

#include "report/csv_row.h"
#include "report/note_facts.h"
#include "report/passage.h"
#include "report/term_modifiers.h"
#include "report/version.h"

namespace jointledger {
namespace {

constexpr std::size_t kLongestPassage = 250;
constexpr std::uint64_t kRowsOfNote = 10'000;
static_assert(kRegionCount * kComponentCount * kSideCount + kRegionCount * kSideCount < kRowsOfNote);
constexpr std::uint64_t kLargestId = std::numeric_limits<std::int64_t>::max() / kRowsOfNote - 1;
constexpr int kNoMatchingConcept = 0;

/// What the rows of a note have in common, and how many there are.
struct NoteRows {
  const ReportRun& run;
  std::uint64_t note_id;
  CharacterIndex characters;
  std::uint64_t count = 0;
};

std::string_view words(std::string_view text, Span span) { return text.substr(span.start, span.end - span.start); }

void term_row(std::span<const Span> evidence, bool exists, std::string_view modifiers, NoteRows& note,
              std::string& out) {
  const Span passage = passage_of(note.characters, evidence, kLongestPassage);
  const std::string_view text = note.characters.text();
  CsvRow row(out);
  row.number(note.note_id * kRowsOfNote + ++note.count);
  row.number(note.note_id);
  row.nothing();
  row.text(words(text, surroundings_of(note.characters, passage, kLongestPassage)));
  row.number(note.characters.before(passage.start));
  row.text(words(text, passage));
  row.number(kNoMatchingConcept);
  row.number(kNoMatchingConcept);
  row.text(kSystem);
  row.name(note.run.date);
  row.nothing();
  row.name(exists ? "Y" : "N");
  row.name("present");
  row.text(modifiers);
  row.end();
}

}  // namespace

void open_omop(const ReportRun&, std::string& out) {
  CsvRow row(out);
  for (const std::string_view column : kNoteNlpColumns) row.name(column);
  row.end();
}

void add_omop(const ReportRun& run, const ReportItem& item, std::string& out) {
  const auto id = number_id_of(item.note);
  if (!id || *id > kLargestId) return;
  NoteRows note{.run = run, .note_id = *id, .characters = CharacterIndex(item.note.text)};
  for (const Entry& e : item.ledger.entries) {
    term_row({e.evidence.data(), e.evidence.size()}, e.outcome != Outcome::not_done, modifiers_of(e, note.characters),
             note, out);
  }
  for (const Complaint& c : item.ledger.complaints) {
    term_row({&c.evidence, 1}, true, modifiers_of(c, note.characters), note, out);
  }
}

void close_omop(const ReportRun&, const ReportTally&, std::string&) {}

std::string_view refusal_of_omop(const Note& note) {
  const auto id = number_id_of(note);
  if (!id) return "its id is not a whole number, as NOTE_NLP.note_id must be";
  return *id > kLargestId ? "its id is too large to number rows of NOTE_NLP by" : "";
}

}  // namespace jointledger
