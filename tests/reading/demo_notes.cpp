#include "demo_notes.h"

#include <fstream>
#include <nlohmann/json.hpp>

namespace jointledger::testing {
namespace {

std::vector<nlohmann::json> lines_of_json(const char* file) {
  std::ifstream in(file, std::ios::binary);
  std::vector<nlohmann::json> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(nlohmann::json::parse(line));
  return lines;
}

}  // namespace

std::vector<DemoNote> demo_notes() {
  std::vector<DemoNote> notes;
  for (const auto& line : lines_of_json(JOINTLEDGER_FIXTURES "/notes.ndjson")) {
    notes.push_back({line.at("id"), line.at("text")});
  }
  return notes;
}

std::map<std::string, Cells> demo_codings() {
  std::map<std::string, Cells> codings;
  for (const auto& line : lines_of_json(JOINTLEDGER_FIXTURES "/notes.coding.ndjson")) {
    Ledger ledger;
    for (const auto& coded : line.at("entries")) {
      const auto text = [&](const char* key) { return coded.at(key).get<std::string>(); };
      Entry& entry = ledger.entries.emplace_back();
      entry.region = region_named(text("region")).value();
      entry.component = component_named(text("component")).value();
      entry.side = side_named(text("side")).value();
      entry.outcome = outcome_named(text("outcome")).value();
      if (entry.component == Component::unspecified) ledger.entries.pop_back();
    }
    codings[line.at("id")] = cells_of(ledger);
  }
  return codings;
}

}  // namespace jointledger::testing
