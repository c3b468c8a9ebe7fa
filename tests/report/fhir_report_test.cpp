// FHIR, where tests/outside/fhir_out_test.py does not look: what takes the shape of a note or a profile.
#include "report/fhir_report.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "report/fhir_terms.h"
#include "written.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Example;
using testing::words;
using testing::written;

std::vector<json> resources(const Example& example, std::string_view date = "2031-06-01") {
  std::vector<json> result;
  std::istringstream lines(written(kFhirReport, example, true, 1, date));
  for (std::string line; std::getline(lines, line);) result.push_back(json::parse(line));
  return result;
}

json patient_of(std::string_view type, std::string_view key, std::string_view value) {
  Example example;
  const std::array<Member, 2> members = {Member{type.empty() ? "kind" : "resourceType", type.empty() ? "1" : type},
                                         Member{key, value}};
  example.note.metadata = members;
  return resources(example).front().value("patient", json());
}

TEST(FhirReport, APatientIsTakenForOneOnlyIfItIs) {
  constexpr std::string_view kDocument = "\"DocumentReference\"";
  EXPECT_EQ(patient_of("", "patient", "\"P-1\""), json::parse(R"({"type":"Patient","identifier":{"value":"P-1"}})"));
  EXPECT_EQ(patient_of("", "patient", "12")["identifier"]["value"], "12");
  EXPECT_EQ(patient_of("", "patient", "null"), json());
  EXPECT_EQ(patient_of("", "patient", "[1]"), json());
  for (const auto* subject : {R"({"reference":"Patient/1"})", R"({"reference":"http://x.example/fhir/Patient/1"})",
                              R"({"reference":"urn:uuid:1"})", R"({"type":"Patient","display":"B"})"}) {
    EXPECT_EQ(patient_of(kDocument, "subject", subject), json::parse(subject));
  }
  for (const auto* subject : {R"({"reference":"Group/1"})", R"({"reference":"urn:uuid:1","type":"Device"})",
                              R"({"display":"B"})", R"("Patient/1")"}) {
    EXPECT_EQ(patient_of(kDocument, "subject", subject), json());
  }
}

TEST(FhirReport, IdsTellApartAndStay) {
  Example example;
  Inconsistency clash;
  clash.side = Side::right;
  clash.first = {words("mild swelling")};
  clash.second = {words("Left knee")};
  clash.message = "Which one holds?";
  Inconsistency elsewhere = clash;
  elsewhere.first = {words("tender")};
  example.result.inconsistencies = {clash, elsewhere};
  std::vector<std::string> ids;
  for (const json& resource : resources(example)) ids.push_back(resource["id"]);
  EXPECT_EQ(ids.size(), example.result.gaps.size() + 3);
  std::vector<std::string> later;
  for (const json& resource : resources(example, "2031-06-02")) later.push_back(resource["id"]);
  EXPECT_NE(later.back(), ids.back()) << "another run";
  later.back() = ids.back();
  EXPECT_EQ(later, ids);
  std::ranges::sort(ids);
  EXPECT_EQ(std::ranges::adjacent_find(ids), ids.end());
}

TEST(FhirReport, WithoutADateThereIsNone) {
  const Example example;
  const auto all = resources(example, "");
  EXPECT_FALSE(all.front().contains("identifiedDateTime"));
  EXPECT_FALSE(all.back().contains("date"));
}

TEST(FhirTerms, UrnsHoldNoStrayCharacters) {
  // RFC 8141: what is no pchar stands as %XX.
  EXPECT_EQ(fhir::expectation_uri("complaint", "knee-motion"), "urn:jointledger:expectation:complaint:knee-motion");
  EXPECT_EQ(fhir::measure_uri("our rules/\xC3\xBC"), "urn:jointledger:measure:our%20rules%2F%C3%BC");
}

TEST(FhirTerms, UuidsAreOfVersionFive) {
  // The value is that of Python's uuid.uuid5(NAMESPACE_URL, "urn:x").
  EXPECT_EQ(fhir::uuid_of("urn:x"), "90f709ed-492e-56da-89b5-713dabad00b9");
}

}  // namespace
}  // namespace jointledger
