#include "batch/record_feed.h"

#include <utility>
#include <variant>

#include "batch/checksum.h"
#include "intake/byte_stream.h"

namespace jointledger {
namespace {

/// What a record of another input left must not stay, but for the memory of its bytes.
void begin_anew(Record& record, const std::string& input) {
  Record fresh;
  fresh.input = input;
  fresh.bytes = std::move(record.bytes);
  fresh.bytes.clear();
  record = std::move(fresh);
}

}  // namespace

RecordFeed::RecordFeed(FeedOptions options)
    : options_(std::move(options)),
      inputs_(options_.inputs, options_.outputs),
      checked_(options_.resume.records == 0) {}

bool RecordFeed::next(RecordJob& job) {
  while (!ended_) {
    if (!checked_ && number_ == options_.resume.records) {
      checked_ = true;
      if (sum_ != options_.resume.input_sum) return end_strangely(job);
    }
    if (!cut(job)) {
      if (!checked_) return end_strangely(job);  // the inputs have become shorter
      ended_ = true;
      return false;
    }
    job.again = !checked_;
    job.strange = false;
    if (checked_ || job.number >= options_.resume.remembered_from) return true;
  }
  return false;
}

bool RecordFeed::end_strangely(RecordJob& job) {
  ended_ = true;
  job.record.bytes.clear();
  job.fault.reset();
  job.passed_over.reset();
  job.again = false;
  job.strange = true;
  return true;
}

/// The next record of the inputs, whether it is to be passed over or not.
bool RecordFeed::cut(RecordJob& job) {
  job.fault.reset();
  job.passed_over.reset();
  while (true) {
    if (!splitter_) {
      const auto input = inputs_.next();
      if (!input) return false;
      if (!open(job, *input)) break;
    }
    begin_anew(job.record, input_);
    Split split = this->split(job.record);
    if (std::holds_alternative<EndOfInput>(split)) {
      splitter_.reset();
      continue;
    }
    if (auto* fault = std::get_if<RecordFault>(&split)) {
      job.fault = std::move(*fault);
      look_ahead(job);
    }
    break;
  }
  job.number = number_++;
  sum_ = checksum(job.record.bytes, sum_);
  job.input_sum = sum_;
  return true;
}

Split RecordFeed::split(Record& record) {
  if (!split_ahead_) return splitter_->next(record);
  std::swap(record, ahead_);
  return *std::exchange(split_ahead_, std::nullopt);
}

/// Where the bytes of a record that was passed over end is known once the next one begins.
void RecordFeed::look_ahead(RecordJob& job) {
  if (!passed_over(job.record, nullptr)) return;
  begin_anew(ahead_, input_);
  split_ahead_ = splitter_->next(ahead_);
  job.passed_over = passed_over(job.record, std::holds_alternative<EndOfInput>(*split_ahead_) ? nullptr : &ahead_);
}

/// False if the input cannot be had; that is the job's fault then.
bool RecordFeed::open(RecordJob& job, const Inputs::Next& input) {
  input_ = input.path;
  sum_ = checksum(input_, sum_);
  begin_anew(job.record, input_);
  if (!input.trouble.empty()) {
    job.fault = RecordFault{name_of(job.record), {}, input.trouble};
    return false;
  }
  auto opened = open_bytes(input_);
  if (const auto* reason = std::get_if<std::string>(&opened)) {
    job.fault = RecordFault{name_of(job.record), {}, "cannot be opened: " + *reason};
    return false;
  }
  splitter_ = options_.from.split(std::move(std::get<std::unique_ptr<ByteStream>>(opened)), options_.intake);
  return true;
}

}  // namespace jointledger
