// The demo notes as read against the demo notes as coded by hand: a floor, not a measure. The notes are few and
// invented, and were at hand when the lexicon was written; README.md says how accuracy is measured.
#include <gtest/gtest.h>

#include <iomanip>
#include <iostream>
#include <string>
#include <vector>

#include "demo_notes.h"
#include "shipped.h"

namespace jointledger {
namespace {

using testing::Cells;

struct Counts {
  int both = 0;        ///< coded and read
  int only_read = 0;   ///< not coded
  int only_coded = 0;  ///< not read
  int same_outcome = 0;

  double precision() const { return static_cast<double>(both) / (both + only_read); }
  double recall() const { return static_cast<double>(both) / (both + only_coded); }
  double f1() const { return 2 * precision() * recall() / (precision() + recall()); }
};

void count(const Cells& coded, const Cells& read, Counts& counts) {
  for (const auto& [cell, value] : coded) {
    const auto same = read.find(cell);
    if (same == read.end()) {
      ++counts.only_coded;
    } else {
      ++counts.both;
      if (same->second.outcome == value.outcome) ++counts.same_outcome;
    }
  }
  for (const auto& [cell, value] : read) {
    if (!coded.contains(cell)) ++counts.only_read;
  }
}

TEST(Accuracy, DemoNotesAreReadAlmostAsAPersonCodesThem) {
  const auto codings = testing::demo_codings();
  Counts counts;
  for (const testing::DemoNote& note : testing::demo_notes()) {
    ASSERT_TRUE(codings.contains(note.id)) << note.id;
    Cells read = testing::cells_of(testing::read(note.text));
    std::erase_if(read, [](const auto& item) { return item.first.component == Component::unspecified; });
    count(codings.at(note.id), read, counts);
  }
  ASSERT_GT(counts.both, 0);
  const double outcomes = static_cast<double>(counts.same_outcome) / counts.both;
  std::cout << std::fixed << std::setprecision(3) << "cells: precision " << counts.precision() << ", recall "
            << counts.recall() << ", F1 " << counts.f1() << "; same outcome " << outcomes << " of " << counts.both
            << '\n';
  EXPECT_GE(counts.f1(), 0.90);
  EXPECT_GE(outcomes, 0.90);
}

}  // namespace
}  // namespace jointledger
