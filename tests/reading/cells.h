// Ledgers as cells, to compare readings with what they should be: one cell a region, component and side, with `both`
// taken apart into left and right.
//
// Written down as in sentences.tsv: "knee range_of_motion right abnormal [extension,flexion]; ...".
#pragma once

#include <compare>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.h"

namespace jointledger::testing {

struct Cell {
  Region region = Region::whole_body;
  Component component = Component::unspecified;
  Side side = Side::unstated;
  auto operator<=>(const Cell&) const = default;
};

struct CellValue {
  Outcome outcome = Outcome::stated;
  MotionSet motions;
  bool operator==(const CellValue&) const = default;
};

using Cells = std::map<Cell, CellValue>;

Cells cells_of(const Ledger& ledger);

/// Reads cells as written down; throws std::invalid_argument that quotes what is no entry.
Cells cells_of(std::string_view written);

/// Writes them down, an entry each; left and right are `both` again where they are alike.
std::vector<std::string> lines_of(const Cells& cells);

/// All lines in one, "; " between them; "-" for none.
std::string text_of(const Cells& cells);

/// How `read` is not `expected`: "lacks ...; adds ...", one line for every entry. Empty if they are the same.
std::string difference(const Cells& expected, const Cells& read);

}  // namespace jointledger::testing
