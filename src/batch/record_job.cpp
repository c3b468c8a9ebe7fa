#include "batch/record_job.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace jointledger {
namespace {

/// A longer record is rare, and must not keep its memory: there are many jobs in a line.
constexpr std::size_t kKept = std::size_t{64} << 10;

/// What the source says of a note under that key, as raw JSON; empty where it says nothing.
std::string_view member_of(const Note& note, std::string_view key) {
  const auto at = std::ranges::find(note.metadata, key, &Member::key);
  if (at == note.metadata.end() || at->json == "null" || at->json == "\"\"") return {};
  return at->json;
}

void format_note(const Note& note, const BatchWork& work, Answer& answer, RecordJob& job) {
  const ReportItem item{note, answer.ledger, work.report.profile == nullptr ? nullptr : &answer.audit};
  answer.start = job.out.size();
  work.to.add(work.report, item, job.out);
  answer.end = job.out.size();
  count(item, job.tally);
}

/// Why the format of the output cannot hold the note, if it cannot.
std::optional<RecordFault> refusal_of(const Note& note, const BatchWork& work, const Record& record) {
  const std::string_view reason = work.to.refusal == nullptr ? std::string_view() : work.to.refusal(note);
  if (reason.empty()) return std::nullopt;
  return RecordFault{name_of(record, note.id), record.place, std::string(reason)};
}

Answer answer_to(const Note& note, const BatchWork& work, RecordJob& job, ReadingScratch& scratch) {
  Answer answer;
  answer.ledger = read_note(work.lexicon, note.text, scratch);
  if (const Profile* profile = work.report.profile) {
    if (!profile->checks_off.contains(Check::copied_exam)) {
      answer.id = note.id;
      answer.author = member_of(note, "author");
      answer.patient = member_of(note, "patient");
      answer.print = print_of(note.text, answer.ledger.exam);
    }
    if (!job.again) answer.audit = audit(*profile, answer.ledger, work.lexicon.motion_limits(), work.least_certainty);
  }
  if (!job.again) format_note(note, work, answer, job);
  return answer;
}

/// All notes and faults of the record.
void decode_all(RecordJob& job, const BatchWork& work, ReadingScratch& scratch) {
  job.decoder->open(job.record);
  while (true) {
    Incoming incoming = job.decoder->next();
    if (std::holds_alternative<EndOfNotes>(incoming)) return;
    ++job.taken_in;
    if (auto* fault = std::get_if<RecordFault>(&incoming)) {
      job.outcomes.emplace_back(std::move(*fault));
      continue;
    }
    const Note& note = std::get<Note>(incoming);
    if (auto refusal = refusal_of(note, work, job.record)) {
      job.outcomes.emplace_back(std::move(*refusal));
    } else {
      job.outcomes.emplace_back(answer_to(note, work, job, scratch));
    }
  }
}

}  // namespace

void work_on(RecordJob& job, const BatchWork& work, ReadingScratch& scratch) {
  job.taken_in = 0;
  job.outcomes.clear();
  job.out.clear();
  job.tally = {};
  if (job.strange) return;
  if (job.fault) {
    ++job.taken_in;
    job.outcomes.emplace_back(std::move(*job.fault));
    return;
  }
  if (!job.decoder) job.decoder = work.from.decoder(work.intake);
  decode_all(job, work, scratch);
  if (job.record.bytes.size() > kKept) scratch = ReadingScratch();
}

void format_again(RecordJob& job, const BatchWork& work) {
  job.out.clear();
  job.tally = {};
  job.decoder->open(job.record);
  for (auto& outcome : job.outcomes) {
    const Incoming incoming = job.decoder->next();
    auto* answer = std::get_if<Answer>(&outcome);
    if (answer != nullptr) format_note(std::get<Note>(incoming), work, *answer, job);
  }
}

void let_go(RecordJob& job) {
  if (job.record.bytes.capacity() <= kKept && job.out.capacity() <= kKept) return;
  job.record.bytes = std::string();
  job.out = std::string();
  job.outcomes = {};
  job.decoder.reset();
}

}  // namespace jointledger
