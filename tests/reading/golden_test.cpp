// The ledgers of the demo notes, kept in golden/: whatever changes the reading shows here what it does to whole notes.
//
// They are what the program reads, not what is right (that is fixtures/notes.coding.ndjson, see accuracy_test.cpp).
// JOINTLEDGER_REGENERATE=1 writes them anew; the difference is for a person to look at.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "demo_notes.h"
#include "ledger_json.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::DemoNote;

const std::filesystem::path kGolden = std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "tests" / "reading" / "golden";

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (!line.empty() && line.back() == ',') line.pop_back();  // a last entry that is no longer the last is the same
    lines.push_back(line);
  }
  return lines;
}

/// The lines that only one of two different ledgers has.
std::string changes(const std::string& before, const std::string& after) {
  const auto old_lines = lines_of(before);
  const auto new_lines = lines_of(after);
  std::string text;
  const auto add = [&](char sign, const std::vector<std::string>& of, const std::vector<std::string>& other) {
    for (const std::string& line : of) {
      if (std::ranges::find(other, line) == other.end()) text.append(1, sign).append(line).append("\n");
    }
  };
  add('-', old_lines, new_lines);
  add('+', new_lines, old_lines);
  return text.empty() ? "the order of the entries" : text;
}

TEST(Golden, DemoNotesAreReadAsBefore) {
  const bool regenerate = std::getenv("JOINTLEDGER_REGENERATE") != nullptr;
  if (regenerate) std::filesystem::create_directories(kGolden);
  std::set<std::filesystem::path> files;
  for (const DemoNote& note : testing::demo_notes()) {
    const auto path = kGolden / (note.id + ".json");
    files.insert(path);
    const std::string now = testing::json_of(note.id, note.text, testing::read(note.text));
    if (regenerate) {
      std::ofstream(path, std::ios::binary) << now;
      continue;
    }
    std::ifstream file(path, std::ios::binary);
    std::ostringstream before;
    before << file.rdbuf();
    if (before.str() != now) {
      ADD_FAILURE() << note.id << " (- as in golden/, + as read now)\n" << changes(before.str(), now);
    }
  }
  EXPECT_EQ(files.size(), 30U);
  for (const auto& entry : std::filesystem::directory_iterator(kGolden)) {
    EXPECT_TRUE(files.contains(entry.path())) << entry.path() << " belongs to no demo note";
  }
  if (regenerate) GTEST_SKIP() << kGolden << " written anew";
}

}  // namespace
}  // namespace jointledger
