// What does not hold together, in the forms that an audit goes out in.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "example.h"
#include "report/json_report.h"
#include "report/plain_text.h"
#include "report/text_report.h"
#include "schema_check.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Example;
using testing::words;

/// Gives the example a clash of two places, and a copied exam.
void make_inconsistent(Example& example) {
  Inconsistency clash;
  clash.region = Region::knee;
  clash.side = Side::right;
  clash.component = Component::inspection;
  clash.first = {words("mild swelling")};
  clash.second = {words("Left knee")};
  clash.message = "Which one holds?";
  const std::vector<Span> exam = {words("Right knee: mild swelling")};
  example.result.inconsistencies = {clash, copied_exam(exam, "visit\x1b[31m", 0.943)};
}

TEST(Inconsistencies, InJsonAreAsTheSchemaSays) {
  Example example;
  make_inconsistent(example);
  const ReportRun run{.profile = &example.profile, .colour = false};
  std::string out;
  kNdjsonReport.add(run, {example.note, example.ledger, &example.result}, out);
  std::ifstream file(JOINTLEDGER_FIXTURES "/schema/audit.schema.json");
  const json audit = json::parse(out);
  EXPECT_EQ(testing::schema_faults(audit, json::parse(file)), "");
  const json& list = audit.at("inconsistencies");
  ASSERT_EQ(list.size(), 2U);
  EXPECT_EQ(list[0].at("check"), "contradiction");
  EXPECT_EQ(list[0].at("component"), "inspection");
  EXPECT_EQ(list[0].at("first").size(), 1U);
  EXPECT_FALSE(list[0].contains("share"));
  EXPECT_EQ(list[1].at("other_note"), "visit\x1b[31m");
  EXPECT_EQ(list[1].at("share"), 0.94);
}

TEST(Inconsistencies, InTextShowBothPlaces) {
  Example example;
  make_inconsistent(example);
  const ReportRun run{.profile = &example.profile, .colour = false};
  std::string out;
  add_text(run, {example.note, example.ledger, &example.result}, out);
  EXPECT_EQ(out.find('\x1b'), std::string::npos) << "an id cannot steer the terminal";
  const std::string flat = on_one_line(out);
  EXPECT_NE(flat.find("Does not hold together"), std::string::npos);
  EXPECT_NE(flat.find("[contradiction] \"mild swelling\" against \"Left knee\""), std::string::npos) << flat;
  EXPECT_NE(flat.find("[copied-exam]"), std::string::npos);
}

}  // namespace
}  // namespace jointledger
