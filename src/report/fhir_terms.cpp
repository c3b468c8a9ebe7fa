#include "report/fhir_terms.h"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>

namespace jointledger::fhir {
namespace {

using namespace json_values;

/// RFC 3986, section 2.3.
bool is_unreserved(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.' ||
         c == '_' || c == '~';
}

void append_encoded(std::string_view text, std::string& out) {
  for (const char c : text) {
    if (is_unreserved(c)) {
      out.push_back(c);
      continue;
    }
    constexpr std::string_view kHex = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(c);
    out.append({'%', kHex[byte >> 4U], kHex[byte & 0xFU]});
  }
}

std::string urn(std::string_view stem, std::string_view name) {
  std::string uri(stem);
  append_encoded(name, uri);
  return uri;
}

}  // namespace

std::string expectation_system(std::string_view profile) { return urn("urn:jointledger:expectation:", profile); }

std::string measure_uri(std::string_view profile) { return urn("urn:jointledger:measure:", profile); }

std::string expectation_uri(std::string_view profile, std::string_view expectation) {
  return urn(expectation_system(profile).append(":"), expectation);
}

void coding(Writer& w, std::string_view system, std::string_view code, std::string_view display) {
  w.StartObject();
  member(w, "system", system);
  member(w, "code", code);
  if (!display.empty()) member(w, "display", display);
  w.EndObject();
}

void concept_of(Writer& w, std::string_view system, std::string_view code, std::string_view display) {
  w.StartObject();
  key(w, "coding");
  w.StartArray();
  coding(w, system, code, display);
  w.EndArray();
  w.EndObject();
}

void extension(Writer& w, std::string_view url, std::string_view value, std::string_view text) {
  w.StartObject();
  member(w, "url", url);
  member(w, value, text);
  w.EndObject();
}

std::string uuid_of(std::string_view name) {
  boost::uuids::name_generator_sha1 generator(boost::uuids::ns::url());
  return boost::uuids::to_string(generator(name.data(), name.size()));
}

}  // namespace jointledger::fhir
