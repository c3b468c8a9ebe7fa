// Cuts the inputs of a batch into records, one after the other, and finds the place where an interrupted run goes on.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "batch/inputs.h"
#include "batch/record_job.h"
#include "intake/format.h"
#include "intake/splitter.h"

namespace jointledger {

/// Where in its inputs an interrupted run stood.
struct FeedPlace {
  std::uint64_t records = 0;          ///< that are done
  std::uint32_t input_sum = 0;        ///< RecordJob::input_sum of the last of them
  std::uint64_t remembered_from = 0;  ///< the first record that must be shown again
};

struct FeedOptions {
  std::vector<std::string> inputs;   ///< as for Inputs
  std::vector<std::string> outputs;  ///< as for Inputs
  const Format& from;
  IntakeOptions intake;
  FeedPlace resume;  ///< goes on there
};

/// Not thread-safe. Memory: two records at a time, the second only behind one that was passed over.
class RecordFeed {
 public:
  explicit RecordFeed(FeedOptions options);

  /// Sets the first part of the next job; false at the end.
  ///
  /// When it goes on with a run, records that the finder of copied exams must see come first, marked `again`; those
  /// before them are passed over. If the bytes turn out not to be those that the run read, the last job is marked
  /// `strange`, and no new record is given.
  bool next(RecordJob& job);

 private:
  bool cut(RecordJob& job);
  bool end_strangely(RecordJob& job);
  bool open(RecordJob& job, const Inputs::Next& input);
  Split split(Record& record);
  void look_ahead(RecordJob& job);

  FeedOptions options_;
  Inputs inputs_;
  std::unique_ptr<Splitter> splitter_;  // of the present input; null between two
  std::string input_;
  Record ahead_;                      // the record behind one that was passed over
  std::optional<Split> split_ahead_;  // what the splitter said of it; empty while nothing was looked at
  std::uint64_t number_ = 0;
  std::uint32_t sum_ = 0;
  bool checked_;
  bool ended_ = false;
};

}  // namespace jointledger
