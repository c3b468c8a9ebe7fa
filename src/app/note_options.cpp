// The options of `read` and `audit`.
#include <algorithm>
#include <string_view>
#include <system_error>

#include "app/note_run.h"
#include "report/dates.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

/// Says that --to names no format.
void say_unknown(std::string_view value, Console& console) {
  std::vector<std::string_view> names;
  for (const ReportFormat& format : report_formats()) names.push_back(format.name);
  console.log.error("--to: no format '{}'{} (there are: {})", on_one_line(value), did_you_mean(value, names),
                    listed(names));
}

/// To empty a note before it is read would lose it.
bool is_input(const std::string& output, const NoteRun& run, std::string_view option, Console& console) {
  const auto found = std::ranges::find_if(run.inputs, [&](const std::string& input) {
    std::error_code error;
    return input != "-" && std::filesystem::equivalent(input, output, error) && !error;
  });
  if (found == run.inputs.end()) return false;
  console.log.error("--{}: {} is one of the notes", option, *found);
  return true;
}

bool are_the_same(const std::string& a, const std::string& b) {
  std::error_code error;
  return std::filesystem::weakly_canonical(a, error) == std::filesystem::weakly_canonical(b, error);
}

/// Whether the files that are written are no others'.
bool can_be_written(const NoteRun& run, Console& console) {
  const std::string& set_aside = run.batch.set_aside;
  if (!run.output.empty() && is_input(run.output, run, "output", console)) return false;
  if (!set_aside.empty() && is_input(set_aside, run, "set-aside", console)) return false;
  if (!run.output.empty() && !set_aside.empty() && are_the_same(run.output, set_aside)) {
    console.log.error("--set-aside: {} is the output", set_aside);
    return false;
  }
  return true;
}

}  // namespace

void add_note_options(po::options_description& options) {
  add_intake_options(options);
  options.add_options()("to", po::value<std::string>()->value_name("FORMAT"),
                        "format of the output: text (the default), json, ndjson, csv (of ledgers a row an entry, of "
                        "audits a row a gap), fhir (audits: R4 resources, one a line), fhir-bundle (the same in a "
                        "Bundle) or omop (the table NOTE_NLP of CDM v5.4; needs --date)");
  options.add_options()("date", po::value<std::string>()->value_name("YYYY-MM-DD"),
                        "the day of the run, for omop and fhir; the clock is never asked");
  options.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                        "write there instead of to the standard output; the file appears when it is complete");
  add_batch_options(options);
}

std::optional<NoteRun> note_run_of(const po::variables_map& options, Console& console) {
  NoteRun run;
  run.inputs = values_of(options, "note");
  if (run.inputs.empty()) run.inputs.emplace_back("-");
  auto intake = intake_of(options, console);
  if (!intake) return std::nullopt;
  run.intake = std::move(*intake);
  run.to = &report_formats().front();
  if (options.count("to") > 0) {
    const auto& value = options["to"].as<std::string>();
    run.to = report_format_named(value);
    if (run.to == nullptr) {
      say_unknown(value, console);
      return std::nullopt;
    }
  }
  if (options.count("date") > 0) {
    run.date = options["date"].as<std::string>();
    if (!is_date(run.date)) {
      console.log.error("--date: a day is needed, such as 2031-03-04");
      return std::nullopt;
    }
  } else if (run.to->dated) {
    console.log.error("--to {} needs the day of the run: --date YYYY-MM-DD", run.to->name);
    return std::nullopt;
  }
  auto batch = batch_options_of(options, console);
  if (!batch) return std::nullopt;
  run.batch = std::move(*batch);
  if (options.count("output") > 0) run.output = options["output"].as<std::string>();
  if (!can_be_written(run, console)) return std::nullopt;
  return run;
}

}  // namespace jointledger
