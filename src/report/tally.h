// What a run has seen, for what an output says at its end.
//
// Whole numbers throughout, so that tallies may be kept for any share of the notes, on any thread, and put together in
// any order: the sum is the same.
#pragma once

#include <cstdint>
#include <vector>

namespace jointledger {

struct ReportItem;

/// How often an expectation was asked for.
struct ExpectationTally {
  std::uint64_t asked = 0;  ///< (note, region) pairs that it applied to
  std::uint64_t met = 0;    ///< of those, how many were met on all sides asked
  bool operator==(const ExpectationTally&) const = default;
};

struct ReportTally {
  std::uint64_t notes = 0;
  // All below are of audits; nothing where only ledgers are written.
  std::uint64_t asked = 0;     ///< notes that at least one expectation applied to
  std::uint64_t complete = 0;  ///< of those, the ones that lack nothing required
  std::uint64_t gaps = 0;
  std::uint64_t inconsistencies = 0;
  std::uint64_t score = 0;                          ///< sum of the scores of the notes asked, in ten-thousandths each
  std::vector<ExpectationTally> expectations = {};  ///< in the order of the profile's; empty until a note was audited
  std::uint32_t first_date = 0;                     ///< the earliest date of a note as yyyymmdd; 0 where none has one
  std::uint32_t last_date = 0;
  bool operator==(const ReportTally&) const = default;
};

/// Adds one note, as it is when it is written.
void count(const ReportItem& item, ReportTally& tally);

/// Adds the notes of another tally of the same profile.
void merge(const ReportTally& part, ReportTally& tally);

}  // namespace jointledger
