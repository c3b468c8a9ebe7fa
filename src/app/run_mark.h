// What tells one run from another, so that none goes on with the work of a different one.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "batch/checkpoint.h"

namespace jointledger {

/// Reads this program's own file, and every table or profile in the folders. `options` is all that was asked for that
/// changes the output, as one text. Files that cannot be read count as empty: the run itself will name them.
RunMark mark_of(const std::string& options, std::span<const std::string> inputs,
                std::span<const std::filesystem::path> lexicon, std::span<const std::filesystem::path> rules);

}  // namespace jointledger
