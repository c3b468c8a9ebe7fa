#include "app/batch_run.h"

#include <string_view>
#include <utility>
#include <variant>

#include "batch/set_aside.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

/// A log that names a million records is of use to nobody.
constexpr std::uint64_t kMostNamed = 100;

std::string in_words(const RecordFault& fault) {
  std::string words = fault.record;
  if (fault.place.line > 0) words.append(", byte ").append(std::to_string(fault.place.offset));
  return on_one_line(words.append(": ").append(fault.reason));
}

}  // namespace

BatchRun::BatchRun(const BatchWork& work, const BatchFiles& files, const Checkpoint& from, Progress& progress,
                   spdlog::logger& log)
    : work_(work), files_(files), progress_(progress), log_(log), at_(from), records_saved_(from.records) {}

void BatchRun::open() { work_.to.open(work_.report, files_.out.out().buffer()); }

bool BatchRun::take(RecordJob& job) {
  if (job.strange) {
    trouble_ = Trouble{"the inputs are not those that the interrupted run read; begin again without --resume", false};
    return false;
  }
  if (job.again) {
    remember(job);
    let_go(job);
    return go_on();
  }
  at_.counts.read += job.taken_in;
  at_.counts.bytes += job.record.bytes.size();
  note_copies(job);
  merge(job.tally, at_.tally);
  bool first = true;
  for (const auto& outcome : job.outcomes) {
    if (const auto* fault = std::get_if<RecordFault>(&outcome)) {
      keep_aside(*fault, job, std::exchange(first, false));
    } else {
      put(job, std::get<Answer>(outcome));
    }
  }
  at_.records = job.number + 1;
  at_.input_sum = job.input_sum;
  let_go(job);
  return go_on();
}

/// A note that was answered before the run was interrupted.
void BatchRun::remember(RecordJob& job) {
  for (auto& outcome : job.outcomes) {
    auto* answer = std::get_if<Answer>(&outcome);
    if (answer != nullptr) {
      repeats_.add(answer->id, answer->author, answer->patient, std::move(answer->print), job.number);
    }
  }
}

void BatchRun::note_copies(RecordJob& job) {
  bool any = false;
  for (auto& outcome : job.outcomes) {
    auto* answer = std::get_if<Answer>(&outcome);
    if (answer == nullptr || work_.report.profile == nullptr) continue;
    const auto repeat = repeats_.add(answer->id, answer->author, answer->patient, std::move(answer->print), job.number);
    if (!repeat) continue;
    any = true;
    answer->audit.inconsistencies.push_back(copied_exam(answer->ledger.exam, repeat->note, repeat->share));
  }
  if (any) format_again(job, work_);
}

void BatchRun::keep_aside(const RecordFault& fault, const RecordJob& job, bool first) {
  ++at_.counts.set_aside;
  name_fault(fault);
  if (files_.set_aside == nullptr) return;
  Output& out = files_.set_aside->out();
  if (job.passed_over) {
    write_set_aside(fault, *job.passed_over, [&](std::string_view piece) {
      out.write(piece);
      out.settle();
    });
  } else {
    append_set_aside(fault, first && !job.fault ? &job.record.bytes : nullptr, out.buffer());
  }
  out.settle();
}

void BatchRun::name_fault(const RecordFault& fault) {
  if (named_ > kMostNamed) return;
  progress_.clear();
  if (named_++ < kMostNamed) {
    log_.error(in_words(fault));
  } else {
    log_.warn("more records could not be read; they are counted, but no longer named here{}",
              files_.set_aside != nullptr ? "" : " (--set-aside FILE keeps them all)");
  }
}

void BatchRun::put(const RecordJob& job, const Answer& answer) {
  std::string& out = files_.out.out().buffer();
  if (at_.counts.answered++ > 0) out.append(work_.to.between);
  out.append(job.out, answer.start, answer.end - answer.start);
  if (work_.report.profile == nullptr) return;
  if (!answer.audit.gaps.empty()) ++at_.counts.with_gaps;
  at_.counts.lacks_required = at_.counts.lacks_required || answer.audit.lacks_required();
}

bool BatchRun::idle() {
  files_.out.out().idle();
  // Whoever ends the program while it waits should find everything there.
  if (files_.set_aside != nullptr) files_.set_aside->out().flush();
  return go_on();
}

/// What is to be done between two records.
bool BatchRun::go_on() {
  files_.out.out().settle();
  if (const auto& failure = files_.out.out().failure()) return stop(files_.out, *failure);
  if (files_.set_aside != nullptr) {
    if (const auto& failure = files_.set_aside->out().failure()) return stop(*files_.set_aside, *failure);
  }
  progress_.tick(at_.counts);
  const bool due = !files_.checkpoint.empty() && at_.records > records_saved_ &&
                   std::chrono::steady_clock::now() - last_saved_ >= files_.every;
  return !due || checkpoint(false);
}

/// First the files, then the note of how far they go: so the note never says too much.
bool BatchRun::checkpoint(bool finished) {
  if (const auto failure = files_.out.sync()) return stop(files_.out, *failure);
  at_.output_bytes = files_.out.out().passed_on();
  if (files_.set_aside != nullptr) {
    if (const auto failure = files_.set_aside->sync()) return stop(*files_.set_aside, *failure);
    at_.set_aside_bytes = files_.set_aside->out().passed_on();
  }
  at_.remembered_from = repeats_.oldest_record().value_or(at_.records);
  at_.finished = finished;
  if (const auto failure = save(at_, files_.checkpoint)) {
    trouble_ = Trouble{"cannot write " + files_.checkpoint + ": " + *failure};
    return false;
  }
  records_saved_ = at_.records;
  last_saved_ = std::chrono::steady_clock::now();
  return true;
}

bool BatchRun::close() {
  work_.to.close(work_.report, at_.tally, files_.out.out().buffer());
  if (!files_.checkpoint.empty() && !checkpoint(true)) return false;
  if (files_.set_aside != nullptr) {
    if (const auto failure = files_.set_aside->show()) return stop(*files_.set_aside, *failure);
  }
  if (const auto failure = files_.out.show()) return stop(files_.out, *failure);
  if (files_.checkpoint.empty()) return true;
  if (const auto failure = remove_file(files_.checkpoint)) {
    trouble_ = Trouble{"cannot remove " + files_.checkpoint + ": " + *failure};
    return false;
  }
  return true;
}

bool BatchRun::stop(const Destination& file, const std::string& reason) {
  trouble_ = Trouble{"cannot write " + file.name() + ": " + reason};
  return false;
}

}  // namespace jointledger
