// The files of a run: where they lie, and what an interrupted run left in them.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/command.h"
#include "app/destination.h"
#include "app/note_run.h"
#include "batch/checkpoint.h"

namespace jointledger {

struct RunPaths {
  std::string checkpoint;  ///< empty where a run cannot be gone on with: it writes to a pipe, a terminal, a device
  /// All paths that the run may write: none of them is a note, in whatever folder they lie.
  std::vector<std::string> written;
};

/// Looks at what the output is now.
RunPaths paths_of(const NoteRun& run);

/// Where the interrupted run stood that `mark` goes on with; nothing if there is none. False if there is one that is
/// not this one or cannot be used, which has been said.
bool find_place(const RunPaths& paths, const RunMark& mark, std::optional<Checkpoint>& place, Console& console);

/// Ends a run that was interrupted when all was written. False if it cannot, which has been said.
bool complete(const NoteRun& run, const RunPaths& paths, Console& console);

struct RunFiles {
  std::unique_ptr<Destination> out;
  std::unique_ptr<Destination> set_aside;  ///< null where records that cannot be read are only named
};

/// Opens the files, holding what was written by `place`, or nothing. An interrupted run that is not gone on with is
/// given up. Nothing if that cannot be, which has been said.
std::optional<RunFiles> open_files(const NoteRun& run, const RunPaths& paths, const std::optional<Checkpoint>& place,
                                   Console& console);

}  // namespace jointledger
