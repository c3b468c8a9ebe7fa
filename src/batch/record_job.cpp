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

void format_note(const Note& note, const BatchWork& work, Answer& answer, std::string& out) {
  answer.start = out.size();
  work.to.add(work.report, {note, answer.ledger, work.report.profile == nullptr ? nullptr : &answer.audit}, out);
  answer.end = out.size();
}

Answer answer_to(const Note& note, const BatchWork& work, bool again, ReadingScratch& scratch, std::string& out) {
  Answer answer;
  answer.ledger = read_note(work.lexicon, note.text, scratch);
  if (const Profile* profile = work.report.profile) {
    if (!profile->checks_off.contains(Check::copied_exam)) {
      answer.id = note.id;
      answer.author = member_of(note, "author");
      answer.patient = member_of(note, "patient");
      answer.print = print_of(note.text, answer.ledger.exam);
    }
    if (!again) answer.audit = audit(*profile, answer.ledger, work.lexicon.motion_limits(), work.least_certainty);
  }
  if (!again) format_note(note, work, answer, out);
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
    } else {
      job.outcomes.emplace_back(answer_to(std::get<Note>(incoming), work, job.again, scratch, job.out));
    }
  }
}

}  // namespace

void work_on(RecordJob& job, const BatchWork& work, ReadingScratch& scratch) {
  job.taken_in = 0;
  job.outcomes.clear();
  job.out.clear();
  if (job.strange) return;
  if (job.fault) {
    ++job.taken_in;
    job.outcomes.emplace_back(std::move(*job.fault));
    return;
  }
  if (job.decoder_format != job.format) {
    job.decoder = job.format->decoder();
    job.decoder_format = job.format;
  }
  decode_all(job, work, scratch);
  if (job.record.bytes.size() > kKept) scratch = ReadingScratch();
}

void format_again(RecordJob& job, const BatchWork& work) {
  job.out.clear();
  job.decoder->open(job.record);
  for (auto& outcome : job.outcomes) {
    const Incoming incoming = job.decoder->next();
    if (const auto* note = std::get_if<Note>(&incoming)) format_note(*note, work, std::get<Answer>(outcome), job.out);
  }
}

void let_go(RecordJob& job) {
  if (job.record.bytes.capacity() <= kKept && job.out.capacity() <= kKept) return;
  job.record.bytes = std::string();
  job.out = std::string();
  job.outcomes = {};
  job.decoder.reset();
  job.decoder_format = nullptr;
}

}  // namespace jointledger
