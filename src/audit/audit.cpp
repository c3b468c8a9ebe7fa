#include "audit/audit.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "audit/demand.h"
#include "audit/finding.h"
#include "audit/prompt.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

struct ReasonWords {
  std::string_view name;
  std::string_view phrase;
};
constexpr std::array<ReasonWords, kReasonCount> kReasons = {{
    {"not_mentioned"sv, "not mentioned"sv},
    {"one_side_only"sv, "one side only"sv},
    {"motions_missing"sv, "motions missing"sv},
    {"structures_missing"sv, "structures missing"sv},
    {"no_result_stated"sv, "no result stated"sv},
    {"blanket_only"sv, "only a blanket remark"sv},
    {"deferred_without_reason"sv, "deferred without a reason"sv},
}};

/// What became of one demand: a finding for each side it asks for, or one for left and right taken together.
struct SidedFinding {
  Side side = Side::both;
  Finding finding;
};
struct Verdict {
  boost::container::static_vector<SidedFinding, 2> sides;
  double credit = 0.0;
};

/// Where this side is silent and the other was examined, that is the thing to say.
void note_other_side(const Demand& demand, const Ledger& ledger, Side side, Finding& finding) {
  if (finding.met || finding.reason != Reason::not_mentioned || opposite(side) == side) return;
  const Finding other = look_up(demand, ledger, opposite(side), false);
  if (!other.seen) return;
  finding.reason = Reason::one_side_only;
  finding.entries = other.entries;
}

/// Left and right were asked for. An entry without a side speaks for one of them only: for the side that it is taken
/// for, else for the one that it does more good to.
Verdict settle_pair(const Demand& demand, const Ledger& ledger) {
  Finding left = look_up(demand, ledger, Side::left, false);
  Finding right = look_up(demand, ledger, Side::right, false);
  if (demand.unsided_means == Side::unstated && !(left.met && right.met)) {
    Finding left_with = look_up(demand, ledger, Side::left, true);
    Finding right_with = look_up(demand, ledger, Side::right, true);
    if (!left.seen && !right.seen && left_with.seen) {
      Verdict verdict;
      verdict.credit = (left_with.credit + right.credit) / 2;
      // Some side lacks all that is asked, so all of it is missing.
      right.reason = Reason::one_side_only;
      right.entries = left_with.entries;
      verdict.sides.push_back({Side::unstated, std::move(right)});
      return verdict;
    }
    if (left_with.credit + right.credit >= left.credit + right_with.credit) {
      left = std::move(left_with);
    } else {
      right = std::move(right_with);
    }
  }
  Verdict verdict;
  verdict.credit = (left.credit + right.credit) / 2;
  note_other_side(demand, ledger, Side::left, left);
  note_other_side(demand, ledger, Side::right, right);
  verdict.sides.push_back({Side::left, std::move(left)});
  verdict.sides.push_back({Side::right, std::move(right)});
  return verdict;
}

Verdict settle(const Demand& demand, const Ledger& ledger) {
  if (demand.sides.size() == 2) return settle_pair(demand, ledger);
  const Side side = demand.sides.front();
  Verdict verdict;
  Finding finding = look_up(demand, ledger, side, true);
  verdict.credit = finding.credit;
  note_other_side(demand, ledger, side, finding);
  verdict.sides.push_back({side, std::move(finding)});
  return verdict;
}

bool lack_the_same(const Finding& a, const Finding& b) {
  return a.met == b.met && a.reason == b.reason && a.motions == b.motions && a.structures == b.structures;
}

template <class List>
void sort_unique(List& list) {
  std::ranges::sort(list);
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

/// Makes left and right one where they lack the same, or where neither lacks anything.
void merge_sides(Verdict& verdict) {
  if (verdict.sides.size() < 2) return;
  Finding& left = verdict.sides.front().finding;
  const Finding& right = verdict.sides.back().finding;
  if (!lack_the_same(left, right)) return;
  left.entries.insert(left.entries.end(), right.entries.begin(), right.entries.end());
  sort_unique(left.entries);
  verdict.sides.front().side = Side::both;
  verdict.sides.pop_back();
}

std::vector<Span> evidence_of(const Ledger& ledger, const Finding& finding) {
  std::vector<Span> spans;
  for (const std::uint32_t i : finding.entries) {
    const auto& evidence = ledger.entries[i].evidence;
    spans.insert(spans.end(), evidence.begin(), evidence.end());
  }
  std::ranges::sort(spans, {}, [](const Span& s) { return std::pair(s.start, s.end); });
  spans.erase(std::unique(spans.begin(), spans.end()), spans.end());
  return spans;
}

Gap gap_of(const Demand& demand, const Ledger& ledger, const SidedFinding& sided, double credit) {
  const Finding& finding = sided.finding;
  Gap gap;
  gap.expectation = demand.expectation;
  gap.region = demand.region;
  gap.side = sided.side;
  gap.components = demand.expectation->components;
  gap.motions = finding.motions;
  gap.structures = finding.structures;
  gap.reason = finding.reason;
  gap.nearest = evidence_of(ledger, finding);
  gap.credit = credit;
  gap.prompt = prompt_for(gap);
  return gap;
}

bool comes_first(const Gap& a, const Gap& b) {
  const Expectation& x = *a.expectation;
  const Expectation& y = *b.expectation;
  if (x.kind != y.kind) return x.kind == Kind::required;
  return x.weight > y.weight;
}

}  // namespace

std::string_view name(Reason value) { return kReasons[static_cast<std::size_t>(value)].name; }
std::string_view phrase(Reason value) { return kReasons[static_cast<std::size_t>(value)].phrase; }

bool Audit::lacks_required() const {
  return std::ranges::any_of(gaps, [](const Gap& gap) { return gap.expectation->kind == Kind::required; });
}

Audit audit(const Profile& profile, const Ledger& ledger, const MotionLimits& limits, float least_certainty) {
  std::vector<std::uint32_t> doubtful;
  std::vector<std::uint32_t> sure;
  for (std::uint32_t i = 0; i < ledger.entries.size(); ++i) {
    (ledger.entries[i].certainty < least_certainty ? doubtful : sure).push_back(i);
  }
  if (!doubtful.empty()) {
    Ledger rest = ledger;
    rest.entries.clear();
    for (const std::uint32_t i : sure) rest.entries.push_back(ledger.entries[i]);
    Audit result = audit(profile, rest, limits);
    for (Credit& credit : result.credits) {
      for (std::uint32_t& entry : credit.entries) entry = sure[entry];
    }
    result.doubtful = std::move(doubtful);
    return result;
  }
  Audit result;
  result.profile = &profile;
  double asked = 0.0;
  double earned = 0.0;
  for (const Demand& demand : demands(profile, ledger)) {
    Verdict verdict = settle(demand, ledger);
    merge_sides(verdict);
    ++result.applicable;
    asked += demand.expectation->weight;
    earned += demand.expectation->weight * verdict.credit;

    if (verdict.sides.size() == 1 && verdict.sides.front().finding.met) {
      ++result.met;
      const SidedFinding& whole = verdict.sides.front();
      result.credits.push_back({demand.expectation, demand.region, whole.side, whole.finding.entries});
      continue;
    }
    for (const SidedFinding& sided : verdict.sides) {
      if (!sided.finding.met) result.gaps.push_back(gap_of(demand, ledger, sided, verdict.credit));
    }
  }
  std::ranges::stable_sort(result.gaps, comes_first);
  if (asked > 0.0) result.score = earned / asked;
  result.inconsistencies = inconsistencies(ledger, limits, profile.checks_off);
  return result;
}

}  // namespace jointledger
