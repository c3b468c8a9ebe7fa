// Which expectations apply to a ledger, to which regions of it and to which sides.
#include "audit/demand.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "builders.h"

namespace jointledger {
namespace {

using testing::LedgerOf;
using testing::profile;

Expectation asked(Applies applies, std::vector<Region> regions, Sides sides = Sides::region_default) {
  Expectation e;
  e.id = "x";
  e.applies = applies;
  e.regions = std::move(regions);
  e.components = {Component::palpation};
  e.sides = sides;
  return e;
}

struct Asked {
  Region region;
  std::vector<Side> sides;
  bool operator==(const Asked&) const = default;
};
void PrintTo(const Asked& asked, std::ostream* out) {
  *out << name(asked.region);
  for (const Side side : asked.sides) *out << ' ' << name(side);
}

std::vector<Asked> asks(const Expectation& e, const Ledger& ledger) {
  const Profile p = profile({e});
  std::vector<Asked> out;
  for (const Demand& d : demands(p, ledger)) out.push_back({d.region, {d.sides.begin(), d.sides.end()}});
  return out;
}

using Expected = std::vector<Asked>;
constexpr Side kLeft = Side::left;
constexpr Side kRight = Side::right;

TEST(Demands, AlwaysAsksOfEachRegionListed) {
  EXPECT_EQ(asks(asked(Applies::always, {Region::knee, Region::lumbar_spine}), LedgerOf()),
            (Expected{{Region::knee, {kLeft, kRight}}, {Region::lumbar_spine, {Side::midline}}}));
}

TEST(Demands, BothAsksForTwoSidesOfTheMidlineToo) {
  EXPECT_EQ(asks(asked(Applies::always, {Region::pelvis}, Sides::both), LedgerOf()),
            (Expected{{Region::pelvis, {kLeft, kRight}}}));
}

TEST(Demands, AnySideIsOneSide) {
  EXPECT_EQ(asks(asked(Applies::always, {Region::knee}, Sides::any), LedgerOf()),
            (Expected{{Region::knee, {Side::unstated}}}));
  EXPECT_EQ(asks(asked(Applies::always, {Region::spine}, Sides::any), LedgerOf()),
            (Expected{{Region::spine, {Side::midline}}}));
}

TEST(Demands, IfExaminedNeedsAnEntryForTheRegionItself) {
  const Expectation e = asked(Applies::if_examined, {Region::knee});
  EXPECT_TRUE(asks(e, LedgerOf()).empty());
  EXPECT_TRUE(asks(e, LedgerOf().entry(Region::lower_extremity, Component::inspection, Side::both)).empty());
  EXPECT_TRUE(asks(e, LedgerOf().entry(Region::knee, Component::strength, kLeft, Outcome::not_done)).empty());
  EXPECT_EQ(asks(e, LedgerOf().entry(Region::knee, Component::strength, kLeft)),
            (Expected{{Region::knee, {kLeft, kRight}}}));
}

TEST(Demands, IfExaminedWithoutRegionsAsksOfAllThatWere) {
  EXPECT_EQ(asks(asked(Applies::if_examined, {}, Sides::any), LedgerOf()
                                                                  .entry(Region::knee, Component::strength, kLeft)
                                                                  .entry(Region::knee, Component::palpation, kLeft)
                                                                  .entry(Region::hip, Component::palpation, kLeft)),
            (Expected{{Region::knee, {Side::unstated}}, {Region::hip, {Side::unstated}}}));
}

TEST(Demands, IfComplaintWithoutRegionsAsksOfEachComplaint) {
  EXPECT_EQ(asks(asked(Applies::if_complaint, {}, Sides::complaint_side),
                 LedgerOf().complaint(Region::knee, kRight).complaint(Region::cervical_spine, Side::midline)),
            (Expected{{Region::knee, {kRight}}, {Region::cervical_spine, {Side::midline}}}));
}

TEST(Demands, ANoteWithoutComplaintsIsAskedForNothingOfThem) {
  const Ledger none = LedgerOf().entry(Region::knee, Component::palpation, kLeft);
  for (const Applies applies : {Applies::if_complaint, Applies::if_injury, Applies::if_neighbour}) {
    EXPECT_TRUE(asks(asked(applies, {}), none).empty());
    EXPECT_TRUE(asks(asked(applies, {Region::knee}), none).empty());
  }
}

TEST(Demands, ComplaintsOfBothKneesAreOneDemand) {
  EXPECT_EQ(asks(asked(Applies::if_complaint, {}, Sides::complaint_side),
                 LedgerOf().complaint(Region::knee, kRight).complaint(Region::knee, kLeft)),
            (Expected{{Region::knee, {kLeft, kRight}}}));
}

TEST(Demands, AComplaintWithoutASideAsksForBoth) {
  const Ledger ledger = LedgerOf().complaint(Region::knee, Side::unstated);
  EXPECT_EQ(asks(asked(Applies::if_complaint, {}, Sides::complaint_side), ledger),
            (Expected{{Region::knee, {kLeft, kRight}}}));
  EXPECT_TRUE(asks(asked(Applies::if_complaint, {}, Sides::other_side), ledger).empty());
}

TEST(Demands, TheOtherSideIsTheOneNotComplainedOf) {
  const Expectation e = asked(Applies::if_complaint, {}, Sides::other_side);
  EXPECT_EQ(asks(e, LedgerOf().complaint(Region::knee, kRight)), (Expected{{Region::knee, {kLeft}}}));
  EXPECT_TRUE(asks(e, LedgerOf().complaint(Region::knee, Side::both)).empty());
}

TEST(Demands, TheSpineHasNoOtherSide) {
  const Expectation e = asked(Applies::if_complaint, {}, Sides::other_side);
  EXPECT_TRUE(asks(e, LedgerOf().complaint(Region::lumbar_spine, Side::midline)).empty());
  EXPECT_TRUE(asks(e, LedgerOf().complaint(Region::lumbar_spine, kLeft)).empty());
}

TEST(Demands, AGroupInAListIsAComplaintOfTheGroup) {
  const Expectation e = asked(Applies::if_complaint, {Region::lower_extremity, Region::knee}, Sides::complaint_side);
  EXPECT_EQ(asks(e, LedgerOf().complaint(Region::knee, kLeft)), (Expected{{Region::knee, {kLeft}}}));
  EXPECT_EQ(asks(e, LedgerOf().complaint(Region::lower_extremity, kLeft)),
            (Expected{{Region::lower_extremity, {kLeft}}}));
  EXPECT_TRUE(asks(e, LedgerOf().complaint(Region::foot, kLeft)).empty());
}

TEST(Demands, AComplaintOfALimbDoesNotAskForEachJointOfIt) {
  EXPECT_TRUE(
      asks(asked(Applies::if_complaint, {Region::knee}), LedgerOf().complaint(Region::lower_extremity, kLeft)).empty());
}

TEST(Demands, IfInjuryNeedsTheInjuryToBeOfThatRegion) {
  const Ledger ledger = LedgerOf().complaint(Region::knee, kLeft, true).complaint(Region::hip, kLeft, false);
  EXPECT_EQ(asks(asked(Applies::if_injury, {}, Sides::complaint_side), ledger), (Expected{{Region::knee, {kLeft}}}));
}

TEST(Demands, NeighboursTakeTheComplaintsSide) {
  EXPECT_EQ(asks(asked(Applies::if_neighbour, {}, Sides::complaint_side), LedgerOf().complaint(Region::knee, kLeft)),
            (Expected{{Region::hip, {kLeft}}, {Region::ankle, {kLeft}}}));
}

TEST(Demands, NeighboursOfTheSpineAreAskedForOnBothSides) {
  EXPECT_EQ(asks(asked(Applies::if_neighbour, {}, Sides::complaint_side),
                 LedgerOf().complaint(Region::lumbar_spine, Side::midline)),
            (Expected{{Region::thoracic_spine, {Side::midline}}, {Region::hip, {kLeft, kRight}}}));
}

TEST(Demands, ANeighbourThatIsAComplaintItselfIsNotAskedTwice) {
  EXPECT_EQ(asks(asked(Applies::if_neighbour, {}, Sides::complaint_side),
                 LedgerOf().complaint(Region::knee, kLeft).complaint(Region::hip, kLeft)),
            (Expected{{Region::ankle, {kLeft}}, {Region::lumbar_spine, {Side::midline}}}));
}

TEST(Demands, NeighboursCanBeNarrowedToAList) {
  EXPECT_EQ(asks(asked(Applies::if_neighbour, {Region::hip}, Sides::complaint_side),
                 LedgerOf().complaint(Region::knee, kLeft)),
            (Expected{{Region::hip, {kLeft}}}));
}

Side unsided(const Ledger& ledger) {
  const Profile p = profile({asked(Applies::always, {Region::knee})});
  return demands(p, ledger).front().unsided_means;
}

TEST(Demands, AnEntryWithoutASideIsTakenForTheSideComplainedOf) {
  EXPECT_EQ(unsided(LedgerOf().complaint(Region::knee, kRight)), kRight);
  EXPECT_EQ(unsided(LedgerOf().complaint(Region::lower_extremity, kRight)), kRight);
  EXPECT_EQ(unsided(LedgerOf().complaint(Region::knee, Side::both).entry(Region::knee, Component::gait, kLeft)),
            Side::unstated);
}

TEST(Demands, ElseForTheOnlySideInTheLedger) {
  EXPECT_EQ(unsided(LedgerOf().entry(Region::knee, Component::inspection, kLeft)), kLeft);
  EXPECT_EQ(unsided(LedgerOf()
                        .entry(Region::knee, Component::inspection, kLeft)
                        .entry(Region::knee, Component::palpation, kRight)),
            Side::unstated);
  EXPECT_EQ(unsided(LedgerOf()), Side::unstated);
}

}  // namespace
}  // namespace jointledger
