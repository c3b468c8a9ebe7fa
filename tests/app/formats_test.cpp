// The same notes in every format, through the real program: the fixtures give the ledgers that NDJSON gives.
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "program.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Outcome;
using testing::run_program;

std::vector<json> ledgers_in(const std::string& fixture, std::vector<std::string> options = {}) {
  std::vector<std::string> arguments = {"read", "--to", "ndjson", std::string(JOINTLEDGER_FIXTURES "/") + fixture};
  arguments.insert(arguments.end(), options.begin(), options.end());
  const Outcome outcome = run_program(arguments);
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  std::vector<json> ledgers;
  std::istringstream lines(outcome.out);
  for (std::string line; std::getline(lines, line);) ledgers.push_back(json::parse(line));
  return ledgers;
}

/// The entries of the demo notes 3, 14 and 21, which are those of the fixtures.
const std::vector<json>& expected() {
  static const std::vector<json> entries = [] {
    std::vector<json> found;
    for (const json& ledger : ledgers_in("notes.ndjson")) {
      const std::string number = ledger["id"].get<std::string>().substr(0, 2);
      if (number == "03" || number == "14" || number == "21") found.push_back(ledger["entries"]);
    }
    return found;
  }();
  return entries;
}

/// Without the places in the text, which another layout moves.
json cells(json entries) {
  for (json& entry : entries) {
    for (const char* placed : {"evidence", "degrees", "grade"}) entry.erase(placed);
  }
  return entries;
}

TEST(Formats, TheSameNotesGiveTheSameLedgers) {
  const std::map<std::string, std::string> fixtures = {
      {"csv/notes.csv", "csv"}, {"tsv/notes.tsv", "tsv"},  {"fhir/documents.ndjson", "fhir"},
      {"hl7/batch.hl7", "hl7"}, {"omop/NOTE.csv", "omop"}, {"gzip/notes.ndjson.gz", "ndjson"},
  };
  ASSERT_EQ(expected().size(), 3U);
  for (const auto& [fixture, format] : fixtures) {
    for (const std::string& from : {format, std::string("auto")}) {
      const std::vector<json> ledgers = ledgers_in(fixture, {"--from", from});
      ASSERT_EQ(ledgers.size(), 3U) << fixture;
      for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(ledgers[i]["entries"], expected()[i]) << fixture << " " << i;
    }
  }
}

TEST(Formats, MarkupGivesTheSameCells) {
  const std::vector<json> bundle = ledgers_in("fhir/bundle.json");
  ASSERT_EQ(bundle.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(cells(bundle[i]["entries"]), cells(expected()[i])) << i;
  const std::vector<json> document = ledgers_in("ccda/14-knee-one-side-only.xml");
  ASSERT_EQ(document.size(), 1U);
  EXPECT_EQ(cells(document[0]["entries"]), cells(expected()[1]));
}

TEST(Formats, ACopiedExamIsFoundByWhatTheSourceCallsItsAuthor) {
  std::string csv = "note,body,who\n";
  const std::string exam =
      "EXAM: Right knee: no swelling, no redness. Nontender over the joint lines and the patella. Flexion and "
      "extension "
      "full and without any pain at the end of the range on this side today. Strength 5/5 in flexion and extension. "
      "Lachman and posterior drawer negative. Gait even.";
  for (const char* id : {"a", "b"}) csv += std::string(id) + ",\"" + exam + "\",FW-1\n";
  const std::vector<std::string> arguments = {"audit",       "--profile", "screening",     "--to", "ndjson",
                                              "--id-column", "note",      "--text-column", "body"};
  EXPECT_EQ(run_program(arguments, {.input = csv}).out.find("copied-exam"), std::string::npos);
  std::vector<std::string> with_author = arguments;
  with_author.insert(with_author.end(), {"--author-column", "who"});
  EXPECT_NE(run_program(with_author, {.input = csv}).out.find("copied-exam"), std::string::npos);
}

TEST(Formats, SectionsOfClinicalDocumentsAreChosenByOption) {
  const std::vector<json> history = ledgers_in("ccda/14-knee-one-side-only.xml", {"--section", "10164-2"});
  ASSERT_EQ(history.size(), 1U);
  EXPECT_TRUE(history[0]["entries"].empty());
  EXPECT_FALSE(history[0]["complaints"].empty());
}

TEST(Formats, OptionsThatMakeNoSenseAreRefused) {
  const Outcome format = run_program({"read", "--from", "fhr"}, {.input = "knee"});
  EXPECT_EQ(format.status, 2);
  EXPECT_NE(format.err.find("did you mean 'fhir'?"), std::string::npos) << format.err;
  const Outcome column = run_program({"read", "--id-column", ""}, {.input = "knee"});
  EXPECT_EQ(column.status, 2);
  EXPECT_NE(column.err.find("--id-column: a column needs a name"), std::string::npos) << column.err;
}

}  // namespace
}  // namespace jointledger
