// The resources in a record of FHIR JSON: the entries of a Bundle, or the one resource that it is.
#pragma once

#include <simdjson.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/record.h"

namespace jointledger {

/// Views of the record.
struct FhirResource {
  std::string_view json;      ///< a valid JSON object, which at least kRecordPadding readable bytes follow
  std::string_view full_url;  ///< that its Bundle gives it, without escapes; empty for none
};

/// A value as it came in, of a document that is known to be valid; without the white space after it. Empty where the
/// document is not as it should be.
std::string_view raw_json(simdjson::ondemand::value value);

/// The string under that key; empty where there is none. It lives as long as what its parser holds.
std::string_view string_at(simdjson::dom::element element, std::string_view key);

/// Working memory for one thread.
struct FhirParsers {
  FhirParsers();
  simdjson::dom::parser checking;  ///< whole documents, and what is looked up in them
  simdjson::ondemand::parser walking;
};

/// Replaces `resources` with those of the record. Nothing if it went well, else why it is no FHIR JSON.
std::optional<RecordFault> list_resources(const Record& record, FhirParsers& parsers,
                                          std::vector<FhirResource>& resources);

}  // namespace jointledger
