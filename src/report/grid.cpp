#include "report/grid.h"

#include <algorithm>

namespace jointledger {
namespace {

using Rows = std::array<GridRow, kRegionCount>;

/// Which marks of a cell a side stands for.
struct Slots {
  bool left = false;
  bool middle = false;
  bool right = false;
};

Slots slots_of(Side side) {
  switch (side) {
    case Side::left:
      return {.left = true};
    case Side::right:
      return {.right = true};
    case Side::both:
      return {.left = true, .right = true};
    case Side::midline:
    case Side::unstated:
      break;
  }
  return {.middle = true};
}

template <class Change>
void change(GridCell& cell, Side side, const Change& change_mark) {
  const Slots slots = slots_of(side);
  if (slots.left) change_mark(cell.left);
  if (slots.middle) change_mark(cell.middle);
  if (slots.right) change_mark(cell.right);
}

Mark mark_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::not_done:
      return Mark::not_done;
    case Outcome::stated:
      return Mark::stated;
    case Outcome::normal:
      return Mark::normal;
    case Outcome::abnormal:
      break;
  }
  return Mark::abnormal;
}

/// What a mark becomes where a gap lies on it.
Mark lacking(Mark mark, const Gap& gap) {
  const bool any_would_do = gap.components.size() > 1;
  if (mark == Mark::normal) return any_would_do ? mark : Mark::normal_short;
  if (mark == Mark::abnormal) return any_would_do ? mark : Mark::abnormal_short;
  if (mark >= Mark::not_done) return mark;
  const Mark asked = gap.expectation->kind == Kind::required ? Mark::required : Mark::advised;
  return std::max(mark, any_would_do ? Mark::choice : asked);
}

/// Marks what is left open: both sides of what comes in pairs, the middle of what does not.
void fill_silence(GridRow& row, Component component) {
  GridCell& cell = row.cells[static_cast<std::size_t>(component)];
  if (component == Component::gait && row.region != Region::whole_body) return;
  const bool empty = cell == GridCell{};
  const bool sided = cell.left != Mark::none || cell.right != Mark::none;
  if (is_paired(row.region) ? (empty || sided) : sided) {
    cell.left = std::max(cell.left, Mark::silent);
    cell.right = std::max(cell.right, Mark::silent);
  } else if (empty) {
    cell.middle = Mark::silent;
  }
}

}  // namespace

std::vector<GridRow> grid_of(const Ledger& ledger, const Audit* audit) {
  Rows rows;
  std::array<bool, kRegionCount> shown{};
  const auto row = [&](Region region) -> GridRow& {
    const auto index = static_cast<std::size_t>(region);
    shown[index] = true;
    rows[index].region = region;
    return rows[index];
  };

  for (const Entry& entry : ledger.entries) {
    if (entry.component == Component::unspecified) continue;
    change(row(entry.region).cells[static_cast<std::size_t>(entry.component)], entry.side,
           [&](Mark& mark) { mark = std::max(mark, mark_of(entry.outcome)); });
  }
  for (const Complaint& complaint : ledger.complaints) row(complaint.region).complaint = true;
  if (audit != nullptr) {
    for (const Gap& gap : audit->gaps) {
      for (const Component component : gap.components) {
        if (component == Component::unspecified) continue;
        change(row(gap.region).cells[static_cast<std::size_t>(component)], gap.side,
               [&](Mark& mark) { mark = lacking(mark, gap); });
      }
    }
  }

  std::vector<GridRow> grid;
  for (std::size_t i = 0; i < kRegionCount; ++i) {
    if (!shown[i]) continue;
    for (std::size_t c = 0; c < kGridColumns; ++c) fill_silence(rows[i], static_cast<Component>(c));
    grid.push_back(rows[i]);
  }
  return grid;
}

}  // namespace jointledger
