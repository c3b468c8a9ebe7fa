// The text form: what a person sees.
#include "report/text_report.h"

#include <gtest/gtest.h>

#include <sstream>

#include "example.h"
#include "report/notice.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

using testing::Example;

std::string text_of(const Example& example, bool audited, bool colour = false) {
  const ReportRun run{.profile = audited ? &example.profile : nullptr, .colour = colour};
  std::string out;
  open_text(run, out);
  add_text(run, {example.note, example.ledger, audited ? &example.result : nullptr}, out);
  close_text(run, {.notes = 1}, out);
  return out;
}

/// With line breaks as spaces, so that words can be looked for wherever lines happen to break.
std::string flat(const std::string& text) { return on_one_line(text); }

TEST(TextReport, FitsEightyColumns) {
  const Example example;
  for (const bool audited : {false, true}) {
    std::istringstream lines(text_of(example, audited));
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(width_of(line), kLineWidth) << line;
      EXPECT_FALSE(line.ends_with(' ')) << line;
    }
  }
}

TEST(TextReport, ShowsTheGrid) {
  const Example example;
  const std::string ledger = text_of(example, false);
  EXPECT_NE(ledger.find("\n> knee             x A   . A   . ?   . A   . N   . .   . .   . .   . .\n"),
            std::string::npos)
      << ledger;
  EXPECT_NE(ledger.find("\n  neck              .     .     N     .     .     .     .     .     .\n"), std::string::npos)
      << ledger;
  const std::string audit = text_of(example, true);
  EXPECT_NE(audit.find("\n  hip              / /   / /   . .   . .   . .   . .   . .   . .   . .\n"), std::string::npos)
      << audit;
  EXPECT_NE(audit.find("\n> knee             x A   . A   _ ?   . A   . N   . .   . .   . .   . .\n"), std::string::npos)
      << audit;
}

TEST(TextReport, ShowsFindingsWithTheirWords) {
  const Example example;
  const std::string text = flat(text_of(example, false));
  EXPECT_NE(text.find("Complaint: right knee (injury)"), std::string::npos) << text;
  EXPECT_NE(text.find("inspection right: abnormal \"swelling\""), std::string::npos) << text;
  EXPECT_NE(text.find("range of motion right: no result given (flexion 0 to 120 degrees, range lacking 5 degrees) "
                      "\"flexion 120\xC2\xB0\""),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("strength right: abnormal (grade 4+) \"4+/5\""), std::string::npos) << text;
  EXPECT_NE(text.find("both hips: normal \"Hips normal\""), std::string::npos) << text;
}

TEST(TextReport, ShowsGapsWithReasonPromptAndWords) {
  const Example example;
  const std::string text = flat(text_of(example, true));
  for (const Gap& gap : example.result.gaps) {
    EXPECT_NE(text.find(gap.prompt), std::string::npos) << gap.prompt << "\n" << text;
    EXPECT_NE(text.find("[" + gap.expectation->id + "] " + std::string(phrase(gap.reason))), std::string::npos) << text;
  }
  EXPECT_NE(text.find("nearest: \"flexion 120\xC2\xB0\""), std::string::npos) << text;
  EXPECT_NE(text.find(kNotice), std::string::npos);
  EXPECT_NE(text.find("Not for use."), std::string::npos);
}

TEST(TextReport, QuotesWhatStandsBetweenPiecesThatAreNear) {
  Example example;
  Entry& entry = example.ledger.entries.at(3);
  entry.evidence = {testing::words("Right knee:"), testing::words("swelling"), testing::words("Lachman")};
  EXPECT_NE(flat(text_of(example, false)).find("\"Right knee: mild swelling ... Lachman\""), std::string::npos);
}

TEST(TextReport, ANoteCannotSteerTheTerminal) {
  const Example example;
  for (const bool audited : {false, true}) {
    const std::string text = text_of(example, audited);
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
  }
}

TEST(TextReport, ColourChangesNoWord) {
  const Example example;
  std::string painted = text_of(example, true, true);
  EXPECT_NE(painted.find("\x1b["), std::string::npos);
  std::string plain;
  for (std::size_t at = 0; at < painted.size(); ++at) {
    if (painted[at] == '\x1b')
      at = painted.find('m', at);
    else
      plain.push_back(painted[at]);
  }
  EXPECT_EQ(plain, text_of(example, true));
}

TEST(TextReport, SaysSoWhenThereIsNoExam) {
  Example example;
  example.ledger = {};
  const std::string text = text_of(example, false);
  EXPECT_NE(text.find("No musculoskeletal examination found in this note."), std::string::npos) << text;
}

}  // namespace
}  // namespace jointledger
