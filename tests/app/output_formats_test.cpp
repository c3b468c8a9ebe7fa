// What the formats of the output ask of the command line.
#include <gtest/gtest.h>

#include <string>

#include "program.h"

namespace jointledger {
namespace {

using testing::run_program;

const std::string kKnee = JOINTLEDGER_FIXTURES "/notes/03-knee-focused-excellent.txt";

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(OutputFormats, HelpNamesThemAll) {
  const std::string help = run_program({"audit", "--help"}).out;
  for (const auto* name : {"text", "json", "ndjson", "csv", "fhir", "fhir-bundle", "omop", "--date"}) {
    EXPECT_TRUE(contains(help, name)) << name;
  }
}

TEST(OutputFormats, FhirIsForAudits) {
  for (const auto* format : {"fhir", "fhir-bundle"}) {
    const auto outcome = run_program({"read", kKnee, "--to", format});
    EXPECT_EQ(outcome.status, 2);
    EXPECT_EQ(outcome.out, "");
    EXPECT_TRUE(contains(outcome.err, "jointledger audit")) << outcome.err;
  }
}

TEST(OutputFormats, OmopNeedsADay) {
  const auto without = run_program({"read", kKnee, "--to", "omop"});
  EXPECT_EQ(without.status, 2);
  EXPECT_TRUE(contains(without.err, "--date YYYY-MM-DD")) << without.err;
  for (const auto* date : {"2031-02-29", "today", ""}) {
    const auto outcome = run_program({"read", kKnee, "--to", "omop", "--date", date});
    EXPECT_EQ(outcome.status, 2);
    EXPECT_EQ(outcome.out, "");
    EXPECT_TRUE(contains(outcome.err, "a day is needed")) << outcome.err;
  }
}

TEST(OutputFormats, ANoteThatCannotBeWrittenIsSetAside) {
  const std::string input =
      "{\"id\": \"a\", \"text\": \"Left knee: no swelling.\"}\n{\"id\": 4, \"text\": \"Left knee: no swelling.\"}\n";
  const auto outcome =
      run_program({"read", "--from", "ndjson", "--to", "omop", "--date", "2031-06-01"}, {.input = input});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_TRUE(contains(outcome.out, "\r\n40001,4,,")) << outcome.out;
  EXPECT_TRUE(contains(outcome.err, "standard input:1 (id a), byte 0: its id is not a whole number")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "2 read, 1 written, 1 set aside")) << outcome.err;
  EXPECT_FALSE(contains(outcome.err, "swelling"));
}

}  // namespace
}  // namespace jointledger
