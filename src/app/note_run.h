// Notes in, ledgers or audits out: what `read` and `audit` share.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/batch_options.h"
#include "app/intake_options.h"
#include "app/options.h"
#include "audit/profile.h"
#include "lexicon/lexicon.h"
#include "report/report.h"

namespace jointledger {

struct NoteRun {
  std::vector<std::string> inputs;  ///< files, folders, patterns, "-" for the standard input; at least one
  Intake intake;
  const ReportFormat* to = nullptr;
  float least_certainty = 0.0F;  ///< 0..1; entries below it earn nothing (audit only)
  std::string date;              ///< as in ReportRun
  std::string output;            ///< a path; empty for the standard output
  BatchOptions batch;
  std::vector<std::filesystem::path> lexicon_folders;  ///< what the lexicon was loaded from
  std::vector<std::filesystem::path> rules_folders;    ///< what the profile was chosen from
};

/// Adds the options of the intake, --to, --date, --output, and those of a batch.
void add_note_options(po::options_description& options);

/// What the options ask for; nothing if they make no sense, which has been said then. Notes are under "note". The
/// folders are left empty.
std::optional<NoteRun> note_run_of(const po::variables_map& options, Console& console);

/// Reads every note and writes its ledger, or its audit if there is a profile, in the order of the inputs. Records that
/// cannot be read are named in the log and set aside, and the rest is read all the same. Returns the exit status; but
/// where the output can no longer be written, which is said, it ends the program.
int run_notes(const NoteRun& run, const Lexicon& lexicon, const Profile* profile, Console& console);

}  // namespace jointledger
