#include "audit/finding.h"

#include <algorithm>
#include <iterator>

#include "audit/anatomy.h"
#include "audit/partial_credit.h"

namespace jointledger {
namespace {

using EntryList = std::vector<std::uint32_t>;

/// How near an entry's region is to the one asked for.
enum class Reach : std::uint8_t { here, limb, body, nowhere };

Reach reach_of(const Demand& demand, const Entry& entry) {
  const Region asked = demand.region;
  if (entry.region == asked) return Reach::here;
  // Asked of a group, a remark on any part of it will do.
  if (is_group(asked) && covers(asked, entry.region)) return Reach::here;
  if (demand.expectation->distally && is_distal(entry.region, asked)) return Reach::here;
  if (!motions_written_elsewhere(asked, entry.region).empty()) return Reach::here;
  if (!covers(entry.region, asked)) return Reach::nowhere;
  return entry.region == Region::whole_body ? Reach::body : Reach::limb;
}

bool is_near_enough(Reach reach, Specificity specificity) {
  return static_cast<int>(reach) <= static_cast<int>(specificity);
}

bool speaks_of(const Entry& entry, Side asked, Side unsided_means, bool count_unsided) {
  if (asked != Side::left && asked != Side::right) return true;
  if (entry.side == Side::both || entry.side == asked) return true;
  if (entry.side == Side::left || entry.side == Side::right) return false;
  if (entry.side == Side::midline && !is_paired(entry.region)) return true;
  if (unsided_means == Side::unstated) return count_unsided;
  return unsided_means == asked;
}

/// Which of the asked motions the entry gives, with a result where one is needed.
MotionSet motions_given(const Demand& demand, const Entry& entry) {
  const Expectation& e = *demand.expectation;
  MotionSet measured;
  for (const Degrees& degrees : entry.degrees) {
    if (degrees.motion) {
      measured.insert(*degrees.motion);
    } else if (degrees.from) {
      measured.insert(motions_of_unnamed_range(entry.region));
    }
  }
  MotionSet named = measured;
  // Of a motion that was merely tried, only what was measured has a result.
  if (entry.outcome != Outcome::stated || !e.needs_result || measured.empty()) named.insert(entry.motions);

  // "Full range of motion" is full in every plane; "motion reduced" leaves open in which.
  const bool is_full = entry.outcome == Outcome::normal && named.empty();
  const MotionSet given = is_full ? e.motions : motions_meant(demand.region, named);
  const MotionSet shared = motions_written_elsewhere(demand.region, entry.region);
  return shared.empty() ? given : given.without(given.without(shared));
}

bool has_result(const Entry& entry) {
  return entry.outcome != Outcome::stated || !entry.degrees.empty() || !entry.grades.empty();
}

bool overlap(MotionSet a, MotionSet b) { return a.without(b) != a; }

std::size_t count(MotionSet set) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < kMotionCount; ++i) n += set.contains(static_cast<Motion>(i)) ? 1 : 0;
  return n;
}

double share_named(std::size_t missing, std::size_t asked) {
  if (missing == 0) return 1.0;
  return std::max(kPartialCredit.none_named, static_cast<double>(asked - missing) / static_cast<double>(asked));
}

/// The verdict on entries that are near enough and of a component that counts.
Finding judge(const Demand& demand, const Ledger& ledger, const EntryList& entries) {
  const Expectation& e = *demand.expectation;
  Finding finding;
  finding.seen = true;
  finding.entries = entries;
  finding.motions = e.motions;
  finding.structures.assign(e.structures.begin(), e.structures.end());

  bool any_result = false;
  for (const std::uint32_t i : entries) {
    const Entry& entry = ledger.entries[i];
    if (e.needs_result && !has_result(entry)) continue;
    any_result = true;
    finding.motions = finding.motions.without(motions_given(demand, entry));
    std::erase_if(finding.structures,
                  [&](std::string_view s) { return std::ranges::find(entry.structures, s) != entry.structures.end(); });
  }
  if (!any_result) {
    finding.reason = Reason::no_result_stated;
    finding.credit = kPartialCredit.no_result;
    return finding;
  }
  const std::size_t motions_missing = count(finding.motions);
  finding.met = motions_missing == 0 && finding.structures.empty();
  finding.reason = motions_missing > 0 ? Reason::motions_missing : Reason::structures_missing;
  finding.credit =
      share_named(motions_missing, count(e.motions)) * share_named(finding.structures.size(), e.structures.size());
  return finding;
}

/// The verdict where nothing near enough was examined.
Finding short_of(const Demand& demand, Reason reason, double credit, const EntryList& entries) {
  const Expectation& e = *demand.expectation;
  Finding finding;
  finding.reason = reason;
  finding.credit = credit;
  finding.motions = e.motions;
  finding.structures.assign(e.structures.begin(), e.structures.end());
  finding.entries = entries;
  return finding;
}

/// The entries that bear on one side of a demand, sorted by how much they are worth.
struct Candidates {
  EntryList here;           ///< count in full
  EntryList wide;           ///< count in full too, if less to the point
  EntryList deferred;       ///< said not to have been done, of this region
  EntryList limb;           ///< too wide
  EntryList body;           ///< too wide by far
  EntryList unspecified;    ///< no component named
  EntryList deferred_wide;  ///< said not to have been done, of a wider region than counts
};

Candidates candidates(const Demand& demand, const Ledger& ledger, Side side, bool count_unsided) {
  const Expectation& e = *demand.expectation;
  Candidates found;
  for (std::uint32_t i = 0; i < ledger.entries.size(); ++i) {
    const Entry& entry = ledger.entries[i];
    const bool named = std::ranges::find(e.components, entry.component) != e.components.end();
    if (!named && entry.component != Component::unspecified) continue;
    const Reach reach = reach_of(demand, entry);
    if (reach == Reach::nowhere) continue;
    const bool near_enough = is_near_enough(reach, e.specificity);
    const bool counts = named && near_enough && entry.outcome != Outcome::not_done;
    // A remark that earns next to nothing may speak for both sides: there is no side to be gained by it.
    if (!speaks_of(entry, side, demand.unsided_means, count_unsided || !counts)) continue;

    // The forearm speaks for the elbow in its turning only.
    const bool is_elsewhere = !motions_written_elsewhere(demand.region, entry.region).empty();
    if (is_elsewhere && (!counts || !overlap(motions_given(demand, entry), e.motions))) continue;

    if (entry.outcome == Outcome::not_done) {
      (near_enough ? found.deferred : found.deferred_wide).push_back(i);
    } else if (!named) {
      found.unspecified.push_back(i);
    } else if (reach == Reach::here) {
      found.here.push_back(i);
    } else if (near_enough) {
      found.wide.push_back(i);
    } else {
      (reach == Reach::limb ? found.limb : found.body).push_back(i);
    }
  }
  return found;
}

}  // namespace

Finding look_up(const Demand& demand, const Ledger& ledger, Side side, bool count_unsided) {
  const Candidates found = candidates(demand, ledger, side, count_unsided);
  if (!found.here.empty()) {
    Finding finding = judge(demand, ledger, found.here);
    // What is said of the whole limb cannot fill in what was found wrong here ("full motion except the knee").
    const bool is_abnormal = std::ranges::any_of(
        found.here, [&](std::uint32_t i) { return ledger.entries[i].outcome == Outcome::abnormal; });
    if (finding.met || found.wide.empty() || is_abnormal) return finding;
  }
  if (!found.here.empty() || !found.wide.empty()) {
    EntryList all;
    std::ranges::merge(found.here, found.wide, std::back_inserter(all));
    return judge(demand, ledger, all);
  }
  // That this joint was left out is nearer the truth than a flourish about the whole body.
  if (!found.deferred.empty()) {
    return short_of(demand, Reason::deferred_without_reason, kPartialCredit.deferred, found.deferred);
  }
  if (!found.limb.empty()) return short_of(demand, Reason::blanket_only, kPartialCredit.limb_only, found.limb);
  if (!found.body.empty()) return short_of(demand, Reason::blanket_only, kPartialCredit.body_only, found.body);
  if (!found.unspecified.empty()) {
    return short_of(demand, Reason::blanket_only, kPartialCredit.unspecified, found.unspecified);
  }
  if (!found.deferred_wide.empty()) {
    return short_of(demand, Reason::deferred_without_reason, kPartialCredit.deferred, found.deferred_wide);
  }
  return short_of(demand, Reason::not_mentioned, 0.0, {});
}

}  // namespace jointledger
