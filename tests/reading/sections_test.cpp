// Which text of a note counts: what was found at examination, wherever it stands, and nothing else.
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "cells.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::cells_of;
using testing::read;
using testing::text_of;

std::string entries(std::string_view note) { return text_of(cells_of(read(note))); }

TEST(Sections, HistoryAndPlanAreLeftOut) {
  EXPECT_EQ(entries("HISTORY\nThe left shoulder is stiff and tender.\n\n"
                    "PHYSICAL EXAMINATION\nRight knee: no effusion.\n\n"
                    "ASSESSMENT AND PLAN\nWork on hip range of motion, ankle strength 5/5 as the goal.\n"),
            "knee palpation right normal");
}

TEST(Sections, HeadingsCountWithoutLineBreaks) {
  EXPECT_EQ(entries("HISTORY: The left shoulder is stiff and tender. PHYSICAL EXAM: Right knee: no effusion. "
                    "ASSESSMENT: Knee pain. PLAN: Stretch the hips, full range of motion as the goal."),
            "knee palpation right normal");
}

TEST(Sections, HeadingsCountInAnyCase) {
  for (const std::string_view heading :
       {"PHYSICAL EXAM:", "Physical exam:", "physical examination:", "Exam:", "PE:", "OBJECTIVE:", "Objective:"}) {
    EXPECT_EQ(entries("HPI: The left shoulder is tender.\n" + std::string(heading) + "\nRight knee: no effusion.\n"),
              "knee palpation right normal")
        << heading;
  }
}

TEST(Sections, OtherSourcesAreLeftOut) {
  for (const std::string_view heading :
       {"REVIEW OF SYSTEMS", "PAST MEDICAL HISTORY", "IMAGING", "OPERATIVE FINDINGS", "LABORATORY", "ALLERGIES"}) {
    EXPECT_EQ(
        entries(std::string(heading) + ":\nLeft hip: swelling and tenderness.\n" + "EXAM:\nRight knee: no effusion.\n"),
        "knee palpation right normal")
        << heading;
  }
}

TEST(Sections, AnExamWithoutAHeadingCountsWhereThereIsNoOther) {
  EXPECT_EQ(entries("Right knee: no effusion."), "knee palpation right normal");
  EXPECT_EQ(entries("Left elbow nontender.\nEXAM:\nRight knee: no effusion."), "knee palpation right normal");
}

TEST(Sections, ANoteWithoutAnExamIsEmpty) {
  EXPECT_EQ(entries(""), "-");
  EXPECT_EQ(entries("HISTORY: Right knee pain since a fall.\nPLAN: Ice, rest.\n"), "-");
}

TEST(Sections, AnExamToldInANarrativeCounts) {
  for (const std::string_view opening :
       {"On clinical examination, ", "On brief examination ", "Her physical examination shows that ",
        "Examination reveals that ", "Brief examination shows that ", "Examination of her right knee showed that "}) {
    EXPECT_EQ(entries("HISTORY: The left shoulder has been stiff for a year. " + std::string(opening) +
                      "the right knee is swollen.\n"),
              "knee inspection right abnormal")
        << opening;
  }
  EXPECT_EQ(entries("HISTORY: Left shoulder pain.\nExamination of two views of the right knee showed swelling.\n"),
            "-");
  EXPECT_EQ(entries("PROCEDURE: Arthroscopy. Examination of the right knee showed a torn meniscus and synovitis.\n"),
            "-");
}

TEST(Sections, AnExamInANarrativeGoesOnOverParagraphs) {
  EXPECT_EQ(entries("HISTORY: Left shoulder pain.\nOn examination, she walks without a limp.\n"
                    "The left shoulder is tender.\nShe takes tablets. The right knee was swollen last year.\n"),
            "shoulder palpation left abnormal; whole_body gait midline normal");
}

TEST(Sections, TheUninvolvedSideIsTheOneNotComplainedOf) {
  EXPECT_EQ(entries("CHIEF COMPLAINT: Left knee pain.\nEXAM: The affected knee is swollen. The uninvolved knee has "
                    "full motion.\n"),
            "knee inspection left abnormal; knee range_of_motion right normal");
}

TEST(Sections, AssessmentOfSomethingIsNoPlan) {
  EXPECT_EQ(entries("EXAM\nRespiratory\n- Assessment of Respiratory Effort: Normal.\nMusculoskeletal\n- Examination: "
                    "Swelling of the left knee.\n"),
            "knee inspection left abnormal");
}

TEST(Sections, AComponentHeadingBeginsTheExamWhereThereIsNoOther) {
  EXPECT_EQ(entries("DIAGNOSIS: Stiff left elbow.\nHISTORY: Fell in spring.\nINSPECTION: The left elbow is swollen.\n"
                    "RANGE OF MOTION: Left elbow flexion is limited.\nGOALS: Full motion of the left wrist.\n"),
            "elbow inspection left abnormal; elbow range_of_motion left abnormal [flexion]");
  EXPECT_EQ(entries("EXAM: Left elbow nontender.\nPLAN: Stretch.\nSTRENGTH: Left grip is weak, to be trained.\n"),
            "elbow palpation left normal");
}

TEST(Sections, SystemHeadingsSetTheScope) {
  EXPECT_EQ(entries("EXAM:\nABDOMEN: Soft, nontender, no masses.\nEXTREMITIES: No deformity, nontender.\n"
                    "NEURO: Sensation intact.\n"),
            "extremities inspection both normal; extremities palpation both normal; "
            "whole_body sensation midline normal");
}

}  // namespace
}  // namespace jointledger
