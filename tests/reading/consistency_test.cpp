// Notes held against themselves, from the text on: what is asked about, and what is left alone.
#include "audit/consistency.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

#include "demo_notes.h"
#include "shipped.h"

namespace jointledger::testing {
namespace {

std::string found_in(const Ledger& ledger) {
  std::string text;
  for (const Inconsistency& found : inconsistencies(ledger, shipped_lexicon().motion_limits(), {})) {
    text.append(text.empty() ? "" : "; ")
        .append(name(found.check))
        .append(" ")
        .append(name(found.side))
        .append(" ")
        .append(name(found.region));
    if (found.component) text.append(" ").append(name(*found.component));
  }
  return text;
}

struct Case {
  const char* note;
  const char* found;
};
class Consistency : public ::testing::TestWithParam<Case> {};

TEST_P(Consistency, IsAskedAboutOnlyWhereTheWordsClash) {
  EXPECT_EQ(found_in(read(GetParam().note)), GetParam().found) << GetParam().note;
}

INSTANTIATE_TEST_SUITE_P(
    Contradictions, Consistency,
    ::testing::Values(
        Case{"EXAM: Left knee: No effusion. Range of motion full. Moderate effusion of the left knee.",
             "contradiction left knee palpation"},
        Case{"EXAM: Right shoulder: Full range of motion. Abduction limited to 90 degrees.",
             "contradiction right shoulder range_of_motion"},
        Case{"EXAM: Left ankle: No swelling. The left ankle is swollen laterally.",
             "contradiction left ankle inspection"},
        Case{"EXAM: Right knee: Lachman negative. Lachman positive with a soft end point.",
             "contradiction right knee stability"},
        Case{"EXAM: Left knee: Strength 5/5. Left knee extension strength 4/5.", "contradiction left knee strength"},
        Case{"EXAM: Left wrist: Sensation intact to light touch. Sensation decreased to light touch of the left wrist.",
             "contradiction left wrist sensation"},
        // Of different things.
        Case{"EXAM: Left knee: Flexion full. Extension limited.", ""},
        Case{"EXAM: Left knee: No swelling. Ecchymosis over the patella.", ""},
        Case{"EXAM: Left knee: Tender medially. Nontender laterally.", ""},
        Case{"EXAM: Left knee: Tender at the medial joint line. Patella nontender.", ""},
        Case{"EXAM: Lumbar spine: Rotation to the right decreased. Rotation to the left full.", ""},
        Case{"EXAM: Left knee: No swelling. Right knee: Swollen.", ""},
        // Exceptions, remainders, amounts.
        Case{"EXAM: Left knee: Tender over the patella. Otherwise nontender.", ""},
        Case{"EXAM: Left knee: No significant swelling. Left knee mildly swollen.", ""},
        Case{"EXAM: Left knee: Nontender except at the joint line. Tender at the joint line.", ""},
        // Pain is no loss of motion.
        Case{"EXAM: Left knee: Full range of motion. Pain with range of motion.", ""},
        // Another time, another exam, another side to compare with.
        Case{"EXAM: Left knee: No swelling today. Left knee was swollen at the last visit.", ""},
        Case{"EXAM: Left knee: Swollen on 3/4/2031. Left knee not swollen.", ""},
        Case{"EXAM: Left knee: Swollen. Later no swelling of the left knee.", ""},
        Case{"EXAM: Left knee: No swelling.\nASSESSMENT: Sprain.\nEXAM: Left knee: Swollen.", ""},
        Case{"EXAM: Left knee: No swelling. Left knee swollen compared with the right.", ""},
        // A word that no table knows may say what was normal.
        Case{"EXAM: Left knee: Tender at the joint line. Zorbical tissue nontender.", ""}));

INSTANTIATE_TEST_SUITE_P(
    Sides, Consistency,
    ::testing::Values(Case{"CHIEF COMPLAINT: Left hip pain.\nEXAM:\nRight hip is tender with full range of "
                           "motion.\nASSESSMENT: Left hip bursitis.",
                           "side-conflict left hip"},
                      Case{"CHIEF COMPLAINT: Left hip pain.\nEXAM:\nLeft hip tender.\nASSESSMENT: Right hip bursitis.",
                           "side-conflict left hip"},
                      Case{"CHIEF COMPLAINT: Left hip pain.\nEXAM:\nRight hip nontender. Left hip tender.\nASSESSMENT: "
                           "Left hip bursitis.",
                           ""},
                      Case{"CHIEF COMPLAINT: Left hip pain.\nEXAM:\nHips tender on the right, full motion.\nLeft lower "
                           "extremity: strength 5/5.\n",
                           ""},
                      Case{"CHIEF COMPLAINT: Left hip pain.\nEXAM:\nLeft hip tender.\nASSESSMENT: Hip bursitis. Right "
                           "hip replacement years ago.",
                           ""},
                      Case{"EXAM:\nRIGHT KNEE: No swelling. Tender at the medial joint line of the left knee.",
                           "side-slip right knee"},
                      Case{"EXAM:\nRIGHT KNEE: Tender. Less tender than the left knee.", ""},
                      Case{"EXAM:\nRIGHT KNEE: More lax compared with the left knee.", ""},
                      Case{"EXAM:\nRIGHT KNEE: Tender.\nLEFT KNEE: The left knee is nontender.", ""}));

INSTANTIATE_TEST_SUITE_P(
    Joints, Consistency,
    ::testing::Values(
        Case{"PAST HISTORY: Left ankle fusion in 2019.\nEXAM: Left ankle: Full range of motion.",
             "missing-joint left ankle range_of_motion"},
        Case{"PAST HISTORY: Left ankle fusion in 2019.\nEXAM: Left ankle: Nontender.", ""},
        Case{"HISTORY: Right BKA in 2020.\nEXAM: Right foot: Sensation intact. Left foot: Sensation intact.",
             "missing-joint right ankle sensation"},
        Case{"EXAM: The patient is a left above-knee amputee. Knees: Full range of motion.",
             "missing-joint left knee range_of_motion"},
        Case{"PAST HISTORY: Right total knee replacement.\nEXAM: Right knee: Full range of motion, nontender.", ""},
        Case{"PAST HISTORY: Amputation of the right second toe.\nEXAM: Right foot: Sensation intact.", ""},
        Case{"PAST HISTORY: No amputation.\nEXAM: Right foot: Sensation intact.", ""},
        Case{"FAMILY HISTORY: Father had a right below-knee amputation.\nEXAM: Right foot: Sensation intact.", ""},
        Case{"EXAM: Right foot: Sensation intact.\nPLAN: Right below-knee amputation tomorrow.", ""},
        Case{"PAST HISTORY: L4-L5 fusion.\nEXAM: Lumbar spine: Full range of motion.", ""}));

INSTANTIATE_TEST_SUITE_P(
    Values, Consistency,
    ::testing::Values(Case{"EXAM: Right shoulder: Abduction 240 degrees.",
                           "implausible-value right shoulder range_of_motion"},
                      Case{"EXAM: Right hip: Strength 7/5.", "implausible-value right hip strength"},
                      Case{"EXAM: Right knee: Strength 5+/5. Flexion 150 degrees, extension 0 degrees.", ""},
                      Case{"EXAM: Reflexes 4+ at both knees. Neck rotation 80 degrees.", ""}));

TEST(ConsistencyOfNotes, DemoNotesAskWhereTheyWereMadeTo) {
  const std::map<std::string, std::string> expected = {
      {"16-left-right-conflict", "side-conflict left shoulder"},
      {"17-contradiction-same-cell", "contradiction right elbow inspection"},
      {"18-implausible-values", "implausible-value right knee range_of_motion; implausible-value right knee strength"},
      {"19-amputated-foot-called-normal", "missing-joint left ankle"},
  };
  for (const DemoNote& note : demo_notes()) {
    const auto at = expected.find(note.id);
    EXPECT_EQ(found_in(read(note.text)), at == expected.end() ? "" : at->second) << note.id;
  }
}

TEST(ConsistencyOfNotes, EvidenceIsTheWordsOfTheNote) {
  const std::string note = "EXAM:\nRIGHT KNEE: No swelling. Tender at the joint line of the left knee.";
  const auto found = inconsistencies(read(note), {}, {});
  ASSERT_EQ(found.size(), 1U);
  const auto words = [&](Span span) { return note.substr(span.start, span.end - span.start); };
  EXPECT_EQ(words(found[0].first.at(0)), "RIGHT KNEE");
  EXPECT_EQ(words(found[0].second.at(0)), "joint line of the left knee");
}

TEST(ExamText, IsHandedOverWithoutHeadingsAndHistory) {
  const std::string note = "HISTORY: Fell.\nEXAM:\nKnees: No swelling.\nHips: Full motion.\nPLAN: Rest.";
  std::string exam;
  for (const Span& span : read(note).exam) exam.append(note.substr(span.start, span.end - span.start)).append("|");
  EXPECT_NE(exam.find("No swelling."), std::string::npos);
  EXPECT_NE(exam.find("Full motion."), std::string::npos);
  EXPECT_EQ(exam.find("Fell"), std::string::npos);
  EXPECT_EQ(exam.find("Rest"), std::string::npos);
  EXPECT_EQ(exam.find("Knees"), std::string::npos);
}

}  // namespace
}  // namespace jointledger::testing
