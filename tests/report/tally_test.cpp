// Counts of a run.
#include "report/tally.h"

#include <gtest/gtest.h>

#include <array>

#include "example.h"
#include "report/report.h"

namespace jointledger {
namespace {

using testing::Example;

ReportItem item_of(const Example& example, bool audited = true) {
  return {example.note, example.ledger, audited ? &example.result : nullptr};
}

TEST(Tally, CountsEachDemandOnce) {
  const Example example;
  ReportTally tally;
  count(item_of(example), tally);
  std::uint64_t asked = 0;
  std::uint64_t met = 0;
  for (const ExpectationTally& e : tally.expectations) {
    asked += e.asked;
    met += e.met;
  }
  EXPECT_EQ(tally.expectations.size(), example.profile.expectations.size());
  EXPECT_EQ(asked, example.result.applicable);
  EXPECT_EQ(met, example.result.met);
  EXPECT_EQ(tally.gaps, example.result.gaps.size());
  EXPECT_GT(tally.gaps, asked - met) << "the sides of one demand lack different things";
}

TEST(Tally, ALedgerIsOnlyANote) {
  const Example example;
  ReportTally tally;
  count(item_of(example, false), tally);
  EXPECT_EQ(tally, ReportTally{.notes = 1});
}

TEST(Tally, OnlyNotesThatWereAskedSomethingCountAsComplete) {
  Example example;
  ReportTally tally;
  count(item_of(example), tally);
  EXPECT_EQ(tally.asked, 1U);
  EXPECT_EQ(tally.complete, 0U);
  example.result.gaps.clear();
  count(item_of(example), tally);
  EXPECT_EQ(tally.complete, 1U);
  example.result.applicable = 0;
  count(item_of(example), tally);
  EXPECT_EQ(tally.notes, 3U);
  EXPECT_EQ(tally.asked, 2U);
  EXPECT_EQ(tally.complete, 1U);
}

TEST(Tally, KeepsTheFirstAndTheLastDay) {
  Example example;
  ReportTally tally;
  for (const std::string_view date : {"\"2031-05-02\"", "null", "\"2030-12-31T23:00:00Z\"", "\"today\"", "3"}) {
    const std::array<Member, 1> members = {Member{"date", date}};
    example.note.metadata = members;
    count(item_of(example), tally);
  }
  EXPECT_EQ(tally.first_date, 20301231U);
  EXPECT_EQ(tally.last_date, 20310502U);
}

TEST(Tally, PartsAddUpInAnyOrder) {
  Example example;
  std::array<ReportTally, 3> parts;
  ReportTally whole;
  std::array<Member, 1> members = {Member{"date", "\"2031-05-02\""}};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i == 1) example.note.metadata = members;
    if (i == 2) example.result.gaps.clear();
    count(item_of(example, i != 0), parts[i]);
    count(item_of(example, i != 0), whole);
  }
  for (const auto& order : {std::array{0, 1, 2}, std::array{2, 0, 1}, std::array{1, 2, 0}}) {
    ReportTally sum;
    for (const int i : order) merge(parts[static_cast<std::size_t>(i)], sum);
    EXPECT_EQ(sum, whole);
  }
}

}  // namespace
}  // namespace jointledger
