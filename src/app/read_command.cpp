// jointledger read: ledgers.
#include "app/data_folders.h"
#include "app/note_run.h"
#include "app/options.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger read",
    "[NOTE...]",
    "Prints the ledger of each note: which regions were examined, on which side, by\n"
    "which component, with what outcome, and the words of the note that say so.\n"
    "NOTE is a file, a folder (the files in it and below), or a quoted pattern such\n"
    "as 'notes/*.txt'; without one, or with -, notes come from the standard input.\n"
    "It records what is written and makes no diagnosis. Check what matters against\n"
    "the note.\n"
    "\n"
    "Exit status: 0 all notes were read; 2 bad usage, or some input could not be\n"
    "read (the rest was); 3 the output could not be written to its end.\n",
    "  jointledger read visit.txt\n"
    "  jointledger read --to ndjson notes.ndjson > ledgers.ndjson\n"
    "  cat visit.txt | jointledger read\n",
};

}  // namespace

int read_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  add_note_options(options);
  add_lexicon_option(options);
  int status = kComplete;
  const auto values = read_options(arguments, options, "note", kHelp, console, status);
  if (!values) return status;
  auto run = note_run_of(*values, console);
  if (!run) return kTrouble;
  const auto lexicon = load_lexicon(*values, console);
  if (!lexicon) return kTrouble;
  run->lexicon_folders = lexicon_folders(*values, console);
  return run_notes(*run, *lexicon, nullptr, console);
}

}  // namespace jointledger
