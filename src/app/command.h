// What the commands of the program have in common: arguments in, an exit status out.
#pragma once

#include <spdlog/logger.h>

#include <string>
#include <string_view>
#include <vector>

#include "app/output.h"

namespace jointledger {

/// Exit statuses. Of several that apply the highest counts.
inline constexpr int kComplete = 0;  ///< nothing that is required is missing
inline constexpr int kGaps = 1;      ///< something required is missing
inline constexpr int kTrouble = 2;   ///< bad usage, or something that could not be read (the rest was)
inline constexpr int kStopped = 3;   ///< the output could not be written, or not to its end

/// Where a command speaks. Both are the caller's.
struct Console {
  Output& out;          ///< results, to the standard output
  spdlog::logger& log;  ///< diagnostics, to the standard error; never text of a note
};

/// Everything behind the name of the command.
using Arguments = std::vector<std::string>;

struct Command {
  std::string_view name;
  std::string_view summary;
  int (*run)(const Arguments& arguments, Console& console);
};

int read_command(const Arguments& arguments, Console& console);
int audit_command(const Arguments& arguments, Console& console);
int profiles_command(const Arguments& arguments, Console& console);
int explain_command(const Arguments& arguments, Console& console);
int lexicon_command(const Arguments& arguments, Console& console);
int set_aside_command(const Arguments& arguments, Console& console);

}  // namespace jointledger
