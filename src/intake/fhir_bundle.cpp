#include "intake/fhir_bundle.h"

#include <utility>

#include "intake/json_words.h"
#include "text/utf8.h"

namespace jointledger {
namespace {

namespace ondemand = simdjson::ondemand;
namespace dom = simdjson::dom;

static_assert(kRecordPadding >= simdjson::SIMDJSON_PADDING);

constexpr std::string_view kWhiteSpace = " \t\r\n";
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// A string as it came in, without quotes; nothing where it has escapes, as no URL has.
std::string_view plain_string(ondemand::value value) {
  const std::string_view raw = raw_json(value);
  const bool plain = raw.size() >= 2 && raw.front() == '"' && raw.find('\\') == std::string_view::npos;
  return plain ? raw.substr(1, raw.size() - 2) : std::string_view();
}

FhirResource resource_of(ondemand::object entry) {
  FhirResource resource;
  for (auto member : entry) {
    ondemand::field field;
    std::string_view key;
    if (std::move(member).get(field) != simdjson::SUCCESS || field.unescaped_key().get(key) != simdjson::SUCCESS) break;
    if (key == "resource") resource.json = raw_json(field.value());
    if (key == "fullUrl") resource.full_url = plain_string(field.value());
  }
  return resource;
}

/// The document is valid JSON: an error here means another shape than a Bundle's, and ends its list.
void list_entries(std::string_view json, ondemand::parser& walker, std::vector<FhirResource>& resources) {
  ondemand::document document;
  ondemand::array entries;
  if (walker.iterate(json.data(), json.size(), json.size() + simdjson::SIMDJSON_PADDING).get(document) !=
          simdjson::SUCCESS ||
      document.find_field_unordered("entry").get_array().get(entries) != simdjson::SUCCESS) {
    return;
  }
  for (auto result : entries) {
    ondemand::object entry;
    if (result.get_object().get(entry) != simdjson::SUCCESS) continue;
    const FhirResource resource = resource_of(entry);
    if (resource.json.starts_with('{')) resources.push_back(resource);
  }
}

}  // namespace

FhirParsers::FhirParsers() {
  // The depth stays when the parser grows. Should there be no memory now, parsing says so.
  constexpr std::size_t kFirst = std::size_t{64} << 10;
  if (checking.allocate(kFirst, kDeepestJson) != simdjson::SUCCESS) checking = dom::parser();
}

std::string_view raw_json(ondemand::value value) {
  ondemand::json_type type{};
  std::string_view raw;
  if (value.type().get(type) != simdjson::SUCCESS) return {};
  if (type == ondemand::json_type::object) {
    ondemand::object object;
    if (value.get_object().get(object) != simdjson::SUCCESS || object.raw_json().get(raw) != simdjson::SUCCESS) {
      return {};
    }
  } else if (type == ondemand::json_type::array) {
    ondemand::array array;
    if (value.get_array().get(array) != simdjson::SUCCESS || array.raw_json().get(raw) != simdjson::SUCCESS) return {};
  } else {
    raw = value.raw_json_token();
  }
  return raw.substr(0, raw.find_last_not_of(kWhiteSpace) + 1);
}

std::string_view string_at(dom::element element, std::string_view key) {
  std::string_view text;
  return element[key].get(text) == simdjson::SUCCESS ? text : std::string_view();
}

std::optional<RecordFault> list_resources(const Record& record, FhirParsers& parsers,
                                          std::vector<FhirResource>& resources) {
  resources.clear();
  std::string_view json = record.bytes;
  if (record.place.offset == 0 && json.starts_with(kByteOrderMark)) json.remove_prefix(kByteOrderMark.size());
  if (json.find_first_not_of(kWhiteSpace) == std::string_view::npos) return std::nullopt;
  dom::element root;
  const auto error = parsers.checking.parse(json.data(), json.size(), false).get(root);
  if (error == simdjson::UTF8_ERROR) {
    const std::size_t at = first_invalid_utf8(record.bytes).value_or(0);
    return RecordFault{name_of(record), place_in(record, at), "not UTF-8"};
  }
  std::string_view reason;
  if (error == simdjson::SUCCESS && !root.is_object()) reason = "not a JSON object";
  if (error == simdjson::SUCCESS && reason.empty() && string_at(root, "resourceType").empty()) {
    reason = "not a FHIR resource: it has no resourceType";
  }
  if (error != simdjson::SUCCESS || !reason.empty()) {
    return RecordFault{name_of(record), record.place,
                       reason.empty() ? std::string("not JSON: ").append(words_for(error)) : std::string(reason)};
  }
  if (string_at(root, "resourceType") == "Bundle") {
    list_entries(json, parsers.walking, resources);
  } else {
    resources.push_back({json, {}});
  }
  return std::nullopt;
}

}  // namespace jointledger
