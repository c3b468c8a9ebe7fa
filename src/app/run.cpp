#include "app/run.h"

#include <spdlog/sinks/stdout_sinks.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <exception>
#include <memory>
#include <new>

#include "app/options.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::array<Command, 6> kCommands = {{
    {"read", "print the ledger of notes: what was examined, and the words that say so", read_command},
    {"audit", "hold notes against a profile and print what the documentation lacks", audit_command},
    {"profiles", "list the profiles, or check a profile file", profiles_command},
    {"explain", "say what an expectation asks for, why, and its source", explain_command},
    {"lexicon", "check the word tables", lexicon_command},
    {"set-aside", "print records that were set aside as they came in", set_aside_command},
}};

constexpr std::string_view kAbout =
    "Reads free-text notes of joint examinations into a ledger, holds it against a\n"
    "profile and reports what the documentation lacks.\n"
    "\n"
    "It audits documentation, not care, and makes no diagnosis. Its prompts have\n"
    "blanks and never state a finding. Local policy and the judgement of a licensed\n"
    "clinician come first. Notes stay on this machine.\n";

constexpr std::string_view kExamples =
    "  jointledger read visit.txt\n"
    "  jointledger audit visit.txt --profile complaint\n"
    "  jointledger audit notes.ndjson --profile screening --to ndjson > gaps.ndjson\n"
    "  jointledger explain shoulder-motion\n";

void append_help(std::string& out) {
  out.append("Usage: jointledger COMMAND [OPTION...]\n\n").append(kAbout).append("\nCommands:\n");
  for (const Command& command : kCommands) {
    std::string label = "  " + std::string(command.name);
    label.resize(12, ' ');
    out.append(label).append(command.summary).append("\n");
  }
  out.append(
      "\nOptions:\n  -h, --help  show this help; after a command, that command's\n  --version   show the version\n");
  out.append(
      "\nExit status: 0 nothing required is missing, 1 something required is missing,\n"
      "2 bad usage or input that could not be read, 3 output that could not be written.\n"
      "\nThe folder that JOINTLEDGER_DATA names, if it is set, holds the lexicon and the\n"
      "rules; without it, those that came with the program are used.\n");
  out.append("\nExamples:\n").append(kExamples);
}

int dispatch(const Arguments& arguments, Console& console) {
  if (arguments.empty()) {
    console.log.error(
        "which command? There are: read, audit, profiles, explain, lexicon, set-aside; see: jointledger --help");
    return kTrouble;
  }
  const std::string& first = arguments.front();
  if (first == "--version") {
    console.out.write("jointledger " JOINTLEDGER_VERSION "\n");
    return kComplete;
  }
  if (first == "--help" || first == "-h") {
    append_help(console.out.buffer());
    return kComplete;
  }
  const auto* const command = std::ranges::find(kCommands, first, &Command::name);
  if (command != kCommands.end()) return command->run({arguments.begin() + 1, arguments.end()}, console);

  std::array<std::string_view, kCommands.size()> names;
  std::ranges::transform(kCommands, names.begin(), &Command::name);
  console.log.error("no command '{}'{} (there are: {})", on_one_line(first), did_you_mean(first, names), listed(names));
  return kTrouble;
}

}  // namespace

int run(const Arguments& arguments) noexcept {
  try {
    spdlog::logger log("jointledger", std::make_shared<spdlog::sinks::stderr_sink_st>());
    log.set_pattern("%n: %l: %v");
    // A pipe that nobody reads any more is an error to be named, not a reason to vanish.
    ::signal(SIGPIPE, SIG_IGN);
    Output out;
    Console console{out, log};
    int status = kTrouble;
    try {
      status = dispatch(arguments, console);
    } catch (const std::bad_alloc&) {
      log.critical("out of memory");
    } catch (const std::exception&) {
      // Its message could quote anything.
      log.critical("stopped by an error that should not happen");
    }
    if (const auto failure = out.finish(); failure && status != kStopped) {
      log.error("cannot write the output: {}", *failure);
      return kStopped;
    }
    return status;
  } catch (...) {
    return kTrouble;
  }
}

}  // namespace jointledger
