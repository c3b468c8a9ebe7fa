// How far a run is, said on the standard error while it goes on.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include "app/batch_options.h"
#include "batch/checkpoint.h"

namespace jointledger {

/// What there is to say at one moment.
struct Pace {
  BatchCounts counts;             ///< of the whole run
  BatchCounts before;             ///< what was done already when this program went on with it
  double seconds = 0.0;           ///< that this program has worked
  std::uint64_t bytes_total = 0;  ///< of the inputs; 0 if that is not known
  bool audits = true;             ///< false where notes are only read
};

/// "12,345 notes, 8.2 MB/s, 63 % with gaps, 2 set aside, 1:05 left", at most 80 columns. Pure, as is the next.
std::string progress_line(const Pace& pace);

/// One JSON object on a line, with its break. Before the end of the run `status` is negative; then "event" is
/// "progress", else "end" and the exit status is among the members.
std::string progress_json(const Pace& pace, int status);

/// "8 read, 7 audited, 1 set aside".
std::string summary_of(const BatchCounts& counts, bool audits);

/// Not thread-safe.
class Progress {
 public:
  /// `before` and the others are as in Pace.
  Progress(ProgressKind kind, bool audits, const BatchCounts& before, std::uint64_t bytes_total);

  /// Says how far the run is, if some time has passed since that was last said.
  void tick(const BatchCounts& counts);
  /// Takes the line off the terminal, to make room for something else.
  void clear();
  /// The end of the run, with its exit status.
  void finish(const BatchCounts& counts, int status);

 private:
  using Clock = std::chrono::steady_clock;
  Pace pace_at(Clock::time_point now, const BatchCounts& counts) const;

  ProgressKind kind_;
  bool audits_;
  BatchCounts before_;
  std::uint64_t bytes_total_;
  Clock::time_point begun_ = Clock::now();
  Clock::time_point last_ = begun_;
  bool shown_ = false;
};

}  // namespace jointledger
