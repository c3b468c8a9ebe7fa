#include "intake/recognise.h"

#include <algorithm>
#include <array>
#include <variant>

#include "intake/ascii.h"
#include "intake/csv_columns.h"
#include "intake/csv_row.h"
#include "intake/csv_splitter.h"
#include "intake/hl7_message.h"

namespace jointledger {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kBlank = " \t\r\n\v\x1c";  // with the bytes that frame HL7 messages

struct Extension {
  std::string_view name;
  Looks looks;
};
constexpr std::array<Extension, 7> kExtensions = {{{".ndjson", Looks::json},
                                                   {".jsonl", Looks::json},
                                                   {".json", Looks::json},
                                                   {".csv", Looks::csv},
                                                   {".tsv", Looks::tsv},
                                                   {".hl7", Looks::hl7},
                                                   {".xml", Looks::ccda}}};

Looks by_extension(std::string_view path) {
  std::string name = lowered(path);
  if (name.ends_with(".gz")) name.resize(name.size() - 3);
  const auto* const found = std::ranges::find_if(kExtensions, [&](const auto& e) { return name.ends_with(e.name); });
  return found == kExtensions.end() ? Looks::text : found->looks;
}

bool is_table(const CsvRow& header, const CsvNames& names) {
  return std::holds_alternative<CsvColumns>(columns_of(header, names));
}

Looks table_or_text(std::string_view start, std::string_view path, const IntakeOptions& options) {
  const std::string_view line = start.substr(0, start.find('\n'));
  const char separator = likely_separator(line);
  CsvRow header(separator);
  header.take(line);
  header.finish();
  if (is_table(header, omop_names())) return Looks::omop;
  const Looks table = separator == '\t' ? Looks::tsv : Looks::csv;
  if (is_table(header, csv_names(options)) || names_columns(options)) return table;
  const Looks extension = by_extension(path);
  return extension == Looks::csv || extension == Looks::tsv ? extension : Looks::text;
}

bool has_root(std::string_view start, std::string_view name) {
  for (std::size_t at = start.find(name); at != std::string_view::npos; at = start.find(name, at + 1)) {
    if (at > 0 && (start[at - 1] == '<' || start[at - 1] == ':')) return true;
  }
  return false;
}

}  // namespace

Looks looks_like(std::string_view start, bool all, std::string_view path, const IntakeOptions& options) {
  if (start.size() < kByteOrderMark.size() && !all && kByteOrderMark.starts_with(start)) return Looks::unclear;
  if (start.starts_with(kByteOrderMark)) start.remove_prefix(kByteOrderMark.size());
  const std::size_t first = start.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return all ? by_extension(path) : Looks::unclear;
  const std::string_view content = start.substr(first);
  if (content.front() == '{') {
    const std::size_t next = content.find_first_not_of(kBlank, 1);
    if (next == std::string_view::npos && !all) return Looks::unclear;
    if (next != std::string_view::npos && (content[next] == '"' || content[next] == '}')) return Looks::json;
  }
  const std::size_t line_end = content.find_first_of("\r\n");
  if (line_end == std::string_view::npos && !all) return Looks::unclear;
  if (starts_message(content) || (is_batch_segment(content) && content.size() > 3)) return Looks::hl7;
  if (content.front() == '<') {
    if (has_root(content, "ClinicalDocument")) return Looks::ccda;
    if (!all) return Looks::unclear;
    return content.starts_with("<?xml") ? Looks::ccda : Looks::text;
  }
  return table_or_text(content, path, options);
}

}  // namespace jointledger
