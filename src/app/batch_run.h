// The end of the line: takes the records of a batch in their order, and writes what came of them.
#pragma once

#include <spdlog/logger.h>

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

#include "app/destination.h"
#include "app/progress.h"
#include "batch/checkpoint.h"
#include "batch/record_job.h"
#include "batch/repeats.h"

namespace jointledger {

/// Where a batch writes, and how it can be gone on with. Borrows all of it.
struct BatchFiles {
  Destination& out;
  Destination* set_aside = nullptr;         ///< null where records are only named
  std::string checkpoint;                   ///< a path; empty if an interrupted run cannot be gone on with
  std::chrono::duration<double> every{10};  ///< from one checkpoint to the next
};

/// Not thread-safe. Whatever goes wrong with the files ends the run; what is wrong with a record does not.
class BatchRun {
 public:
  /// `from` is where the run stands: all zeros but for its mark, or the checkpoint that it goes on from.
  BatchRun(const BatchWork& work, const BatchFiles& files, const Checkpoint& from, Progress& progress,
           spdlog::logger& log);

  /// Before the first record, unless the run goes on from a checkpoint: what the output begins with.
  void open();
  /// The next record. False if the run must stop; trouble() is set then.
  bool take(RecordJob& job);
  /// Nothing is ready to be taken: passes on what somebody may wait for. False as above.
  bool idle();
  /// After the last record: ends the output and puts the files in their places. False as above.
  bool close();

  struct Trouble {
    std::string message;
    bool of_files = true;  ///< else of what was asked for
  };
  const std::optional<Trouble>& trouble() const { return trouble_; }
  const BatchCounts& counts() const { return at_.counts; }

 private:
  void remember(RecordJob& job);
  void note_copies(RecordJob& job);
  void keep_aside(const RecordFault& fault, const RecordJob& job, bool first);
  void name_fault(const RecordFault& fault);
  void put(const RecordJob& job, const Answer& answer);
  bool go_on();
  bool checkpoint(bool finished);
  bool stop(const Destination& file, const std::string& reason);

  const BatchWork& work_;
  BatchFiles files_;
  Progress& progress_;
  spdlog::logger& log_;
  Checkpoint at_;  // where the run stands now
  std::uint64_t records_saved_;
  std::chrono::steady_clock::time_point last_saved_ = std::chrono::steady_clock::now();
  RepeatFinder repeats_;
  std::uint64_t named_ = 0;
  std::optional<Trouble> trouble_;
};

}  // namespace jointledger
