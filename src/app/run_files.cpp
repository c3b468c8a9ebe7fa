#include "app/run_files.h"

#include <filesystem>
#include <system_error>
#include <utility>
#include <variant>

#include "batch/file_aside.h"

namespace jointledger {
namespace {

// Output holds no note, but what was made of them; records that were set aside are notes.
constexpr mode_t kAnybody = 0666;
constexpr mode_t kOwnerOnly = 0600;

bool refuse(const std::string& why, Console& console) {
  console.log.error("--resume: {}; begin again without it", why);
  return false;
}

/// Whether nothing failed; else that has been said.
bool went_well(const std::optional<std::string>& failure, const std::string& path, Console& console) {
  if (failure) console.log.error("cannot write {}: {}", path, *failure);
  return !failure;
}

std::unique_ptr<Destination> open(const std::string& path, mode_t mode, bool aside, Console& console) {
  std::string reason;
  auto file = Destination::open(path, mode, aside, reason);
  if (!file) console.log.error("cannot write {}: {}", path, reason);
  return file;
}

/// Nothing must be left to go on with once its files are emptied.
bool give_up_earlier_run(const std::string& checkpoint, Console& console) {
  std::error_code error;
  if (!std::filesystem::exists(checkpoint, error)) return true;
  console.log.warn("an interrupted run is given up (--resume would have gone on with it)");
  return went_well(remove_file(checkpoint), checkpoint, console);
}

}  // namespace

RunPaths paths_of(const NoteRun& run) {
  RunPaths paths;
  for (const std::string& path : {run.output, run.batch.set_aside}) {
    if (path.empty()) continue;
    const std::string place = behind_links(path);
    paths.written.insert(paths.written.end(), {place, part_of(place)});
  }
  if (!run.output.empty() && can_be_replaced(run.output)) {
    paths.checkpoint = behind_links(run.output) + ".checkpoint";
    paths.written.insert(paths.written.end(), {paths.checkpoint, paths.checkpoint + ".new"});
  }
  return paths;
}

bool find_place(const RunPaths& paths, const RunMark& mark, std::optional<Checkpoint>& place, Console& console) {
  if (paths.checkpoint.empty()) {
    return refuse("only a run that writes to a file (--output FILE) can be gone on with", console);
  }
  auto loaded = load_checkpoint(paths.checkpoint);
  if (const auto* reason = std::get_if<std::string>(&loaded)) return refuse(paths.checkpoint + " " + *reason, console);
  place = std::get<std::optional<Checkpoint>>(loaded);
  if (!place) {
    console.log.info("there is no interrupted run to go on with; beginning at the start");
    return true;
  }
  const std::string_view other = difference(place->run, mark);
  return other.empty() || refuse("the interrupted run had " + std::string(other), console);
}

bool complete(const NoteRun& run, const RunPaths& paths, Console& console) {
  const std::string& set_aside = run.batch.set_aside;
  return (set_aside.empty() || !can_be_replaced(set_aside) || went_well(show_part(set_aside), set_aside, console)) &&
         went_well(show_part(run.output), run.output, console) &&
         went_well(remove_file(paths.checkpoint), paths.checkpoint, console);
}

std::optional<RunFiles> open_files(const NoteRun& run, const RunPaths& paths, const std::optional<Checkpoint>& place,
                                   Console& console) {
  RunFiles files;
  const bool aside = !paths.checkpoint.empty();
  if (run.output.empty()) {
    files.out = std::make_unique<Destination>(console.out);
  } else if (!(files.out = open(run.output, kAnybody, aside, console))) {
    return std::nullopt;
  }
  const std::string& set_aside = run.batch.set_aside;
  if (!set_aside.empty() && !(files.set_aside = open(set_aside, kOwnerOnly, aside, console))) return std::nullopt;

  const auto cut = [&](const std::unique_ptr<Destination>& file, std::uint64_t bytes) {
    if (!file || !file->is_aside()) return true;
    if (file->held() < bytes) return refuse("what the interrupted run wrote to " + file->name() + " is gone", console);
    return went_well(file->go_on_at(bytes), file->name(), console);
  };
  if (!place && aside && !give_up_earlier_run(paths.checkpoint, console)) return std::nullopt;
  if (!cut(files.out, place ? place->output_bytes : 0)) return std::nullopt;
  if (!cut(files.set_aside, place ? place->set_aside_bytes : 0)) return std::nullopt;
  return files;
}

}  // namespace jointledger
