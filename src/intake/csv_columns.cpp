#include "intake/csv_columns.h"

#include <algorithm>
#include <string_view>

#include "intake/ascii.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

std::optional<std::size_t> find(const std::vector<std::string>& names, std::string_view name) {
  auto at = std::ranges::find(names, name);
  if (at == names.end()) at = std::ranges::find_if(names, [&](const auto& n) { return same_but_for_case(n, name); });
  if (at == names.end()) return std::nullopt;
  return static_cast<std::size_t>(at - names.begin());
}

}  // namespace

CsvNames csv_names(const IntakeOptions& options) {
  return {options.id_column, options.text_column, options.author_column, options.patient_column, {options.date_column}};
}

CsvNames omop_names() { return {"note_id", "note_text", "provider_id", "person_id", {"note_datetime", "note_date"}}; }

std::variant<CsvColumns, std::string> columns_of(const CsvRow& row, const CsvNames& names) {
  if (row.malformed() || row.open()) return "the header row has a quote that is never closed, or closed too soon";
  CsvColumns columns;
  for (std::size_t i = 0; i < row.size(); ++i) columns.names.emplace_back(row[i]);
  if (std::ranges::any_of(columns.names, [](const auto& n) { return first_invalid_utf8(n).has_value(); })) {
    return "the header row is not UTF-8";
  }
  const auto id = find(columns.names, names.id);
  if (!id) return "the header row has no column named " + names.id;
  const auto text = find(columns.names, names.text);
  if (!text) return "the header row has no column named " + names.text;
  if (id == text) return "the same column is asked for as id and as text";
  columns.id = *id;
  columns.text = *text;
  columns.author = find(columns.names, names.author);
  columns.patient = find(columns.names, names.patient);
  for (const std::string& date : names.dates) {
    if (const auto at = find(columns.names, date)) columns.dates.push_back(*at);
  }
  std::vector<std::string_view> sorted(columns.names.begin(), columns.names.end());
  std::ranges::sort(sorted);
  if (std::ranges::adjacent_find(sorted) != sorted.end()) return "the header row has a name twice";
  return columns;
}

}  // namespace jointledger
