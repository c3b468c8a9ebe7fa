#include "reading/merge.h"

#include <algorithm>
#include <cstdint>
#include <tuple>
#include <utility>

#include "reading/certainty.h"

namespace jointledger {
namespace {

template <class List, class Value>
void add_once(List& list, const Value& value) {
  if (std::ranges::find(list, value) == list.end()) list.push_back(value);
}

// Ascending, overlapping ones joined.
void tidy(Entry& entry) {
  auto& spans = entry.evidence;
  std::ranges::sort(spans, {}, [](const Span& s) { return std::tuple(s.start, s.end); });
  std::size_t kept = 0;
  for (std::size_t i = 1; i < spans.size(); ++i) {
    if (spans[i].start <= spans[kept].end) {
      spans[kept].end = std::max(spans[kept].end, spans[i].end);
    } else {
      spans[++kept] = spans[i];
    }
  }
  if (!spans.empty()) spans.resize(kept + 1);
}

// Statements that support an entry: the same cell and outcome.
std::uint32_t support(const std::vector<Statement>& statements, const Entry& entry) {
  std::uint32_t count = 0;
  for (const Statement& s : statements) {
    const bool side =
        s.side == entry.side || (s.side == Side::both && (entry.side == Side::left || entry.side == Side::right));
    count += side && s.region == entry.region && s.component == entry.component && s.outcome == entry.outcome ? 1 : 0;
  }
  return count;
}

void rate(const Lexicon& lexicon, const std::vector<Statement>& statements, Entry& entry) {
  const std::uint32_t remarks = support(statements, entry);
  entry.certainty = 0;
  for (const Statement& s : statements) {
    const bool side =
        s.side == entry.side || (s.side == Side::both && (entry.side == Side::left || entry.side == Side::right));
    if (!side || s.region != entry.region || s.component != entry.component || s.outcome != entry.outcome) continue;
    entry.certainty = std::max(entry.certainty, certainty_of(lexicon, s, remarks));
  }
}

void put(std::vector<Entry>& entries, const Statement& s, Side side) {
  auto at = std::ranges::find_if(
      entries, [&](const Entry& e) { return e.region == s.region && e.component == s.component && e.side == side; });
  if (at == entries.end()) {
    Entry entry;
    entry.region = s.region;
    entry.component = s.component;
    entry.side = side;
    entry.outcome = s.outcome;
    entries.push_back(std::move(entry));
    at = entries.end() - 1;
  }
  Entry& entry = *at;
  entry.outcome = std::max(entry.outcome, s.outcome);
  entry.motions.insert(s.motions);
  for (const Degrees& degrees : s.degrees) {
    if (degrees.side == side || degrees.side == Side::both || degrees.side == Side::unstated || side == Side::midline)
      entry.degrees.push_back(degrees);
  }
  for (const Grade& grade : s.grades) {
    if (grade.side == side || grade.side == Side::both || grade.side == Side::unstated || side == Side::midline)
      entry.grades.push_back(grade);
  }
  for (const auto id : s.structures) add_once(entry.structures, id);
  for (const auto id : s.tests) add_once(entry.tests, id);
  entry.evidence.insert(entry.evidence.end(), s.evidence.begin(), s.evidence.end());
}

// What a left and a right must share to be one entry of both.
bool alike(const Entry& left, const Entry& right) {
  return left.outcome == right.outcome && left.motions == right.motions &&
         std::ranges::equal(left.structures, right.structures) && std::ranges::equal(left.tests, right.tests) &&
         std::ranges::equal(left.evidence, right.evidence);
}

bool is_pair(const Entry& first, const Entry& second) {
  return first.region == second.region && first.component == second.component && first.side == Side::left &&
         second.side == Side::right && alike(first, second);
}

}  // namespace

void merge(const Lexicon& lexicon, const std::vector<Statement>& statements, std::vector<Entry>& entries) {
  entries.clear();
  for (const Statement& s : statements) {
    if (s.side == Side::both) {
      put(entries, s, Side::left);
      put(entries, s, Side::right);
    } else {
      put(entries, s, s.side);
    }
  }
  for (Entry& entry : entries) {
    tidy(entry);
    rate(lexicon, statements, entry);
  }
  // Not sorted in place: a small_vector that was moved from allocates when it is moved to, in a function that is
  // noexcept, so that the program would end where memory runs out.
  std::vector<Entry*> order;
  order.reserve(entries.size());
  for (Entry& entry : entries) order.push_back(&entry);
  std::ranges::sort(order, {}, [](const Entry* e) { return std::tuple(e->region, e->component, e->side); });
  std::vector<Entry> sorted;
  sorted.reserve(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    Entry& entry = *order[i];
    const bool pair = i + 1 < order.size() && is_pair(entry, *order[i + 1]);
    sorted.push_back(std::move(entry));
    if (!pair) continue;
    sorted.back().side = Side::both;
    ++i;
  }
  entries = std::move(sorted);
}

}  // namespace jointledger
