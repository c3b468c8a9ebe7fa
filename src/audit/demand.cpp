#include "audit/demand.h"

#include <algorithm>

#include "audit/anatomy.h"

namespace jointledger {
namespace {

using AskedSides = boost::container::static_vector<Side, 2>;

/// A region that an expectation can apply to, and the sides which the complaint gives it.
struct Concern {
  Region region = Region::whole_body;
  bool left = false;
  bool right = false;

  bool has_one_side() const { return left != right; }
  Side one_side() const { return left ? Side::left : Side::right; }
};

void add(std::vector<Concern>& concerns, Concern one) {
  const auto at = std::ranges::find(concerns, one.region, &Concern::region);
  if (at == concerns.end()) {
    concerns.push_back(one);
  } else {
    at->left |= one.left;
    at->right |= one.right;
  }
}

std::vector<Concern> complaints_of(const Ledger& ledger, bool injuries_only) {
  std::vector<Concern> concerns;
  for (const Complaint& c : ledger.complaints) {
    if (injuries_only && !c.injury) continue;
    add(concerns,
        {c.region, c.side == Side::left || c.side == Side::both, c.side == Side::right || c.side == Side::both});
  }
  return concerns;
}

/// Neighbours take the side of their complaint. One that is complained of itself is asked for more already.
std::vector<Concern> neighbours_of(const std::vector<Concern>& complaints) {
  std::vector<Concern> concerns;
  for (const Concern& complaint : complaints) {
    for (const Region region : neighbours(complaint.region)) {
      if (std::ranges::find(complaints, region, &Concern::region) != complaints.end()) continue;
      add(concerns, {region, complaint.left, complaint.right});
    }
  }
  return concerns;
}

std::vector<Concern> examined_in(const Ledger& ledger) {
  std::vector<Concern> concerns;
  for (const Entry& entry : ledger.entries) {
    if (entry.outcome != Outcome::not_done) add(concerns, {entry.region});
  }
  return concerns;
}

/// The regions that one expectation is asked of, out of those that its `applies` allows, in the profile's order.
std::vector<Concern> chosen(const std::vector<Region>& regions, const std::vector<Concern>& allowed) {
  if (regions.empty()) return allowed;
  std::vector<Concern> concerns;
  for (const Region region : regions) {
    const auto at = std::ranges::find(allowed, region, &Concern::region);
    if (at != allowed.end()) concerns.push_back(*at);
  }
  return concerns;
}

AskedSides sides_asked(Sides sides, const Concern& concern) {
  const bool paired = is_paired(concern.region);
  switch (sides) {
    case Sides::region_default:
      break;
    case Sides::both:
      return {Side::left, Side::right};
    case Sides::complaint_side:
      if (paired && concern.has_one_side()) return {concern.one_side()};
      break;
    case Sides::other_side:
      if (!paired || !concern.has_one_side()) return {};
      return {opposite(concern.one_side())};
    case Sides::any:
      return {paired ? Side::unstated : Side::midline};
  }
  if (paired) return {Side::left, Side::right};
  return {Side::midline};
}

class Demands {
 public:
  explicit Demands(const Ledger& ledger)
      : ledger_(ledger),
        complaints_(complaints_of(ledger, false)),
        injuries_(complaints_of(ledger, true)),
        neighbours_(neighbours_of(complaints_)),
        examined_(examined_in(ledger)) {}

  void add_for(const Expectation& e, std::vector<Demand>& out) const {
    for (const Concern& concern : concerns_of(e)) {
      const AskedSides sides = sides_asked(e.sides, concern);
      if (!sides.empty()) out.push_back({&e, concern.region, sides, unsided_means(concern)});
    }
  }

 private:
  std::vector<Concern> concerns_of(const Expectation& e) const {
    switch (e.applies) {
      case Applies::always: {
        std::vector<Concern> concerns;
        for (const Region region : e.regions) add(concerns, {region});
        return concerns;
      }
      case Applies::if_examined:
        return chosen(e.regions, examined_);
      case Applies::if_complaint:
        return chosen(e.regions, complaints_);
      case Applies::if_injury:
        return chosen(e.regions, injuries_);
      case Applies::if_neighbour:
        return chosen(e.regions, neighbours_);
    }
    return {};
  }

  Side unsided_means(const Concern& concern) const {
    if (concern.has_one_side()) return concern.one_side();
    Concern seen{concern.region};
    for (const Concern& complaint : complaints_) {
      if (!covers(complaint.region, concern.region)) continue;
      seen.left |= complaint.left;
      seen.right |= complaint.right;
    }
    if (seen.left || seen.right) return seen.has_one_side() ? seen.one_side() : Side::unstated;
    for (const Entry& entry : ledger_.entries) {
      if (entry.region != concern.region) continue;
      seen.left |= entry.side == Side::left || entry.side == Side::both;
      seen.right |= entry.side == Side::right || entry.side == Side::both;
    }
    return seen.has_one_side() ? seen.one_side() : Side::unstated;
  }

  const Ledger& ledger_;
  std::vector<Concern> complaints_;
  std::vector<Concern> injuries_;
  std::vector<Concern> neighbours_;
  std::vector<Concern> examined_;
};

}  // namespace

std::vector<Demand> demands(const Profile& profile, const Ledger& ledger) {
  std::vector<Demand> out;
  const Demands maker(ledger);
  for (const Expectation& e : profile.expectations) maker.add_for(e, out);
  return out;
}

Side opposite(Side side) {
  if (side == Side::left) return Side::right;
  if (side == Side::right) return Side::left;
  return side;
}

}  // namespace jointledger
