#include "reading/merge.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <vector>

#include "cells.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::cells_of;
using testing::text_of;

Statement knee(Side side, Outcome outcome, Span evidence = {0, 4}) {
  Statement s;
  s.region = Region::knee;
  s.component = Component::range_of_motion;
  s.side = side;
  s.outcome = outcome;
  s.evidence.push_back(evidence);
  return s;
}

std::vector<Entry> merged(std::initializer_list<Statement> statements) {
  std::vector<Entry> entries(1);  // what stood there before goes
  merge(testing::shipped_lexicon(), statements, entries);
  return entries;
}

std::string text(std::initializer_list<Statement> statements) {
  Ledger ledger;
  ledger.entries = merged(statements);
  return text_of(cells_of(ledger));
}

TEST(Merge, OfNothingIsNothing) { EXPECT_TRUE(merged({}).empty()); }

TEST(Merge, RanksOutcomes) {
  constexpr std::array kRising = {Outcome::not_done, Outcome::stated, Outcome::normal, Outcome::abnormal};
  for (const Outcome lower : kRising) {
    for (const Outcome higher : kRising) {
      const auto entries = merged({knee(Side::left, lower), knee(Side::left, higher)});
      ASSERT_EQ(entries.size(), 1U);
      EXPECT_EQ(entries[0].outcome, std::max(lower, higher)) << name(lower) << ' ' << name(higher);
    }
  }
}

TEST(Merge, FoldsTwoSidesThatTheSameWordsSpeakOf) {
  const auto entries = merged({knee(Side::left, Outcome::normal), knee(Side::right, Outcome::normal)});
  ASSERT_EQ(entries.size(), 1U);
  EXPECT_EQ(entries[0].side, Side::both);
  EXPECT_EQ(merged({knee(Side::both, Outcome::normal)}).size(), 1U);
}

TEST(Merge, KeepsTwoSidesApartThatOtherWordsSpeakOf) {
  const auto entries = merged({knee(Side::left, Outcome::normal, {0, 4}), knee(Side::right, Outcome::normal, {8, 12})});
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].evidence.size(), 1U);
  EXPECT_EQ(entries[1].evidence.size(), 1U);
}

TEST(Merge, KeepsTwoSidesApartThatDiffer) {
  EXPECT_EQ(text({knee(Side::both, Outcome::normal), knee(Side::right, Outcome::abnormal)}),
            "knee range_of_motion left normal; knee range_of_motion right abnormal");
}

TEST(Merge, KeepsASideThatIsNotStatedApart) {
  EXPECT_EQ(merged({knee(Side::unstated, Outcome::normal), knee(Side::right, Outcome::normal)}).size(), 2U);
}

TEST(Merge, AddsMotionsUp) {
  Statement flexion = knee(Side::left, Outcome::normal);
  flexion.motions.insert(Motion::flexion);
  Statement extension = knee(Side::left, Outcome::normal);
  extension.motions.insert(Motion::extension);
  EXPECT_EQ(text({flexion, extension}), "knee range_of_motion left normal [extension,flexion]");
}

TEST(Merge, OrdersEntriesAndEvidence) {
  Statement hip = knee(Side::left, Outcome::normal, {40, 44});
  hip.region = Region::hip;
  Statement look = knee(Side::left, Outcome::normal, {20, 24});
  look.component = Component::inspection;
  const auto entries =
      merged({knee(Side::left, Outcome::normal, {30, 34}), look, knee(Side::left, Outcome::normal, {2, 6}),
              knee(Side::left, Outcome::normal, {32, 38}), knee(Side::left, Outcome::normal, {2, 6}), hip});
  ASSERT_EQ(entries.size(), 3U);
  EXPECT_EQ(entries[0].region, Region::hip);
  EXPECT_EQ(entries[1].component, Component::inspection);
  const auto& evidence = entries[2].evidence;
  ASSERT_GE(evidence.size(), 2U);
  EXPECT_EQ(evidence.front(), (Span{2, 6}));
  EXPECT_EQ(evidence.back().end, 38U);
  for (std::size_t i = 1; i < evidence.size(); ++i) EXPECT_GE(evidence[i].start, evidence[i - 1].end);
}

}  // namespace
}  // namespace jointledger
