// The formats that ledgers and audits go out in.
//
// A format is a few pure functions that append bytes to a string: what comes before the first note, one note, what
// stands between two, what comes after the last. They keep nothing between calls, so notes may be written on any
// number of threads and put together in order; the same note gives the same bytes. What stands after the last may tell
// of all of them: the caller counts each note that it adds, see tally.h.
//
// To add a format: a file that makes its ReportFormat, and a line in report.cpp.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "audit/audit.h"
#include "intake/note.h"
#include "ledger/ledger.h"
#include "report/tally.h"

namespace jointledger {

/// What holds for all notes of an output. Borrows the profile.
struct ReportRun {
  const Profile* profile = nullptr;  ///< what the notes are audited against; null where only ledgers are written
  bool colour = false;               ///< the output is a terminal that shows colours; only text cares
  /// The day of the run, YYYY-MM-DD; empty where none was given. Never taken from the clock: the same notes give the
  /// same bytes on any day.
  std::string_view date = {};
};

/// One note and what came of it. Borrows all of it, for the call.
struct ReportItem {
  const Note& note;
  const Ledger& ledger;
  const Audit* audit = nullptr;  ///< null exactly where the run has no profile
};

struct ReportFormat {
  std::string_view name;  ///< as given to --to
  void (*open)(const ReportRun& run, std::string& out);
  void (*add)(const ReportRun& run, const ReportItem& item, std::string& out);
  std::string_view between;  ///< two notes
  /// `tally` counts those that were added.
  void (*close)(const ReportRun& run, const ReportTally& tally, std::string& out);
  bool audits_only = false;  ///< has nothing to say of a ledger alone: the run must have a profile
  bool dated = false;        ///< the run must have a date
  /// Why this note cannot be written, as the reason of a RecordFault; empty if it can. Null where any note can.
  std::string_view (*refusal)(const Note& note) = nullptr;
};

/// All formats, the default first. Static storage.
std::span<const ReportFormat> report_formats();

/// The format of that name, or null.
const ReportFormat* report_format_named(std::string_view name);

}  // namespace jointledger
