// What a visit is about, by what the history says of it: a table of notes with their complaints, and some more.
#include <gtest/gtest.h>

#include <boost/algorithm/string.hpp>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lexicon/table.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::read;

const std::filesystem::path kTable =
    std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "tests" / "reading" / "complaints.tsv";

/// "knee right, hip left", with "(injury)" behind those that an injury brought.
std::string complaints(std::string_view note) {
  std::string text;
  for (const Complaint& c : read(note).complaints) {
    text.append(text.empty() ? "" : ", ").append(name(c.region)).append(" ").append(name(c.side));
    if (c.injury) text.append(" (injury)");
  }
  return text.empty() ? "none" : text;
}

std::set<std::string> complaints_of(const std::string& note) {
  std::set<std::string> found;
  for (const Complaint& c : read(note).complaints) {
    found.insert(std::string(name(c.region)).append(" ").append(name(c.side)));
  }
  return found;
}

TEST(Complaints, OfTheTableAreRead) {
  const auto table = read_table(kTable);
  ASSERT_TRUE(table);
  ASSERT_EQ(table->columns, (std::vector<std::string>{"class", "note", "complaints"}));
  for (const TableRow& row : table->rows) {
    ASSERT_EQ(row.cells.size(), 3U) << "line " << row.line;
    std::set<std::string> meant;  // "-" is read as an empty cell
    std::vector<std::string> cells;
    if (!row.cells[2].empty()) boost::algorithm::split(cells, row.cells[2], boost::is_any_of(";"));
    for (const std::string& cell : cells) meant.insert(boost::algorithm::trim_copy(cell));
    const std::string note = boost::algorithm::replace_all_copy(row.cells[1], "\\n", "\n");
    EXPECT_EQ(complaints_of(note), meant) << kTable.filename() << ":" << row.line << ": " << row.cells[0];
  }
}

TEST(Complaints, AreWhatTheVisitIsAbout) {
  EXPECT_EQ(complaints("CHIEF COMPLAINT: Right knee pain.\nEXAM:\nNontender.\n"), "knee right");
  EXPECT_EQ(complaints("CC: Low back pain for a week.\nEXAM:\nGait normal.\n"), "lumbar_spine midline");
  EXPECT_EQ(complaints("CC: Pain in both shoulders.\nEXAM:\nGait normal.\n"), "shoulder both");
  EXPECT_EQ(complaints("CC: Neck pain. Stiffness of the left elbow.\nEXAM:\nGait normal.\n"),
            "cervical_spine midline, elbow left");
}

TEST(Complaints, TellAnInjury) {
  EXPECT_EQ(complaints("CC: Left ankle injury.\nHPI: Twisted the left ankle on the stairs yesterday.\nEXAM:\nNVI.\n"),
            "ankle left (injury)");
}

TEST(Complaints, AreNoneWhereNothingHurts) {
  EXPECT_EQ(complaints("HISTORY: Feels well, no joint complaint.\nEXAM:\nRight knee tender.\n"), "none");
  EXPECT_EQ(complaints("CC: Cough and fever.\nEXAM:\nLungs clear.\n"), "none");
  EXPECT_EQ(complaints(""), "none");
}

TEST(Complaints, LeaveOutThePastAndWhatIsDenied) {
  EXPECT_EQ(complaints("CC: Right knee pain.\nHPI: Right knee pain for a week. Denies hip pain.\n"
                       "PAST MEDICAL HISTORY: Left wrist fracture in childhood.\nEXAM:\nGait normal.\n"),
            "knee right");
}

}  // namespace
}  // namespace jointledger
