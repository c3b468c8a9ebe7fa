// The grid set as text, and the key to its marks.
#pragma once

#include <span>
#include <string>

#include "report/grid.h"

namespace jointledger {

/// Two heading lines and a line for each row, each of at most 80 columns.
void append_grid(std::span<const GridRow> grid, bool colour, std::string& out);

/// What the marks mean. With `audited`, those too that show what is lacking.
void append_key(bool audited, std::string& out);

}  // namespace jointledger
