// NOTE_NLP, where tests/outside/omop_out_test.py does not look.
#include "report/omop_report.h"

#include <gtest/gtest.h>

#include <string>

#include "report/term_modifiers.h"
#include "written.h"

namespace jointledger {
namespace {

using testing::Example;
using testing::written;

TEST(OmopReport, WritesNothingOfANoteItRefuses) {
  Example example;
  EXPECT_EQ(example.note.id, "visit-1");
  EXPECT_NE(refusal_of_omop(example.note), "");
  const std::string out = written(kOmopReport, example, false);
  EXPECT_EQ(out.find("\r\n") + 2, out.size());
}

TEST(OmopReport, AuditsGiveTheSameRows) {
  Example example;
  example.note.id = "12";
  EXPECT_EQ(refusal_of_omop(example.note), "");
  EXPECT_EQ(written(kOmopReport, example, true), written(kOmopReport, example, false));
}

TEST(OmopReport, NumbersRowsByTheirNote) {
  Example example;
  example.note.id = "12";
  const std::string out = written(kOmopReport, example, false);
  EXPECT_NE(out.find("\r\n120001,12,,"), std::string::npos) << out;
  EXPECT_NE(out.find("\r\n120009,12,,"), std::string::npos) << "eight entries and a complaint";
  EXPECT_EQ(out.find("\r\n120010,"), std::string::npos);
}

TEST(TermModifiers, SayAllThatAnEntryHolds) {
  const Example example;
  const CharacterIndex characters(example.note.text);
  const std::string motion = modifiers_of(example.ledger.entries[5], characters);
  EXPECT_TRUE(
      motion.starts_with("region=knee;component=range_of_motion;side=right;outcome=stated;motions=flexion;"
                         "degrees=flexion 0..120 right,lacking 5 right;certainty=1;evidence="))
      << motion;
  EXPECT_NE(modifiers_of(example.ledger.entries[6], characters).find(";grades=4+/5 right;"), std::string::npos);
  EXPECT_NE(modifiers_of(example.ledger.entries[7], characters).find(";tests=lachman;"), std::string::npos);
  EXPECT_EQ(modifiers_of(example.ledger.complaints[0], characters),
            "complaint=true;region=knee;side=right;injury=true;evidence=0-15");
}

TEST(TermModifiers, StopBetweenPiecesWhereTheyAreTooMany) {
  Example example;
  Entry& entry = example.ledger.entries[0];
  entry.evidence.clear();
  const std::string text(5000, 'x');
  for (std::uint32_t i = 0; i < 1000; ++i) entry.evidence.push_back({3 * i + 1000, 3 * i + 1002});
  const std::string modifiers = modifiers_of(entry, CharacterIndex(text));
  EXPECT_LE(modifiers.size(), 2000U);
  EXPECT_GT(modifiers.size(), 1980U);
  // Every piece is "1234-1236".
  EXPECT_EQ(modifiers.find_last_of('-') + 5, modifiers.size()) << modifiers;
}

}  // namespace
}  // namespace jointledger
