#include "batch/checkpoint.h"

#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>
#include <simdjson.h>

#include <filesystem>
#include <system_error>
#include <type_traits>

#include "batch/file_aside.h"

namespace jointledger {
namespace {

constexpr std::uint64_t kVersion = 1;

/// Every member by its name, for both directions. `C` is Checkpoint, const or not.
template <class C, class Each>
void each_number(C& checkpoint, Each each) {
  each("program", checkpoint.run.program);
  each("options", checkpoint.run.options);
  each("inputs", checkpoint.run.inputs);
  each("lexicon", checkpoint.run.lexicon);
  each("rules", checkpoint.run.rules);
  each("records", checkpoint.records);
  each("input_sum", checkpoint.input_sum);
  each("remembered_from", checkpoint.remembered_from);
  each("output_bytes", checkpoint.output_bytes);
  each("set_aside_bytes", checkpoint.set_aside_bytes);
  each("read", checkpoint.counts.read);
  each("answered", checkpoint.counts.answered);
  each("set_aside", checkpoint.counts.set_aside);
  each("with_gaps", checkpoint.counts.with_gaps);
  each("bytes", checkpoint.counts.bytes);
  each("lacks_required", checkpoint.counts.lacks_required);
  each("tally_notes", checkpoint.tally.notes);
  each("tally_asked", checkpoint.tally.asked);
  each("tally_complete", checkpoint.tally.complete);
  each("tally_gaps", checkpoint.tally.gaps);
  each("tally_inconsistencies", checkpoint.tally.inconsistencies);
  each("tally_score", checkpoint.tally.score);
  each("tally_first_date", checkpoint.tally.first_date);
  each("tally_last_date", checkpoint.tally.last_date);
  each("finished", checkpoint.finished);
}

constexpr const char* kExpectations = "tally_expectations";

/// [[asked, met], ...]
template <class Writer>
void write_expectations(const ReportTally& tally, Writer& writer) {
  writer.Key(kExpectations);
  writer.StartArray();
  for (const ExpectationTally& expectation : tally.expectations) {
    writer.StartArray();
    writer.Uint64(expectation.asked);
    writer.Uint64(expectation.met);
    writer.EndArray();
  }
  writer.EndArray();
}

/// False if there are none as they should be.
bool read_expectations(simdjson::dom::object object, ReportTally& tally) {
  simdjson::dom::array all;
  if (object[kExpectations].get(all) != simdjson::SUCCESS) return false;
  for (const simdjson::dom::element one : all) {
    ExpectationTally& expectation = tally.expectations.emplace_back();
    if (one.at(0).get(expectation.asked) != simdjson::SUCCESS) return false;
    if (one.at(1).get(expectation.met) != simdjson::SUCCESS) return false;
  }
  return true;
}

}  // namespace

std::string_view difference(const RunMark& a, const RunMark& b) {
  if (a.program != b.program) return "another build of the program";
  if (a.options != b.options) return "other options";
  if (a.inputs != b.inputs) return "other inputs";
  if (a.lexicon != b.lexicon) return "another lexicon";
  if (a.rules != b.rules) return "other rules";
  return {};
}

std::optional<std::string> save(const Checkpoint& checkpoint, const std::string& path) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer writer(buffer);
  writer.StartObject();
  writer.Key("version");
  writer.Uint64(kVersion);
  each_number(checkpoint, [&](const char* name, auto value) {
    writer.Key(name);
    writer.Uint64(value);
  });
  write_expectations(checkpoint.tally, writer);
  writer.EndObject();
  return replace_file(path, std::string(buffer.GetString(), buffer.GetSize()) + "\n");
}

std::variant<std::optional<Checkpoint>, std::string> load_checkpoint(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::exists(path, error) && !error) return std::optional<Checkpoint>();
  simdjson::padded_string bytes;
  if (simdjson::padded_string::load(path).get(bytes) != simdjson::SUCCESS) return "cannot be read";
  simdjson::dom::parser parser;
  simdjson::dom::object object;
  if (parser.parse(bytes).get(object) != simdjson::SUCCESS) return "is damaged";
  std::uint64_t version = 0;
  if (object["version"].get(version) != simdjson::SUCCESS) return "is damaged";
  if (version != kVersion) return "was written by another version";
  Checkpoint checkpoint;
  bool whole = true;
  each_number(checkpoint, [&](const char* name, auto& member) {
    std::uint64_t value = 0;
    whole = object[name].get(value) == simdjson::SUCCESS && whole;
    member = static_cast<std::remove_reference_t<decltype(member)>>(value);
  });
  if (!whole || !read_expectations(object, checkpoint.tally)) return "is damaged";
  return std::optional(checkpoint);
}

}  // namespace jointledger
