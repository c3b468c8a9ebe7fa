// jointledger set-aside: records that could not be read, as they came in.
#include <fstream>
#include <string>

#include "app/options.h"
#include "batch/set_aside.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger set-aside",
    "FILE...",
    "Prints the records that a run put into FILE with --set-aside, byte for byte as\n"
    "they came in, a line break after each: to be mended and read again. With --list\n"
    "it prints where each came from and what was wrong with it instead.\n"
    "\n"
    "FILE has a JSON object a line, so other tools can read it as well:\n"
    "  {\"record\": \"notes.ndjson:7\", \"line\": 7, \"offset\": 5120, \"reason\": \"...\",\n"
    "   \"bytes\": \"...\"}\n"
    "A record that is not UTF-8, or was too long to be held, has \"base64\" instead of\n"
    "\"bytes\"; \"bytes\" is null where there is no record, e.g. of a file that could not\n"
    "be opened, and in all lines but the first of a record with several faults.\n"
    "\n"
    "Exit status: 0 all was printed; 2 bad usage, or a line that is no such record.\n",
    "  jointledger set-aside faulty.ndjson > mended.ndjson\n"
    "  jointledger set-aside faulty.ndjson --list\n",
};

/// Returns whether all lines were good.
bool print(std::istream& lines, const std::string& path, bool list, Console& console) {
  bool good = true;
  std::string line;
  for (std::uint64_t number = 1; std::getline(lines, line); ++number) {
    const auto read = read_set_aside(line);
    if (const auto* reason = std::get_if<std::string>(&read)) {
      console.log.error("{}:{}: {}", path, number, *reason);
      good = false;
      continue;
    }
    const SetAside& record = std::get<SetAside>(read);
    if (list) {
      console.out.write(on_one_line(record.fault.record + ": " + record.fault.reason) + "\n");
    } else if (record.bytes) {
      console.out.write(*record.bytes + "\n");
    }
    console.out.settle();
  }
  return good;
}

}  // namespace

int set_aside_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  options.add_options()("list", "print the place of each record and the reason, not the record");
  int status = kComplete;
  const auto values = read_options(arguments, options, "file", kHelp, console, status);
  if (!values) return status;
  const Arguments files = values_of(*values, "file");
  if (files.empty()) {
    console.log.error("which file? See: jointledger set-aside --help");
    return kTrouble;
  }
  for (const std::string& path : files) {
    std::ifstream lines(path, std::ios::binary);
    if (!lines) {
      console.log.error("cannot read {}", path);
      status = kTrouble;
    } else if (!print(lines, path, values->count("list") > 0, console)) {
      status = kTrouble;
    }
  }
  return status;
}

}  // namespace jointledger
