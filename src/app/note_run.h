// Notes in, ledgers or audits out: what `read` and `audit` share.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "app/options.h"
#include "audit/profile.h"
#include "intake/format.h"
#include "lexicon/lexicon.h"
#include "report/report.h"

namespace jointledger {

struct NoteRun {
  std::vector<std::string> inputs;  ///< paths, "-" for the standard input; at least one
  const Format* from = nullptr;     ///< null: by the extension of each
  const ReportFormat* to = nullptr;
  float least_certainty = 0.0F;  ///< 0..1; entries below it earn nothing (audit only)
  std::string date;              ///< as in ReportRun
  std::string output;            ///< a path; empty for the standard output
};

/// Adds --from, --to, --date and --output.
void add_note_options(po::options_description& options);

/// What the options ask for; nothing if they make no sense, which has been said then. Notes are under "note".
std::optional<NoteRun> note_run_of(const po::variables_map& options, Console& console);

/// Reads every note and writes its ledger, or its audit if there is a profile. Records that cannot be read are named
/// in the log, and the rest is read all the same. Returns the exit status.
int run_notes(const NoteRun& run, const Lexicon& lexicon, const Profile* profile, Console& console);

}  // namespace jointledger
