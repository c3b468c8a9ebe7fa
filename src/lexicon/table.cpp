#include "lexicon/table.h"

#include <boost/algorithm/string/classification.hpp>
#include <boost/algorithm/string/split.hpp>
#include <boost/algorithm/string/trim.hpp>
#include <fstream>

namespace jointledger {

std::optional<Table> read_table(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return std::nullopt;
  Table table;
  table.file = file.string();
  std::string text;
  for (std::uint32_t line = 1; std::getline(in, text); ++line) {
    if (!text.empty() && text.back() == '\r') text.pop_back();
    if (text.empty() || text[0] == '#') continue;
    TableRow row;
    row.line = line;
    boost::algorithm::split(row.cells, text, boost::algorithm::is_any_of("\t"));
    for (std::string& cell : row.cells) {
      boost::algorithm::trim(cell);
      if (cell == "-") cell.clear();
    }
    if (table.columns.empty()) {
      table.columns = std::move(row.cells);
    } else {
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

std::vector<std::string> forms_of(std::string_view cell) {
  std::vector<std::string> forms;
  boost::algorithm::split(forms, cell, boost::algorithm::is_any_of("|"));
  for (std::string& form : forms) boost::algorithm::trim(form);
  std::erase(forms, std::string());
  return forms;
}

}  // namespace jointledger
