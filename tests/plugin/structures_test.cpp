// The plain structures say the same as the JSON.
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "handles.h"

namespace jointledger {
namespace {

using nlohmann::json;

json spans(const jointledger_span* items, std::size_t count) {
  json list = json::array();
  for (std::size_t i = 0; i < count; ++i) list.push_back({{"start", items[i].start}, {"end", items[i].end}});
  return list;
}

json span(jointledger_span s) { return {{"start", s.start}, {"end", s.end}}; }

json motions(std::uint32_t bits) {
  json list = json::array();
  for (int m = 0; jointledger_motion_name(m) != nullptr; ++m) {
    if ((bits >> m & 1U) != 0) list.push_back(jointledger_motion_name(m));
  }
  return list;
}

json strings(const char* const* items, std::size_t count) { return std::vector<std::string>(items, items + count); }

/// The JSON leaves out lists that are empty.
void put(json& object, const char* key, json list) {
  if (!list.empty()) object[key] = std::move(list);
}

json entry(const jointledger_entry& e) {
  json object = {{"region", jointledger_region_name(e.region)},
                 {"component", jointledger_component_name(e.component)},
                 {"side", jointledger_side_name(e.side)},
                 {"outcome", jointledger_outcome_name(e.outcome)},
                 {"evidence", spans(e.evidence, e.evidence_count)}};
  put(object, "motions", motions(e.motions));
  put(object, "structures", strings(e.structures, e.structure_count));
  put(object, "tests", strings(e.tests, e.test_count));
  json degrees = json::array();
  for (std::size_t i = 0; i < e.degrees_count; ++i) {
    const jointledger_degrees& d = e.degrees[i];
    json one = {{"side", jointledger_side_name(d.side)}, {"to", d.to}, {"evidence", span(d.evidence)}};
    if (d.motion != JOINTLEDGER_NONE) one["motion"] = jointledger_motion_name(d.motion);
    if (d.has_from != 0) one["from"] = d.from;
    if (d.lacking != 0) one["lacking"] = true;
    degrees.push_back(one);
  }
  put(object, "degrees", degrees);
  json grades = json::array();
  for (std::size_t i = 0; i < e.grade_count; ++i) {
    const jointledger_grade& g = e.grades[i];
    grades.push_back({{"value", g.value},
                      {"scale", g.scale},
                      {"side", jointledger_side_name(g.side)},
                      {"evidence", span(g.evidence)}});
  }
  put(object, "grade", grades);
  return object;
}

json ledger(const jointledger_ledger& l) {
  json object = {{"entries", json::array()}, {"complaints", json::array()}};
  for (std::size_t i = 0; i < l.entry_count; ++i) object["entries"].push_back(entry(l.entries[i]));
  for (std::size_t i = 0; i < l.complaint_count; ++i) {
    const jointledger_complaint& c = l.complaints[i];
    object["complaints"].push_back({{"region", jointledger_region_name(c.region)},
                                    {"side", jointledger_side_name(c.side)},
                                    {"injury", c.injury != 0},
                                    {"evidence", span(c.evidence)}});
  }
  return object;
}

json gap(const jointledger_gap& g) {
  json object = {{"expectation", g.expectation},
                 {"kind", jointledger_kind_name(g.kind)},
                 {"region", jointledger_region_name(g.region)},
                 {"side", jointledger_side_name(g.side)},
                 {"reason", jointledger_reason_name(g.reason)},
                 {"prompt", g.prompt},
                 {"nearest", spans(g.nearest, g.nearest_count)},
                 {"components", json::array()}};
  for (std::size_t i = 0; i < g.component_count; ++i) {
    object["components"].push_back(jointledger_component_name(g.components[i]));
  }
  put(object, "motions", motions(g.motions));
  put(object, "structures", strings(g.structures, g.structure_count));
  return object;
}

json inconsistency(const jointledger_inconsistency& i) {
  json object = {{"check", jointledger_check_name(i.check)},  {"region", jointledger_region_name(i.region)},
                 {"side", jointledger_side_name(i.side)},     {"first", spans(i.first, i.first_count)},
                 {"second", spans(i.second, i.second_count)}, {"message", i.message}};
  if (i.component != JOINTLEDGER_NONE) object["component"] = jointledger_component_name(i.component);
  if (i.other_note != nullptr) object["other_note"] = i.other_note;
  return object;
}

/// Without its figures, which the JSON rounds.
json unrounded(json object, std::initializer_list<const char*> figures) {
  for (const char* figure : figures) object.erase(figure);
  return object;
}

class Structures : public ::testing::Test {
 protected:
  template <class Each>
  void for_each_note(const Each& each) {
    ASSERT_EQ(jointledger_scratch_remember(scratch_.get(), 100), JOINTLEDGER_OK);
    for (const std::string& line : testing::lines_of(JOINTLEDGER_FIXTURES "/notes.ndjson")) {
      const jointledger_ledger* read = nullptr;
      ASSERT_EQ(testing::read_record(engine_, scratch_, line, &read), JOINTLEDGER_OK);
      each(*read);
    }
  }

  testing::Engine engine_ = testing::shipped_engine();
  testing::Scratch scratch_ = testing::new_scratch();
};

TEST_F(Structures, LedgersSayWhatTheirJsonSays) {
  for_each_note([&](const jointledger_ledger& read) {
    const json written = json::parse(testing::ledger_line(scratch_));
    json expected = {{"entries", json::array()}, {"complaints", written["complaints"]}};
    for (const json& e : written["entries"]) expected["entries"].push_back(unrounded(e, {"certainty"}));
    EXPECT_EQ(ledger(read), expected);
    for (std::size_t i = 0; i < read.entry_count; ++i) {
      EXPECT_NEAR(read.entries[i].certainty, written["entries"][i]["certainty"].get<double>(), 0.0006);
    }
  });
}

TEST_F(Structures, AuditsSayWhatTheirJsonSays) {
  std::size_t inconsistencies = 0;
  for_each_note([&](const jointledger_ledger& read) {
    for (const char* profile : {"screening", "complaint"}) {
      const jointledger_audit* a = nullptr;
      ASSERT_EQ(testing::audit(scratch_, profile, &a, 0.9F), JOINTLEDGER_OK);
      const json written = json::parse(testing::audit_line(scratch_));
      EXPECT_EQ(a->profile, written["profile"]);
      EXPECT_NEAR(a->score, written["score"].get<double>(), 0.00006);
      EXPECT_EQ(a->applicable, written["applicable"]);
      EXPECT_EQ(a->met, written["met"]);
      EXPECT_EQ(a->notice, written["notice"]);
      ASSERT_EQ(a->gap_count, written["gaps"].size());
      int required = 0;
      for (std::size_t i = 0; i < a->gap_count; ++i) {
        EXPECT_EQ(gap(a->gaps[i]), unrounded(written["gaps"][i], {"credit"}));
        EXPECT_NEAR(a->gaps[i].credit, written["gaps"][i]["credit"].get<double>(), 0.00006);
        if (written["gaps"][i]["kind"] == "required") required = 1;
      }
      EXPECT_EQ(a->lacks_required, required);
      ASSERT_EQ(a->credit_count, written["credits"].size());
      for (std::size_t i = 0; i < a->credit_count; ++i) {
        const jointledger_credit& c = a->credits[i];
        EXPECT_EQ(c.expectation, written["credits"][i]["expectation"]);
        EXPECT_EQ(jointledger_region_name(c.region), written["credits"][i]["region"]);
        EXPECT_EQ(jointledger_side_name(c.side), written["credits"][i]["side"]);
        ASSERT_GT(c.entry_count, 0U);
        EXPECT_LT(c.entries[c.entry_count - 1], read.entry_count);
      }
      ASSERT_EQ(a->inconsistency_count, written["inconsistencies"].size());
      for (std::size_t i = 0; i < a->inconsistency_count; ++i, ++inconsistencies) {
        EXPECT_EQ(inconsistency(a->inconsistencies[i]), unrounded(written["inconsistencies"][i], {"share"}));
      }
      const std::size_t doubtful = written.contains("doubtful") ? written["doubtful"].size() : 0;
      ASSERT_EQ(a->doubtful_count, doubtful);
      for (std::size_t i = 0; i < doubtful; ++i) {
        EXPECT_EQ(entry(read.entries[a->doubtful[i]]), unrounded(written["doubtful"][i], {"certainty"}));
      }
    }
  });
  EXPECT_GT(inconsistencies, 0U);  // or the loop above has shown nothing
}

TEST_F(Structures, EvidenceIsOfTheTextOfTheRecord) {
  // Escapes in the JSON make its text shorter than its line.
  const std::string line = R"({"id": "a", "text": "EXAM:\n\tLeft knee:\u0020no swelling."})";
  const jointledger_ledger* read = nullptr;
  ASSERT_EQ(testing::read_record(engine_, scratch_, line, &read), JOINTLEDGER_OK);
  const char* text = nullptr;
  std::size_t size = 0;
  ASSERT_EQ(jointledger_scratch_text(scratch_.get(), &text, &size), JOINTLEDGER_OK);
  EXPECT_EQ(std::string(text, size), "EXAM:\n\tLeft knee: no swelling.");
  ASSERT_EQ(read->entry_count, 1U);
  const jointledger_span last = read->entries[0].evidence[read->entries[0].evidence_count - 1];
  EXPECT_EQ(std::string(text + last.start, text + last.end), "swelling");
}

TEST_F(Structures, ProfilesAreListedWithAllThatTheyAskFor) {
  const jointledger_profile* profiles = nullptr;
  std::size_t count = 0;
  ASSERT_EQ(jointledger_profiles(engine_.get(), scratch_.get(), &profiles, &count), JOINTLEDGER_OK);
  ASSERT_EQ(count, 2U);
  EXPECT_STREQ(profiles[0].name, "complaint");
  EXPECT_STREQ(profiles[1].name, "screening");
  for (std::size_t p = 0; p < count; ++p) {
    for (const char* text : {profiles[p].title, profiles[p].purpose, profiles[p].caution}) EXPECT_STRNE(text, "");
    // The rules have one table of this name for each expectation.
    const std::string rules =
        testing::contents(std::string(JOINTLEDGER_SOURCE_DIR "/rules/") + profiles[p].name + ".toml");
    std::size_t tables = 0;
    for (std::size_t at = 0; (at = rules.find("\n[[expectation]]", at)) != std::string::npos; ++at) ++tables;
    EXPECT_EQ(profiles[p].expectation_count, tables);
    for (std::size_t e = 0; e < profiles[p].expectation_count; ++e) {
      const jointledger_expectation& expectation = profiles[p].expectations[e];
      EXPECT_NE(rules.find("id = \"" + std::string(expectation.id) + "\""), std::string::npos);
      EXPECT_NE(jointledger_kind_name(expectation.kind), nullptr);
      EXPECT_GT(expectation.weight, 0);
      EXPECT_STRNE(expectation.asks, "");
      EXPECT_STRNE(expectation.source, "");
    }
  }
}

}  // namespace
}  // namespace jointledger
