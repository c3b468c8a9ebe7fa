// Runs audits of small profiles over small ledgers.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "builders.h"

namespace jointledger::testing {

inline constexpr Side kLeft = Side::left;
inline constexpr Side kRight = Side::right;
inline constexpr Side kBoth = Side::both;
inline constexpr auto kRom = Component::range_of_motion;

inline Expectation knee_palpation() { return expectation("knee-palpation", Region::knee, Component::palpation); }
inline Expectation knee_motion() {
  Expectation e = expectation("knee-motion", Region::knee, kRom);
  e.motions = motions({Motion::flexion, Motion::extension});
  return e;
}
inline Expectation on_one_side(Expectation e) {
  e.sides = Sides::any;
  return e;
}

/// Holds its own copies, so that what an Audit borrows outlives it.
class AuditTest : public ::testing::Test {
 protected:
  const Audit& run(std::vector<Expectation> expectations, const Ledger& ledger) {
    profile_ = profile(std::move(expectations));
    ledger_ = ledger;
    audit_ = audit(profile_, ledger_);
    return audit_;
  }
  const Audit& run(Expectation e, const Ledger& ledger) { return run(std::vector{std::move(e)}, ledger); }
  /// The one gap there is.
  const Gap& gap() const {
    static const Gap kNone;
    EXPECT_EQ(audit_.gaps.size(), 1U);
    return audit_.gaps.empty() ? kNone : audit_.gaps.front();
  }
  Profile profile_;
  Ledger ledger_;
  Audit audit_;
};

}  // namespace jointledger::testing
