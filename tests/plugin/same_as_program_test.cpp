// What the library writes is what the program writes, byte for byte.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "../app/program.h"
#include "handles.h"

namespace jointledger {
namespace {

using testing::run_program;
namespace fs = std::filesystem;

const std::string kNotes = JOINTLEDGER_FIXTURES "/notes";
const std::string kRecords = JOINTLEDGER_FIXTURES "/notes.ndjson";

std::vector<fs::path> note_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(kNotes)) files.push_back(entry.path());
  std::ranges::sort(files);
  return files;
}

std::string program(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.end(), {"--to", "ndjson"});
  const testing::Outcome outcome = run_program(words, {.input = input});
  EXPECT_TRUE(outcome.status == 0 || outcome.status == 1) << outcome.err;  // nothing was set aside
  return outcome.out;
}

class SameAsProgram : public ::testing::Test {
 protected:
  testing::Engine engine_ = testing::shipped_engine();
  testing::Scratch scratch_ = testing::new_scratch();
};

TEST_F(SameAsProgram, LedgersOfTextFiles) {
  std::vector<std::string> words = {"read"};
  std::string ours;
  for (const fs::path& file : note_files()) {
    words.push_back(file.string());
    ASSERT_EQ(testing::read(engine_, scratch_, testing::contents(file)), JOINTLEDGER_OK);
    ours += testing::ledger_line(scratch_, file.string());
  }
  ASSERT_EQ(words.size(), 31U);
  EXPECT_EQ(ours, program(words));
}

TEST_F(SameAsProgram, AuditsOfTextFilesAgainstEachProfileInTurn) {
  for (const std::string profile : {"screening", "complaint"}) {
    std::vector<std::string> words = {"audit", "--profile", profile};
    std::string ours;
    for (const fs::path& file : note_files()) {
      words.push_back(file.string());
      ASSERT_EQ(testing::read(engine_, scratch_, testing::contents(file)), JOINTLEDGER_OK);
      ASSERT_EQ(testing::audit(scratch_, profile == "screening" ? "complaint" : "screening"), JOINTLEDGER_OK);
      ASSERT_EQ(testing::audit(scratch_, profile), JOINTLEDGER_OK);
      ours += testing::audit_line(scratch_, file.string());
    }
    EXPECT_EQ(ours, program(words));
  }
}

TEST_F(SameAsProgram, TheStandardInputIsTheNoteWithoutAName) {
  const std::string note = testing::contents(note_files().front());
  ASSERT_EQ(testing::read(engine_, scratch_, note), JOINTLEDGER_OK);
  EXPECT_EQ(testing::ledger_line(scratch_), program({"read"}, note));
}

TEST_F(SameAsProgram, LedgersOfRecordsWithAllThatTheSourceKnew) {
  std::string ours;
  for (const std::string& line : testing::lines_of(kRecords)) {
    ASSERT_EQ(testing::read_record(engine_, scratch_, line), JOINTLEDGER_OK) << testing::message(scratch_);
    ours += testing::ledger_line(scratch_);
  }
  EXPECT_EQ(ours, program({"read", kRecords}));
  EXPECT_NE(ours.find("\"author\""), std::string::npos);
}

TEST_F(SameAsProgram, AuditsOfRecordsWithTheExamsThatRepeatEarlierOnes) {
  ASSERT_EQ(jointledger_scratch_remember(scratch_.get(), 16'384), JOINTLEDGER_OK);
  std::string ours;
  for (const std::string& line : testing::lines_of(kRecords)) {
    ASSERT_EQ(testing::read_record(engine_, scratch_, line + "\r\n"), JOINTLEDGER_OK);
    ASSERT_EQ(testing::audit(scratch_, "screening"), JOINTLEDGER_OK);
    ASSERT_EQ(testing::audit(scratch_, "complaint", nullptr, 0.9F), JOINTLEDGER_OK);
    ours += testing::audit_line(scratch_);
  }
  EXPECT_EQ(ours, program({"audit", "--profile", "complaint", "--certainty", "0.9", kRecords}));
  EXPECT_NE(ours.find("\"copied-exam\""), std::string::npos);
  EXPECT_NE(ours.find("\"doubtful\""), std::string::npos);
}

TEST_F(SameAsProgram, AnIdThatIsANumberStaysOne) {
  const std::string line = R"({"id": 1e2, "ward": {"n": [1, null]}, "text": "EXAM: Left knee: no swelling."})";
  ASSERT_EQ(testing::read_record(engine_, scratch_, line), JOINTLEDGER_OK);
  EXPECT_EQ(testing::ledger_line(scratch_), program({"read", "--from", "ndjson"}, line + "\n"));
  // An id that is given stands for the record's own.
  EXPECT_TRUE(testing::ledger_line(scratch_, "mine").starts_with(R"({"id":"mine","ward":{"n": [1, null]},)"));
}

}  // namespace
}  // namespace jointledger
