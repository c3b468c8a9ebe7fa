// Short ways to write ledgers and profiles down in a test.
#pragma once

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "audit/audit.h"
#include "audit/profile.h"
#include "ledger/ledger.h"

namespace jointledger::testing {

inline MotionSet motions(std::initializer_list<Motion> list) {
  MotionSet set;
  for (const Motion m : list) set.insert(m);
  return set;
}

/// Writes one ledger. Each entry gets evidence of its own: the first [0, 1), the second [10, 11) and so on.
class LedgerOf {
 public:
  LedgerOf& entry(Region region, Component component, Side side, Outcome outcome = Outcome::normal,
                  std::initializer_list<Motion> named = {}) {
    Entry& e = ledger_.entries.emplace_back();
    e.region = region;
    e.component = component;
    e.side = side;
    e.outcome = outcome;
    e.motions = motions(named);
    const auto at = static_cast<std::uint32_t>(10 * (ledger_.entries.size() - 1));
    e.evidence.push_back({at, at + 1});
    return *this;
  }
  LedgerOf& degrees(std::optional<Motion> motion, std::optional<int> from, int to) {
    Degrees d;
    d.motion = motion;
    d.from = from;
    d.to = to;
    ledger_.entries.back().degrees.push_back(d);
    return *this;
  }
  LedgerOf& grade(int tenths) {
    Grade g;
    g.tenths = tenths;
    ledger_.entries.back().grades.push_back(g);
    return *this;
  }
  LedgerOf& structure(std::string_view id) {
    ledger_.entries.back().structures.push_back(id);
    return *this;
  }
  LedgerOf& complaint(Region region, Side side, bool injury = false) {
    ledger_.complaints.push_back({region, side, {}, injury});
    return *this;
  }
  operator const Ledger&() const { return ledger_; }  // NOLINT(google-explicit-constructor): that is its use

 private:
  Ledger ledger_;
};

inline Expectation expectation(std::string id, Region region, Component component) {
  Expectation e;
  e.id = std::move(id);
  e.regions = {region};
  e.components = {component};
  return e;
}

inline Profile profile(std::vector<Expectation> expectations) {
  Profile p;
  p.name = "test";
  p.expectations = std::move(expectations);
  return p;
}

}  // namespace jointledger::testing
