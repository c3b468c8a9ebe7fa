// What a visit is about, by what the history says of it.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "shipped.h"

namespace jointledger {
namespace {

using testing::read;

/// "knee right, hip left", with "(injury)" behind those that an injury brought.
std::string complaints(std::string_view note) {
  std::string text;
  for (const Complaint& c : read(note).complaints) {
    text.append(text.empty() ? "" : ", ").append(name(c.region)).append(" ").append(name(c.side));
    if (c.injury) text.append(" (injury)");
  }
  return text.empty() ? "none" : text;
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
