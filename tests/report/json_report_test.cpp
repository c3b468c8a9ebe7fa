// The JSON forms: against their schemas, value by value, and byte by byte the same.
#include "report/json_report.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "example.h"
#include "schema_check.h"
#include "written.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Example;
using testing::schema_faults;
using testing::written;

json schema_named(const std::string& name) {
  std::ifstream file(JOINTLEDGER_FIXTURES "/schema/" + name + ".schema.json");
  return json::parse(file);
}

json parsed(const Example& example, bool audited) { return json::parse(written(kNdjsonReport, example, audited)); }

TEST(NdjsonReport, IsOneLineANote) {
  const Example example;
  const std::string out = written(kNdjsonReport, example, false, 3);
  EXPECT_EQ(std::ranges::count(out, '\n'), 3);
  EXPECT_TRUE(out.ends_with("}\n"));
}

TEST(NdjsonReport, LedgerIsAsItsSchemaSays) {
  const Example example;
  EXPECT_EQ(schema_faults(parsed(example, false), schema_named("ledger")), "");
}

TEST(NdjsonReport, AuditIsAsItsSchemaSays) {
  const Example example;
  EXPECT_EQ(schema_faults(parsed(example, true), schema_named("audit")), "");
}

TEST(NdjsonReport, SchemasNoticeWhatIsWrong) {
  const Example example;
  json ledger = parsed(example, false);
  ledger["entries"][0]["region"] = "tail";
  EXPECT_NE(schema_faults(ledger, schema_named("ledger")), "");
  ledger = parsed(example, false);
  ledger["entries"][0]["note"] = 1;
  EXPECT_NE(schema_faults(ledger, schema_named("ledger")), "");
  json audit = parsed(example, true);
  audit["gaps"][0].erase("prompt");
  EXPECT_NE(schema_faults(audit, schema_named("audit")), "");
  audit = parsed(example, true);
  audit["score"] = 1.5;
  EXPECT_NE(schema_faults(audit, schema_named("audit")), "");
}

template <class Names>
void expect_same(const json& schema, const char* definition, const Names& names) {
  EXPECT_EQ(schema["definitions"][definition]["enum"].get<std::vector<std::string>>(),
            std::vector<std::string>(names.begin(), names.end()))
      << definition;
}

TEST(Schemas, KnowTheSameValuesAsTheCode) {
  const json ledger = schema_named("ledger");
  const json audit = schema_named("audit");
  for (const json* schema : {&ledger, &audit}) {
    expect_same(*schema, "region", region_names());
    expect_same(*schema, "component", component_names());
    expect_same(*schema, "side", side_names());
    expect_same(*schema, "motion", motion_names());
  }
  expect_same(ledger, "outcome", outcome_names());
  std::vector<std::string> reasons;
  for (std::size_t i = 0; i < kReasonCount; ++i) reasons.emplace_back(name(static_cast<Reason>(i)));
  EXPECT_EQ(audit["definitions"]["gap"]["properties"]["reason"]["enum"].get<std::vector<std::string>>(), reasons);
}

TEST(NdjsonReport, LedgerHoldsAllThatAnEntryHolds) {
  const Example example;
  const json ledger = parsed(example, false);
  EXPECT_EQ(ledger["id"], "visit-1");
  const json& motion = ledger["entries"][5];
  EXPECT_EQ(motion["motions"], json({"flexion"}));
  EXPECT_EQ(motion["degrees"][0]["from"], 0);
  EXPECT_EQ(motion["degrees"][0]["to"], 120);
  EXPECT_EQ(motion["degrees"][0].count("lacking"), 0U);
  EXPECT_EQ(motion["degrees"][1].count("motion"), 0U);
  EXPECT_EQ(motion["degrees"][1]["lacking"], true);
  EXPECT_EQ(ledger["entries"][3]["certainty"], 0.9);
  EXPECT_EQ(ledger["entries"][4]["structures"], json({"joint_line"}));
  EXPECT_EQ(ledger["entries"][6]["grade"][0]["value"], "4+");
  EXPECT_EQ(ledger["entries"][7]["tests"], json({"lachman"}));
  EXPECT_EQ(ledger["complaints"][0]["injury"], true);
  const json& span = motion["evidence"][0];
  EXPECT_EQ(example.note.text.substr(span["start"], span["end"].get<std::size_t>() - span["start"].get<std::size_t>()),
            "flexion 120\xC2\xB0");
}

TEST(NdjsonReport, CarriesOtherKeysThroughAsTheyCameIn) {
  const Example example;
  for (const bool audited : {false, true}) {
    const std::string out = written(kNdjsonReport, example, audited);
    EXPECT_TRUE(out.starts_with(R"({"id":"visit-1","author":"FW-01","n":[1, 2.50],)")) << out;
  }
  EXPECT_TRUE(parsed(example, false)["entries"].is_array());  // and not "theirs"
}

TEST(NdjsonReport, NumbersStayNumbers) {
  Example example;
  example.note.id = "12345678901234567890";
  example.note.id_is_number = true;
  EXPECT_TRUE(written(kNdjsonReport, example, false).starts_with(R"({"id":12345678901234567890,)"));
}

TEST(NdjsonReport, AuditHoldsAllThatAGapHolds) {
  const Example example;
  const json audit = parsed(example, true);
  EXPECT_EQ(audit["profile"], "test");
  EXPECT_EQ(audit["gaps"].size(), example.result.gaps.size());
  EXPECT_EQ(audit["credits"].size(), example.result.credits.size());
  const auto motion = std::ranges::find_if(
      audit["gaps"], [](const json& gap) { return gap["expectation"] == "knee-motion" && gap["side"] == "left"; });
  ASSERT_NE(motion, audit["gaps"].end()) << audit.dump(2);
  EXPECT_EQ((*motion)["motions"], json({"flexion", "extension"}));
  EXPECT_NE((*motion)["prompt"].get<std::string>().find("___"), std::string::npos);
  EXPECT_NE(audit["notice"].get<std::string>().find("never states a finding"), std::string::npos);
}

TEST(JsonReport, IsAnArrayOfTheSameObjects) {
  const Example example;
  for (const bool audited : {false, true}) {
    const json array = json::parse(written(kJsonReport, example, audited, 2));
    ASSERT_EQ(array.size(), 2U);
    EXPECT_EQ(array[0], parsed(example, audited));
    EXPECT_EQ(array[1], array[0]);
    EXPECT_EQ(json::parse(written(kJsonReport, example, audited, 0)), json::array());
  }
}

}  // namespace
}  // namespace jointledger
