// The text of a FHIR resource that is a document.
#pragma once

#include <simdjson.h>

#include <optional>
#include <string>
#include <string_view>

namespace jointledger {

/// What could be made of a resource.
struct FhirText {
  bool is_note = false;               ///< false for resources of other types, and for reports without a presented form
  std::optional<std::string> reason;  ///< why its text cannot be read
};

/// Replaces `text` with that of the resource, in UTF-8. Thread-safe.
FhirText fhir_text(simdjson::dom::element resource, std::string_view type, std::string& text);

/// Whether the text is taken from that member.
bool holds_text(std::string_view type, std::string_view key);

}  // namespace jointledger
