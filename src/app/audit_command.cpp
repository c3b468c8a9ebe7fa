// jointledger audit: gaps.
#include "app/data_folders.h"
#include "app/note_run.h"
#include "app/options.h"
#include "app/profile_choice.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger audit",
    "[NOTE...] --profile NAME",
    "Holds the ledger of each note against a profile and prints the gaps: what the\n"
    "profile asks for and the note does not document, why that counts as a gap, the\n"
    "words that came nearest, and a prompt that would close it.\n"
    "NOTE is a file, a folder (the files in it and below), or a quoted pattern such\n"
    "as 'notes/*.txt'; without one, or with -, notes come from the standard input.\n"
    "\n"
    "It audits documentation, not care, and makes no diagnosis: what is not written\n"
    "down may well have been done. A prompt has blanks for what the examiner found\n"
    "and never states a finding; leave out what was not examined. Local policy, the\n"
    "payer's rules and the judgement of a licensed clinician come first.\n"
    "\n"
    "Exit status: 0 nothing required is missing; 1 something required is missing;\n"
    "2 bad usage, or some input could not be read (the rest was); 3 the output could\n"
    "not be written to its end (with --output FILE, --resume goes on with it).\n",
    "  jointledger audit visit.txt --profile complaint\n"
    "  jointledger audit notes/ --profile screening --to ndjson -o gaps.ndjson\n"
    "  jointledger audit notes/ --profile screening --to ndjson -o gaps.ndjson --resume\n"
    "  jointledger audit --profile complaint < visit.txt\n"
    "  jointledger audit notes.ndjson --profile screening --certainty 0.8\n"
    "  jointledger audit visit.txt --profile ours --rules ./our-rules\n",
};

}  // namespace

int audit_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  options.add_options()("profile,p", po::value<std::string>()->value_name("NAME"),
                        "what to hold the notes against; see: jointledger profiles");
  options.add_options()("certainty", po::value<float>()->value_name("SHARE"),
                        "leave entries that are less certain than this (0 to 1) out of the score, and list them");
  add_note_options(options);
  add_rules_option(options);
  add_lexicon_option(options);
  int status = kComplete;
  const auto values = read_options(arguments, options, "note", kHelp, console, status);
  if (!values) return status;
  auto run = note_run_of(*values, console);
  if (!run) return kTrouble;
  if (values->count("certainty") > 0) {
    run->least_certainty = (*values)["certainty"].as<float>();
    if (!(run->least_certainty >= 0.0F && run->least_certainty <= 1.0F)) {
      console.log.error("--certainty: a share from 0 to 1 is needed");
      return kTrouble;
    }
  }
  const auto lexicon = load_lexicon(*values, console);
  if (!lexicon) return kTrouble;
  run->lexicon_folders = lexicon_folders(*values, console);
  run->rules_folders = rules_folders(*values, console);
  const auto shelf = load_shelf(*values, lexicon.get(), console);
  if (!shelf) return kTrouble;
  const std::string name = values->count("profile") > 0 ? (*values)["profile"].as<std::string>() : std::string();
  const Profile* profile = choose_profile(*shelf, name, console);
  if (profile == nullptr) return kTrouble;
  return run_notes(*run, *lexicon, profile, console);
}

}  // namespace jointledger
