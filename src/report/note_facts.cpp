#include "report/note_facts.h"

#include <rapidjson/document.h>

#include <algorithm>
#include <charconv>

#include "report/dates.h"

namespace jointledger {

std::string text_member_of(const Note& note, std::string_view key) {
  const auto at = std::ranges::find(note.metadata, key, &Member::key);
  if (at == note.metadata.end()) return {};
  rapidjson::Document value;
  value.Parse<rapidjson::kParseNumbersAsStringsFlag>(at->json.data(), at->json.size());
  if (value.HasParseError() || !value.IsString()) return {};
  return {value.GetString(), value.GetStringLength()};
}

std::string day_of(const Note& note) { return std::string(date_at_start(text_member_of(note, "date"))); }

std::optional<std::uint64_t> number_id_of(const Note& note) {
  std::uint64_t value = 0;
  const char* const end = note.id.data() + note.id.size();
  const auto [last, error] = std::from_chars(note.id.data(), end, value);
  if (error != std::errc() || last != end) return std::nullopt;
  return value;
}

}  // namespace jointledger
