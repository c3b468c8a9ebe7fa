#include "intake/hl7_message.h"

#include <algorithm>
#include <array>
#include <utility>

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::size_t kNameLength = 3;

bool is_capital_or_digit(char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

bool is_separator(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte > ' ' && byte < 0x7F && !is_capital_or_digit(c) && !(c >= 'a' && c <= 'z');
}

bool starts_segment(std::string_view line, char field) {
  return line.size() >= kNameLength && std::ranges::all_of(line.substr(0, kNameLength), is_capital_or_digit) &&
         (line.size() == kNameLength || line[kNameLength] == field);
}

std::optional<std::string> read_delimiters(std::string_view msh, Hl7Delimiters& delimiters) {
  delimiters.field = msh[kNameLength];
  const std::string_view encoding = hl7_piece(msh, 2, delimiters.field);
  const std::size_t most = 5;  // the fifth is the truncation character of version 2.7
  if (encoding.empty() || encoding.size() > most || !std::ranges::all_of(encoding, is_separator)) {
    return "not HL7: MSH-2 does not hold the encoding characters";
  }
  const auto at = [&](std::size_t i) { return i < encoding.size() ? encoding[i] : '\0'; };
  delimiters.component = at(0);
  delimiters.repetition = at(1);
  delimiters.escape = at(2);
  delimiters.subcomponent = at(3);
  std::string all = std::string(encoding) + delimiters.field;
  std::ranges::sort(all);
  if (std::ranges::adjacent_find(all) != all.end()) return "not HL7: MSH-2 has an encoding character twice";
  return std::nullopt;
}

}  // namespace

bool starts_message(std::string_view line) {
  return line.size() > kNameLength && line.starts_with("MSH") && is_separator(line[kNameLength]);
}

bool is_batch_segment(std::string_view line) {
  constexpr std::array kNames = {"FHS"sv, "BHS"sv, "BTS"sv, "FTS"sv};
  return std::ranges::find(kNames, line.substr(0, kNameLength)) != kNames.end() &&
         (line.size() == kNameLength || is_separator(line[kNameLength]));
}

std::optional<std::string> read_hl7(std::string_view bytes, Hl7Message& message) {
  message.segments.clear();
  if (!starts_message(bytes)) return "not HL7: it does not start with MSH and a field separator";
  if (auto reason = read_delimiters(bytes.substr(0, bytes.find_first_of("\r\n")), message.delimiters)) return reason;
  std::size_t at = 0;
  while (at < bytes.size()) {
    const std::size_t end = std::min(bytes.find_first_of("\r\n", at), bytes.size());
    const std::string_view line = bytes.substr(at, end - at);
    if (starts_segment(line, message.delimiters.field)) {
      message.segments.push_back(line);
    } else if (!line.empty()) {
      // From the start of the last segment to the end of this line.
      std::string_view& last = message.segments.back();
      last = {last.data(), static_cast<std::size_t>(bytes.data() + end - last.data())};
    }
    at = end + 1;
  }
  return std::nullopt;
}

std::string_view hl7_name(std::string_view segment) { return segment.substr(0, kNameLength); }

std::string_view hl7_field(std::string_view segment, std::size_t number, const Hl7Delimiters& delimiters) {
  const bool is_header = segment.starts_with("MSH");
  if (is_header && number == 1) return segment.substr(kNameLength, 1);
  return hl7_piece(segment, is_header ? number : number + 1, delimiters.field);
}

std::string_view hl7_piece(std::string_view text, std::size_t number, char separator) {
  for (std::size_t i = 1; i < number; ++i) {
    const std::size_t at = separator == '\0' ? std::string_view::npos : text.find(separator);
    if (at == std::string_view::npos) return {};
    text.remove_prefix(at + 1);
  }
  return separator == '\0' ? text : text.substr(0, text.find(separator));
}

std::string_view hl7_charset(std::string_view msh_18) {
  // Not read: UTF-16 and UTF-32, which cannot be cut into lines at bytes, and the JIS and CNS sets, which stand in
  // messages as parts of ISO 2022.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 18> kSets = {{
      {"", "utf-8"},
      {"ASCII", "utf-8"},
      {"ISO IR6", "utf-8"},
      {"UNICODE UTF-8", "utf-8"},
      {"UTF-8", "utf-8"},
      {"8859/1", "iso-8859-1"},
      {"8859/2", "iso-8859-2"},
      {"8859/3", "iso-8859-3"},
      {"8859/4", "iso-8859-4"},
      {"8859/5", "iso-8859-5"},
      {"8859/6", "iso-8859-6"},
      {"8859/7", "iso-8859-7"},
      {"8859/8", "iso-8859-8"},
      {"8859/9", "iso-8859-9"},
      {"8859/15", "iso-8859-15"},
      {"GB 18030-2000", "gb18030"},
      {"BIG-5", "big5"},
      {"KS X 1001", "euc-kr"},
  }};
  const auto* const found = std::ranges::find(kSets, msh_18, [](const auto& set) { return set.first; });
  return found == kSets.end() ? std::string_view() : found->second;
}

}  // namespace jointledger
