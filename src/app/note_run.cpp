#include "app/note_run.h"

#include <unistd.h>

#include <cstdlib>
#include <string_view>
#include <utility>

#include "app/batch_run.h"
#include "app/progress.h"
#include "app/run_files.h"
#include "app/run_mark.h"
#include "batch/ordered.h"
#include "batch/record_feed.h"

namespace jointledger {
namespace {

/// Enough to keep every thread busy behind a slow record, in a memory that never grows: more than this many bytes of
/// notes are not under way at once, unless a single one is longer.
constexpr std::size_t kJobsPerThread = 16;
constexpr std::size_t kBytesUnderWay = std::size_t{8} << 20;

std::string_view variable(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): no thread writes the environment
  return value == nullptr ? "" : value;
}

bool wants_colour(const Output& out) {
  return out.is_terminal() && variable("NO_COLOR").empty() && variable("TERM") != "dumb";
}

/// A line for a person, unless the notes go to the same terminal or it cannot rewrite a line.
ProgressKind progress_kind(const BatchOptions& batch, const Output& out) {
  if (batch.progress) return *batch.progress;
  const bool line = ::isatty(STDERR_FILENO) == 1 && !out.is_terminal() && variable("TERM") != "dumb";
  return line ? ProgressKind::line : ProgressKind::none;
}

/// All that changes the output, but for what is summed up apart.
std::string options_text(const NoteRun& run, const Profile* profile) {
  std::string text = "from " + std::string(run.intake.from->name);
  const IntakeOptions& intake = run.intake.options;
  for (const std::string* column :
       {&intake.id_column, &intake.text_column, &intake.author_column, &intake.patient_column, &intake.date_column}) {
    text.append("\ncolumn ").append(*column);
  }
  for (const std::string& section : intake.sections) text.append("\nsection ").append(section);
  text.append("\nto ").append(run.to->name);
  text.append("\nprofile ").append(profile != nullptr ? profile->name : "");
  text.append("\ncertainty ").append(std::to_string(run.least_certainty));
  text.append("\ndate ").append(run.date);
  text.append("\nset aside ").append(run.batch.set_aside);
  return text;
}

int status_of(const BatchCounts& counts) {
  if (counts.set_aside > 0) return kTrouble;
  return counts.lacks_required ? kGaps : kComplete;
}

/// The closing words. A single note that was read speaks for itself.
int sum_up(const BatchCounts& counts, bool audits, Console& console) {
  if (counts.read != counts.answered + counts.set_aside) {
    console.log.critical("{}: notes were lost, which should not happen", summary_of(counts, audits));
    return kStopped;
  }
  if (counts.set_aside > 0) {
    console.log.warn(summary_of(counts, audits));
  } else if (counts.read > 1) {
    console.log.info(summary_of(counts, audits));
  } else if (counts.read == 0) {
    console.log.warn("no notes in the input");
  }
  return status_of(counts);
}

/// The run cannot go on. Ends the program where it stands: a thread may be waiting for a line of the standard input
/// that never comes, and there is no way to wake it.
[[noreturn]] void end_early(const BatchRun& batch, bool resumable, Progress& progress, Console& console) {
  const BatchRun::Trouble& trouble = *batch.trouble();
  const int status = trouble.of_files ? kStopped : kTrouble;
  progress.finish(batch.counts(), status);
  console.log.error(
      "{}{}", trouble.message,
      trouble.of_files && resumable ? "; once that is mended, the same command with --resume goes on" : "");
  std::_Exit(status);
}

int run_batch(const NoteRun& run, const BatchWork& work, const RunPaths& paths, const std::optional<Checkpoint>& place,
              const Checkpoint& start, RunFiles& files, Console& console) {
  const bool audits = work.report.profile != nullptr;
  const bool resumable = !paths.checkpoint.empty();
  const ProgressKind kind = progress_kind(run.batch, files.out->out());
  Progress progress(kind, audits, start.counts, kind == ProgressKind::none ? 0 : bytes_in(run.inputs, paths.written));
  BatchRun batch(work, {*files.out, files.set_aside.get(), paths.checkpoint, run.batch.checkpoint}, start, progress,
                 console.log);
  if (!place) batch.open();

  RecordFeed feed(
      {run.inputs, paths.written, work.from, work.intake, {start.records, start.input_sum, start.remembered_from}});
  std::vector<ReadingScratch> scratch(run.batch.threads);
  OrderedLine<RecordJob> line({run.batch.threads, run.batch.threads * kJobsPerThread, kBytesUnderWay});
  const auto or_end = [&](bool good) {
    if (!good) end_early(batch, resumable, progress, console);
    return good;
  };
  line.run([&](RecordJob& job) { return feed.next(job); }, [](const RecordJob& job) { return job.record.bytes.size(); },
           [&](RecordJob& job, std::size_t thread) { work_on(job, work, scratch[thread]); },
           [&](RecordJob& job) { return or_end(batch.take(job)); }, [&] { return or_end(batch.idle()); });
  or_end(batch.close());
  progress.finish(batch.counts(), status_of(batch.counts()));
  return sum_up(batch.counts(), audits, console);
}

}  // namespace

int run_notes(const NoteRun& run, const Lexicon& lexicon, const Profile* profile, Console& console) {
  if (run.to->audits_only && profile == nullptr) {
    console.log.error("--to {} is for audits: jointledger audit --to {}", run.to->name, run.to->name);
    return kTrouble;
  }
  const RunPaths paths = paths_of(run);
  Checkpoint start;
  if (!paths.checkpoint.empty()) {
    start.run = mark_of(options_text(run, profile), run.inputs, run.lexicon_folders, run.rules_folders);
  }
  std::optional<Checkpoint> place;
  if (run.batch.resume) {
    if (!find_place(paths, start.run, place, console)) return kTrouble;
    if (place && place->finished) {
      return complete(run, paths, console) ? sum_up(place->counts, profile != nullptr, console) : kStopped;
    }
  }
  auto files = open_files(run, paths, place, console);
  if (!files) return kTrouble;
  for (const std::string& input : run.inputs) {
    if (input == "-" && ::isatty(STDIN_FILENO) == 1) console.log.info("reading the standard input; end it with Ctrl-D");
  }
  const ReportRun report{.profile = profile, .colour = wants_colour(files->out->out()), .date = run.date};
  const BatchWork work{lexicon, *run.intake.from, run.intake.options, *run.to, report, run.least_certainty};
  return run_batch(run, work, paths, place, place.value_or(start), *files, console);
}

}  // namespace jointledger
