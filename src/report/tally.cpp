#include "report/tally.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "report/dates.h"
#include "report/note_facts.h"
#include "report/report.h"

namespace jointledger {
namespace {

void take_dates(std::uint32_t first, std::uint32_t last, ReportTally& tally) {
  if (first == 0) return;
  tally.first_date = tally.first_date == 0 ? first : std::min(tally.first_date, first);
  tally.last_date = std::max(tally.last_date, last);
}

void count_expectations(const Audit& audit, std::vector<ExpectationTally>& tallies) {
  const std::vector<Expectation>& all = audit.profile->expectations;
  tallies.resize(all.size());
  const auto tally_of = [&](const Expectation* e) -> ExpectationTally& {
    return tallies[static_cast<std::size_t>(e - all.data())];
  };
  for (const Credit& credit : audit.credits) {
    ++tally_of(credit.expectation).asked;
    ++tally_of(credit.expectation).met;
  }
  for (const Gap& gap : audit.gaps) {
    // A left and a right that lack different things are two gaps, but one demand.
    const auto same = [&](const Gap& other) {
      return other.expectation == gap.expectation && other.region == gap.region;
    };
    if (&*std::ranges::find_if(audit.gaps, same) == &gap) ++tally_of(gap.expectation).asked;
  }
}

}  // namespace

void count(const ReportItem& item, ReportTally& tally) {
  ++tally.notes;
  const std::uint32_t date = number_of_date(day_of(item.note));
  take_dates(date, date, tally);
  if (item.audit == nullptr) return;
  const Audit& audit = *item.audit;
  if (audit.applicable > 0) {
    ++tally.asked;
    if (!audit.lacks_required()) ++tally.complete;
    tally.score += static_cast<std::uint64_t>(std::llround(audit.score * 10'000.0));
  }
  tally.gaps += audit.gaps.size();
  tally.inconsistencies += audit.inconsistencies.size();
  count_expectations(audit, tally.expectations);
}

void merge(const ReportTally& part, ReportTally& tally) {
  tally.notes += part.notes;
  tally.asked += part.asked;
  tally.complete += part.complete;
  tally.gaps += part.gaps;
  tally.inconsistencies += part.inconsistencies;
  tally.score += part.score;
  tally.expectations.resize(std::max(tally.expectations.size(), part.expectations.size()));
  for (std::size_t i = 0; i < part.expectations.size(); ++i) {
    tally.expectations[i].asked += part.expectations[i].asked;
    tally.expectations[i].met += part.expectations[i].met;
  }
  take_dates(part.first_date, part.last_date, tally);
}

}  // namespace jointledger
