#include "audit/suggest.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace jointledger {
namespace {

/// Fewer letters than this begin too many names to suggest one.
constexpr std::size_t kShortestStem = 3;

/// How many bytes must be put in, taken out, replaced, or swapped with the next to make `a` of `b`.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);  // the row before `above`, which swaps look back to
  std::vector<std::size_t> above(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before.swap(above);
    above.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replaced, above[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
  }
  return row[b.size()];
}

}  // namespace

std::optional<std::string_view> nearest_name(std::string_view typed, std::span<const std::string_view> known) {
  std::optional<std::string_view> best;
  // A third of the letters wrong is still a slip; more is another word.
  std::size_t bound = std::max<std::size_t>(1, typed.size() / 3) + 1;
  for (const std::string_view candidate : known) {
    const std::size_t distance = edit_distance(typed, candidate);
    if (distance >= bound) continue;
    bound = distance;
    best = candidate;
  }
  if (best || typed.size() < kShortestStem) return best;
  const auto longer = std::ranges::find_if(known, [&](std::string_view n) { return n.starts_with(typed); });
  if (longer != known.end()) best = *longer;
  return best;
}

}  // namespace jointledger
