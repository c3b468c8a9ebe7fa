// GCC 12 warns of overlapping copies in the library's string code where there are none (GCC bug 105651).
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wrestrict"
#endif

#include "schema_check.h"

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

namespace jointledger::testing {

std::string schema_faults(const nlohmann::json& document, const nlohmann::json& schema) {
  valijson::Schema parsed;
  valijson::SchemaParser parser;
  parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(schema), parsed);
  valijson::ValidationResults results;
  valijson::Validator validator;
  if (validator.validate(parsed, valijson::adapters::NlohmannJsonAdapter(document), &results)) return {};
  std::string faults;
  for (valijson::ValidationResults::Error error; results.popError(error);) {
    for (const std::string& step : error.context) faults.append(step);
    faults.append(": ").append(error.description).append("\n");
  }
  return faults;
}

}  // namespace jointledger::testing
