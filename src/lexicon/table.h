// Tab-separated tables: how the lexicon is stored.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointledger {

/// One line of a table. Cells are trimmed; an empty cell or "-" is the empty string.
struct TableRow {
  std::uint32_t line = 0;  ///< counts from 1
  std::vector<std::string> cells;
};

struct Table {
  std::string file;  ///< as given, for messages
  std::vector<std::string> columns;
  std::vector<TableRow> rows;  ///< rows whose number of cells differs from the columns' are kept as they are
};

/// Reads a table (text/tab-separated-values as IANA has it: no quoting, so no cell holds a tab or line break).
/// Lines that are empty or begin with '#' are passed over. Nothing if the file cannot be read.
std::optional<Table> read_table(const std::filesystem::path& file);

/// The forms in a cell, separated by " | ", trimmed.
std::vector<std::string> forms_of(std::string_view cell);

}  // namespace jointledger
