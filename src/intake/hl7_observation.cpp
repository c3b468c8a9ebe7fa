#include "intake/hl7_observation.h"

#include <algorithm>

#include "intake/ascii.h"
#include "intake/attachment.h"
#include "intake/base64.h"
#include "intake/hl7_text.h"
#include "intake/markup_text.h"

namespace jointledger {
namespace {

constexpr std::size_t kValueType = 2;
constexpr std::size_t kName = 3;
constexpr std::size_t kValue = 5;
constexpr std::string_view kDeleted = "\"\"";  // a field that is to be emptied

/// One OBX with a value that may be text.
struct Observation {
  std::string_view type;
  std::string_view name;
  std::string_view value;
};

std::optional<Observation> observation_in(std::string_view segment, const Hl7Delimiters& delimiters) {
  if (hl7_name(segment) != "OBX") return std::nullopt;
  Observation seen{hl7_field(segment, kValueType, delimiters), hl7_field(segment, kName, delimiters),
                   hl7_field(segment, kValue, delimiters)};
  const bool is_text = seen.type == "TX" || seen.type == "FT" || seen.type == "ST" || seen.type == "ED";
  if (!is_text || seen.value.empty() || seen.value == kDeleted) return std::nullopt;
  return seen;
}

/// What ED-2 and ED-3 say (HL7 tables 0191 and 0291, and media types as most senders write them).
MediaKind media_kind(std::string_view type, std::string_view subtype) {
  const std::string main = lowered(type);
  const std::string sub = lowered(subtype);
  if (sub == "rtf" || main == "text/rtf" || main == "application/rtf") return MediaKind::rtf;
  if (main == "text/plain") return MediaKind::plain;
  if (main == "text/html" || main == "application/xhtml+xml" || sub == "html" || sub == "xhtml+xml") {
    return MediaKind::html;
  }
  const bool is_text = main == "text" || main == "tx" || main == "ft";
  return is_text && (sub.empty() || sub == "plain" || sub == "basic") ? MediaKind::plain : MediaKind::other;
}

/// Encapsulated data: source ^ type ^ subtype ^ encoding ^ data. What is neither text nor RTF adds nothing, and sets
/// `passed_over`.
std::optional<std::string> append_encapsulated(std::string_view value, const Hl7Delimiters& delimiters,
                                               std::string_view charset, std::string& text, bool& passed_over) {
  const auto component = [&](std::size_t number) { return hl7_piece(value, number, delimiters.component); };
  MediaType type{media_kind(component(2), component(3)), std::string(charset)};
  if (type.kind == MediaKind::other) {
    passed_over = true;
    return std::nullopt;
  }
  const std::string encoding = lowered(component(4));
  // As it is, the data may hold the component separator: only the last component is left.
  const std::string_view data = encoding == "a" || encoding.empty()
                                    ? value.substr(static_cast<std::size_t>(component(5).data() - value.data()))
                                    : component(5);
  std::string bytes;
  if (encoding == "base64") {
    if (!from_base64(data, bytes)) return "its encapsulated data is not base64";
  } else if (encoding == "hex") {
    if (!append_hex(data, bytes)) return "its encapsulated data is not hexadecimal";
  } else if (encoding == "a" || encoding.empty()) {
    if (auto reason = append_hl7_text(data, delimiters, charset, bytes)) return reason;
    type.charset = "utf-8";
  } else {
    return "the encoding of its encapsulated data (ED-4) is none of A, Hex and Base64";
  }
  std::string made;
  if (auto reason = attachment_text(bytes, type, made)) return reason;
  text.append(made);
  return std::nullopt;
}

}  // namespace

std::optional<std::string> observation_text(std::span<const std::string_view> segments, const Hl7Delimiters& delimiters,
                                            std::string_view charset, std::string& text) {
  text.clear();
  std::string_view name;
  bool several = false;
  bool passed_over = false;
  for (const std::string_view segment : segments) {
    const auto seen = observation_in(segment, delimiters);
    several = several || (seen && !name.empty() && seen->name != name);
    if (seen) name = seen->name;
  }
  name = {};
  for (const std::string_view segment : segments) {
    const auto seen = observation_in(segment, delimiters);
    if (!seen) continue;
    if (!text.empty() && !text.ends_with('\n')) text.push_back('\n');
    if (several && seen->name != name) {
      name = seen->name;
      std::string title;
      const std::string_view words = hl7_piece(hl7_piece(name, 1, delimiters.repetition), 2, delimiters.component);
      if (auto reason = append_hl7_text(words, delimiters, charset, title)) return reason;
      append_title(title, text);
    }
    std::string_view rest = seen->value;
    for (bool first = true; first || !rest.empty(); first = false) {
      if (!first) text.push_back('\n');
      const std::string_view value = hl7_piece(rest, 1, delimiters.repetition);
      rest.remove_prefix(std::min(value.size() + 1, rest.size()));
      auto reason = seen->type == "ED" ? append_encapsulated(value, delimiters, charset, text, passed_over)
                                       : append_hl7_text(value, delimiters, charset, text);
      if (reason) return reason;
    }
  }
  if (text.empty() && passed_over) return "its encapsulated data is neither text/plain nor text/html";
  return std::nullopt;
}

}  // namespace jointledger
