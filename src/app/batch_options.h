// What a person can say about how a run goes, beside what it reads and writes.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "app/options.h"

namespace jointledger {

enum class ProgressKind : std::uint8_t {
  none,
  line,  ///< for a person: a line on the terminal that is rewritten
  json,  ///< for a scheduler: a JSON object a line
};

struct BatchOptions {
  std::size_t threads = 1;  ///< that read and audit, at least 1
  std::string set_aside;    ///< a path; empty if records that cannot be read are only named
  bool resume = false;
  std::optional<ProgressKind> progress;          ///< empty: a line on a terminal, else none
  std::chrono::duration<double> checkpoint{10};  ///< between two checkpoints, not negative
};

/// Adds --threads, --set-aside, --resume, --checkpoint and --progress.
void add_batch_options(po::options_description& options);

/// What the options ask for; nothing if they make no sense, which has been said then.
std::optional<BatchOptions> batch_options_of(const po::variables_map& options, Console& console);

}  // namespace jointledger
