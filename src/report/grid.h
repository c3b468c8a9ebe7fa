// The grid of a note: a row for each region that was examined, complained of or found lacking, a column for each
// component, and in each cell a mark for the left side, for the right, and between them for what has no side.
//
// Plain data, no colours and no layout. Pure and thread-safe.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "audit/audit.h"
#include "ledger/ledger.h"

namespace jointledger {

/// What is shown for one side of one cell. What a note documents wins over what it lacks, and a short remark shows
/// both.
enum class Mark : std::uint8_t {
  none,            ///< there is nothing to say: gait of a knee, or the middle of a cell with two sides
  silent,          ///< neither documented nor asked for
  choice,          ///< not documented, and asked for as one of several that would do
  advised,         ///< not documented, though advised
  required,        ///< not documented, though required
  not_done,        ///< the note says that it was not done
  stated,          ///< examined, no result given
  normal_short,    ///< documented as normal, but short of what is asked
  abnormal_short,  ///< documented as abnormal, but short of what is asked
  normal,
  abnormal,
};
inline constexpr std::size_t kMarkCount = 11;

struct GridCell {
  Mark left = Mark::none;
  Mark middle = Mark::none;  ///< the midline, or a side that is not stated
  Mark right = Mark::none;
  bool operator==(const GridCell&) const = default;
};

/// All components but `unspecified`, which documents nothing in particular.
inline constexpr std::size_t kGridColumns = kComponentCount - 1;

struct GridRow {
  Region region = Region::whole_body;
  bool complaint = false;
  std::array<GridCell, kGridColumns> cells;  ///< by Component
};

/// Rows in the order of the regions. `audit` may be null; then nothing is lacking.
std::vector<GridRow> grid_of(const Ledger& ledger, const Audit* audit);

}  // namespace jointledger
