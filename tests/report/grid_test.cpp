// Which mark stands in which cell.
#include "report/grid.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "../audit/builders.h"

namespace jointledger {
namespace {

using testing::expectation;
using testing::LedgerOf;
using testing::profile;

constexpr auto kRom = Component::range_of_motion;

GridCell cell_of(const std::vector<GridRow>& grid, Region region, Component component) {
  const auto row = std::ranges::find(grid, region, &GridRow::region);
  if (row == grid.end()) {
    ADD_FAILURE() << "no row " << name(region);
    return {};
  }
  return row->cells[static_cast<std::size_t>(component)];
}

std::vector<GridRow> audited(const Ledger& ledger, std::vector<Expectation> expectations) {
  const Profile asked = profile(std::move(expectations));
  const Audit result = audit(asked, ledger);
  return grid_of(ledger, &result);
}

TEST(Grid, HasARowForEachRegionThatMatters) {
  const auto grid = grid_of(LedgerOf()
                                .entry(Region::knee, kRom, Side::left)
                                .entry(Region::hip, Component::unspecified, Side::left)
                                .complaint(Region::elbow, Side::left),
                            nullptr);
  ASSERT_EQ(grid.size(), 2U);
  EXPECT_EQ(grid[0].region, Region::elbow);
  EXPECT_TRUE(grid[0].complaint);
  EXPECT_EQ(grid[1].region, Region::knee);
  EXPECT_FALSE(grid[1].complaint);
  EXPECT_TRUE(grid_of({}, nullptr).empty());
}

TEST(Grid, MarksSides) {
  const auto grid = grid_of(LedgerOf()
                                .entry(Region::knee, kRom, Side::left, Outcome::abnormal)
                                .entry(Region::knee, Component::strength, Side::both)
                                .entry(Region::knee, Component::palpation, Side::unstated)
                                .entry(Region::cervical_spine, kRom, Side::midline, Outcome::stated)
                                .entry(Region::cervical_spine, Component::palpation, Side::left, Outcome::not_done),
                            nullptr);
  EXPECT_EQ(cell_of(grid, Region::knee, kRom), (GridCell{Mark::abnormal, Mark::none, Mark::silent}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::strength), (GridCell{Mark::normal, Mark::none, Mark::normal}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::palpation), (GridCell{Mark::none, Mark::normal, Mark::none}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::reflexes), (GridCell{Mark::silent, Mark::none, Mark::silent}));
  EXPECT_EQ(cell_of(grid, Region::cervical_spine, kRom), (GridCell{Mark::none, Mark::stated, Mark::none}));
  EXPECT_EQ(cell_of(grid, Region::cervical_spine, Component::palpation),
            (GridCell{Mark::not_done, Mark::none, Mark::silent}));
  EXPECT_EQ(cell_of(grid, Region::cervical_spine, Component::strength),
            (GridCell{Mark::none, Mark::silent, Mark::none}));
}

TEST(Grid, GaitIsOfTheWholeBodyOnly) {
  const auto grid = grid_of(
      LedgerOf().entry(Region::knee, kRom, Side::left).entry(Region::whole_body, Component::gait, Side::midline),
      nullptr);
  EXPECT_EQ(cell_of(grid, Region::knee, Component::gait), GridCell{});
  EXPECT_EQ(cell_of(grid, Region::whole_body, Component::gait), (GridCell{Mark::none, Mark::normal, Mark::none}));
}

TEST(Grid, MarksWhatIsMissing) {
  Expectation required = expectation("a", Region::knee, Component::palpation);
  Expectation advised = expectation("b", Region::knee, Component::inspection);
  advised.kind = Kind::advised;
  Expectation choice = expectation("c", Region::knee, Component::strength);
  choice.components = {Component::strength, Component::stability};
  const auto grid =
      audited(LedgerOf().entry(Region::knee, Component::palpation, Side::left), {required, advised, choice});
  EXPECT_EQ(cell_of(grid, Region::knee, Component::palpation), (GridCell{Mark::normal, Mark::none, Mark::required}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::inspection), (GridCell{Mark::advised, Mark::none, Mark::advised}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::strength), (GridCell{Mark::choice, Mark::none, Mark::choice}));
  EXPECT_EQ(cell_of(grid, Region::knee, Component::stability), (GridCell{Mark::choice, Mark::none, Mark::choice}));
}

TEST(Grid, MarksWhatFallsShort) {
  Expectation motion = expectation("m", Region::knee, kRom);
  motion.motions = testing::motions({Motion::flexion, Motion::extension});
  const auto grid =
      audited(LedgerOf()
                  .entry(Region::knee, kRom, Side::left, Outcome::abnormal, {Motion::flexion})
                  .entry(Region::knee, kRom, Side::right, Outcome::normal, {Motion::flexion, Motion::extension}),
              {motion});
  EXPECT_EQ(cell_of(grid, Region::knee, kRom), (GridCell{Mark::abnormal_short, Mark::none, Mark::normal}));
}

}  // namespace
}  // namespace jointledger
