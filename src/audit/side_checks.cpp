// Sides that do not go together: complaint, exam and assessment of one region, and a place under a label.
#include <algorithm>
#include <optional>
#include <string>

#include "audit/consistency_checks.h"
#include "audit/prompt.h"

namespace jointledger {
namespace {

bool one_side(Side side) { return side == Side::left || side == Side::right; }
Side other_side(Side side) { return side == Side::left ? Side::right : Side::left; }

bool same_limb(Region a, Region b) {
  const auto both_in = [&](Region limb) { return (a == limb || covers(limb, a)) && (b == limb || covers(limb, b)); };
  return both_in(Region::upper_extremity) || both_in(Region::lower_extremity);
}

/// Where a region is named on one side only, that side and the words.
struct OneSide {
  Side side = Side::unstated;
  std::vector<Span> words;
};

std::optional<OneSide> complained(const Ledger& ledger, Region region) {
  std::optional<OneSide> found;
  for (const Complaint& c : ledger.complaints) {
    if (c.region != region) continue;
    if (!one_side(c.side) || found) return std::nullopt;
    found = OneSide{c.side, {c.evidence}};
  }
  return found;
}

std::optional<OneSide> assessed(const Ledger& ledger, Region region) {
  std::optional<OneSide> found;
  for (const NamedPlace& named : ledger.named_in_assessment) {
    if (named.region != region) continue;
    if (!one_side(named.side) || (found && found->side != named.side)) return std::nullopt;
    if (!found) found = OneSide{named.side, {named.words}};
  }
  return found;
}

/// The exam of a region, where it is of one side and the other side of its limb is not so much as named.
std::optional<OneSide> examined(const Ledger& ledger, Region region) {
  std::optional<OneSide> found;
  for (const Entry& entry : ledger.entries) {
    if (entry.region != region || entry.outcome == Outcome::not_done) continue;
    if (!one_side(entry.side) || (found && found->side != entry.side)) return std::nullopt;
    if (!found) found = OneSide{entry.side, {}};
  }
  if (!found) return std::nullopt;
  const Side other = other_side(found->side);
  for (const NamedPlace& named : ledger.named_in_exam) {
    const bool near = named.region == region || is_group(named.region) || same_limb(named.region, region);
    if (named.side == other && near) return std::nullopt;
    if (named.region == region && named.side == found->side && found->words.empty())
      found->words.push_back(named.words);
  }
  // A side that was only carried over from another place is no ground for a question.
  if (found->words.empty()) return std::nullopt;
  return found;
}

Inconsistency conflict(Region region, const OneSide& first, const OneSide& second, std::string message) {
  Inconsistency found;
  found.check = Check::side_conflict;
  found.region = region;
  found.side = first.side;
  found.first = first.words;
  found.second = second.words;
  found.message = std::move(message);
  return found;
}

void check_region(const Ledger& ledger, Region region, std::vector<Inconsistency>& out) {
  const auto complaint = complained(ledger, region);
  const auto exam = examined(ledger, region);
  const auto assessment = assessed(ledger, region);
  const auto differ = [](const std::optional<OneSide>& a, const std::optional<OneSide>& b) {
    return a && b && a->side != b->side;
  };
  const std::string question = ". Which side is meant?";
  if (differ(complaint, exam)) {
    out.push_back(conflict(region, *complaint, *exam,
                           "The complaint names the " + place(region, complaint->side) + ", the exam only the " +
                               place(region, exam->side) + question));
  }
  if (differ(complaint, assessment)) {
    out.push_back(conflict(region, *complaint, *assessment,
                           "The complaint names the " + place(region, complaint->side) + ", the assessment only the " +
                               place(region, assessment->side) + question));
  } else if (!complaint && differ(exam, assessment)) {
    out.push_back(conflict(region, *exam, *assessment,
                           "The exam names only the " + place(region, exam->side) + ", the assessment only the " +
                               place(region, assessment->side) + question));
  }
}

}  // namespace

void find_side_conflicts(const Ledger& ledger, std::vector<Inconsistency>& out) {
  for (std::size_t r = 0; r < kRegionCount; ++r) {
    const auto region = static_cast<Region>(r);
    if (is_paired(region) && !is_group(region)) check_region(ledger, region, out);
  }
}

void find_side_slips(const Ledger& ledger, std::vector<Inconsistency>& out) {
  for (const SideSlip& slip : ledger.side_slips) {
    const bool told = !out.empty() && out.back().check == Check::side_slip && out.back().first.front() == slip.heading;
    if (told) {
      out.back().second.push_back(slip.words);
      continue;
    }
    Inconsistency found;
    found.check = Check::side_slip;
    found.region = slip.region;
    found.side = slip.heading_side;
    found.first = {slip.heading};
    found.second = {slip.words};
    found.message = "The text under the heading of the " + place(slip.region, slip.heading_side) + " speaks of the " +
                    place(slip.region, other_side(slip.heading_side)) + ". Which side is meant?";
    out.push_back(std::move(found));
  }
}

}  // namespace jointledger
