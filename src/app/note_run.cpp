#include "app/note_run.h"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <system_error>
#include <variant>

#include "audit/audit.h"
#include "batch/repeats.h"
#include "intake/note_source.h"
#include "reading/reader.h"
#include "report/dates.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

template <class Formats>
std::vector<std::string_view> names_of(const Formats& formats) {
  std::vector<std::string_view> names;
  for (const auto& format : formats) names.push_back(format.name);
  return names;
}

/// Says that an option names no format.
template <class Formats>
void say_unknown(std::string_view option, std::string_view value, const Formats& known, Console& console) {
  const std::vector<std::string_view> names = names_of(known);
  console.log.error("--{}: no format '{}'{} (there are: {})", option, on_one_line(value), did_you_mean(value, names),
                    listed(names));
}

bool wants_colour(const Output& out) {
  const auto variable = [](const char* name) -> std::string_view {
    const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): no thread writes the environment
    return value == nullptr ? "" : value;
  };
  return out.is_terminal() && variable("NO_COLOR").empty() && variable("TERM") != "dumb";
}

/// To empty a note before it is read would lose it.
const std::string* input_that_is(const std::string& output, const std::vector<std::string>& inputs) {
  const auto found = std::ranges::find_if(inputs, [&](const std::string& input) {
    std::error_code error;
    return input != "-" && std::filesystem::equivalent(input, output, error) && !error;
  });
  return found == inputs.end() ? nullptr : &*found;
}

std::string in_words(const RecordFault& fault) {
  std::string words = fault.record;
  if (fault.place.line > 0) words.append(", byte ").append(std::to_string(fault.place.offset));
  return on_one_line(words.append(": ").append(fault.reason));
}

/// What the source says of a note under that key, as raw JSON; empty where it says nothing.
std::string_view member_of(const Note& note, std::string_view key) {
  const auto at = std::ranges::find(note.metadata, key, &Member::key);
  if (at == note.metadata.end() || at->json == "null" || at->json == "\"\"") return {};
  return at->json;
}

/// The line from one input to the output, and what it has seen so far.
class Line {
 public:
  Line(const NoteRun& run, const Lexicon& lexicon, const ReportRun& report, Output& out, Console& console)
      : format_(*run.to),
        least_certainty_(run.least_certainty),
        lexicon_(lexicon),
        report_(report),
        out_(out),
        console_(console) {}

  void take(NoteSource& source) {
    while (true) {
      const Incoming incoming = source.next();
      if (std::holds_alternative<EndOfNotes>(incoming)) return;
      if (const auto* fault = std::get_if<RecordFault>(&incoming)) {
        ++faults_;
        console_.log.error(in_words(*fault));
      } else {
        take(std::get<Note>(incoming));
      }
    }
  }

  const ReportTally& tally() const { return tally_; }
  std::size_t faults() const { return faults_; }
  bool lacks_required() const { return lacks_required_; }

 private:
  void take(const Note& note) {
    const std::string_view refusal = format_.refusal == nullptr ? std::string_view() : format_.refusal(note);
    if (refusal.empty()) return put(note);
    ++faults_;
    console_.log.error(in_words({std::string(note.id), {}, std::string(refusal)}));
  }

  void put(const Note& note) {
    if (tally_.notes > 0) out_.write(format_.between);
    const Ledger ledger = read_note(lexicon_, note.text, scratch_);
    if (report_.profile == nullptr) {
      add({note, ledger, nullptr});
    } else {
      Audit result = audit(*report_.profile, ledger, lexicon_.motion_limits(), least_certainty_);
      if (!report_.profile->checks_off.contains(Check::copied_exam)) {
        const auto repeat = repeats_.add(note.id, member_of(note, "author"), member_of(note, "patient"),
                                         print_of(note.text, ledger.exam));
        if (repeat) result.inconsistencies.push_back(copied_exam(ledger.exam, repeat->note, repeat->share));
      }
      lacks_required_ = lacks_required_ || result.lacks_required();
      add({note, ledger, &result});
    }
    out_.settle();
  }

  void add(const ReportItem& item) {
    format_.add(report_, item, out_.buffer());
    count(item, tally_);
  }

  const ReportFormat& format_;
  float least_certainty_;
  RepeatFinder repeats_;
  const Lexicon& lexicon_;
  const ReportRun& report_;
  Output& out_;
  Console& console_;
  ReadingScratch scratch_;
  ReportTally tally_;
  std::size_t faults_ = 0;
  bool lacks_required_ = false;
};

}  // namespace

void add_note_options(po::options_description& options) {
  options.add_options()("from", po::value<std::string>()->value_name("FORMAT"),
                        "format of the notes: text (a file is a note) or ndjson (a line is a note, "
                        "{\"id\", \"text\", ...}); by default a file named .ndjson is ndjson, all else text");
  options.add_options()("to", po::value<std::string>()->value_name("FORMAT"),
                        "format of the output: text (the default), json, ndjson, csv (of ledgers a row an entry, of "
                        "audits a row a gap), fhir (audits: R4 resources, one a line), fhir-bundle (the same in a "
                        "Bundle) or omop (the table NOTE_NLP of CDM v5.4; needs --date)");
  options.add_options()("date", po::value<std::string>()->value_name("YYYY-MM-DD"),
                        "the day of the run, for omop and fhir; the clock is never asked");
  options.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                        "write there instead of to the standard output");
}

std::optional<NoteRun> note_run_of(const po::variables_map& options, Console& console) {
  NoteRun run;
  run.inputs = values_of(options, "note");
  if (run.inputs.empty()) run.inputs.emplace_back("-");
  if (options.count("from") > 0) {
    const auto& value = options["from"].as<std::string>();
    run.from = format_named(value);
    if (run.from == nullptr) {
      say_unknown("from", value, formats(), console);
      return std::nullopt;
    }
  }
  run.to = &report_formats().front();
  if (options.count("to") > 0) {
    const auto& value = options["to"].as<std::string>();
    run.to = report_format_named(value);
    if (run.to == nullptr) {
      say_unknown("to", value, report_formats(), console);
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
  if (options.count("output") > 0) {
    run.output = options["output"].as<std::string>();
    if (const std::string* input = input_that_is(run.output, run.inputs)) {
      console.log.error("--output: {} is one of the notes", *input);
      return std::nullopt;
    }
  }
  return run;
}

int run_notes(const NoteRun& run, const Lexicon& lexicon, const Profile* profile, Console& console) {
  if (run.to->audits_only && profile == nullptr) {
    console.log.error("--to {} is for audits: jointledger audit --to {}", run.to->name, run.to->name);
    return kTrouble;
  }
  std::unique_ptr<Output> file;
  if (!run.output.empty()) {
    std::string reason;
    file = Output::open(run.output, reason);
    if (!file) {
      console.log.error("cannot write {}: {}", run.output, reason);
      return kTrouble;
    }
  }
  Output& out = file ? *file : console.out;
  const ReportRun report{.profile = profile, .colour = wants_colour(out), .date = run.date};
  Line line(run, lexicon, report, out, console);

  run.to->open(report, out.buffer());
  for (const std::string& input : run.inputs) {
    if (input == "-" && ::isatty(STDIN_FILENO) == 1) console.log.info("reading the standard input; end it with Ctrl-D");
    NoteSource source(input, run.from != nullptr ? *run.from : format_of(input));
    line.take(source);
  }
  run.to->close(report, line.tally(), out.buffer());

  if (const auto failure = out.finish()) {
    console.log.error("cannot write the output: {}", *failure);
    return kTrouble;
  }
  if (line.faults() > 0) {
    console.log.error("{} set aside, {} read", line.faults(), line.tally().notes);
    return kTrouble;
  }
  if (line.tally().notes == 0) console.log.warn("no notes in the input");
  return line.lacks_required() ? kGaps : kComplete;
}

}  // namespace jointledger
