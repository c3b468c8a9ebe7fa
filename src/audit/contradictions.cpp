// Normal and abnormal for the same thing. Precision comes first: two remarks clash only where the words speak of the
// same thing at the same place, and nothing in them tells of another time.
#include <algorithm>
#include <span>
#include <string>

#include "audit/consistency_checks.h"
#include "audit/prompt.h"

namespace jointledger {
namespace {

/// Remarks of a note that are held against each other. Each is held against each, so that a text of many megabytes
/// would take hours; no examiner makes a tenth as many.
constexpr std::size_t kMostRemarks = 4096;

bool share_side(Side a, Side b) { return a == b || a == Side::both || b == Side::both; }

template <class List>
bool share_one(const List& a, const List& b) {
  return std::ranges::any_of(a, [&](const auto& value) { return std::ranges::find(b, value) != b.end(); });
}

/// A remark on motion as a whole is one on each motion; two motions are two things.
bool same_motion(const Remark& normal, const Remark& abnormal) {
  if (normal.motions.empty()) return true;
  const MotionSet left_over = normal.motions.without(abnormal.motions);
  return !(left_over == normal.motions);
}

bool clash(const Remark& normal, const Remark& abnormal) {
  if (normal.region != abnormal.region || normal.component != abnormal.component) return false;
  if (normal.exam != abnormal.exam || normal.sentence == abnormal.sentence) return false;
  if (!share_side(normal.side, abnormal.side) || !share_one(normal.subjects, abnormal.subjects)) return false;
  if (!same_motion(normal, abnormal)) return false;
  // "No effusion" is of the whole knee; "nontender laterally" leaves the other side of it.
  return std::ranges::includes(abnormal.narrowed, normal.narrowed);
}

Inconsistency finding(const Remark& normal, const Remark& abnormal) {
  Inconsistency found;
  found.check = Check::contradiction;
  found.region = normal.region;
  found.side = abnormal.side == Side::both ? normal.side : abnormal.side;
  found.component = normal.component;
  const bool normal_first = normal.sentence < abnormal.sentence;
  const Remark& first = normal_first ? normal : abnormal;
  const Remark& second = normal_first ? abnormal : normal;
  found.first.assign(first.evidence.begin(), first.evidence.end());
  found.second.assign(second.evidence.begin(), second.evidence.end());
  const std::string where = normal.component == Component::gait
                                ? "Gait"
                                : place(found.region, found.side) + ", " + std::string(phrase(normal.component));
  found.message = where +
                  ": the note reads as normal in one place and as abnormal in another, of the same thing. Which one "
                  "holds, or when did it change?";
  if (found.message.front() >= 'a' && found.message.front() <= 'z')
    found.message.front() = static_cast<char>(found.message.front() - 'a' + 'A');
  return found;
}

}  // namespace

void find_contradictions(const Ledger& ledger, std::vector<Inconsistency>& out) {
  const std::size_t before = out.size();
  const std::span<const Remark> remarks =
      std::span(ledger.remarks).first(std::min(ledger.remarks.size(), kMostRemarks));
  for (const Remark& normal : remarks) {
    if (normal.outcome != Outcome::normal) continue;
    for (const Remark& abnormal : remarks) {
      if (abnormal.outcome != Outcome::abnormal || !clash(normal, abnormal)) continue;
      // One finding a cell: whoever looks at it sees the rest.
      const bool told =
          std::any_of(out.begin() + static_cast<std::ptrdiff_t>(before), out.end(), [&](const Inconsistency& known) {
            return known.region == normal.region && known.component == normal.component &&
                   share_side(known.side, normal.side);
          });
      if (!told) out.push_back(finding(normal, abnormal));
    }
  }
}

}  // namespace jointledger
