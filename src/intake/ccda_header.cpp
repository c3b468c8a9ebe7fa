#include "intake/ccda_header.h"

#include <unordered_map>

#include "intake/ascii.h"
#include "intake/hl7_date.h"
#include "intake/xml_document.h"

namespace jointledger {
namespace {

std::string_view view_of(const xmlChar* text) {
  return text == nullptr ? std::string_view() : std::string_view(reinterpret_cast<const char*>(text));
}

/// Adds what is in an element; the library bounds the depth of the recursion.
void add_element(const xmlNode& element, const std::string& way, Metadata& metadata) {
  for (const xmlAttr* at = element.properties; at != nullptr; at = at->next) {
    const std::string name(view_of(at->name));
    const std::string prefix = at->ns == nullptr ? "" : std::string(view_of(at->ns->prefix)).append(":");
    if (!way.empty()) metadata.add_string(way + "/@" + prefix + name, value_of(*at));
  }
  std::string text;
  std::unordered_map<std::string_view, std::size_t> seen;
  for (const xmlNode* node = element.children; node != nullptr; node = node->next) {
    if (node->type == XML_TEXT_NODE || node->type == XML_CDATA_SECTION_NODE) text.append(view_of(node->content));
    if (node->type != XML_ELEMENT_NODE) continue;
    const std::string_view name = local_name(*node);
    const std::size_t number = ++seen[name];
    std::string further = way.empty() ? std::string(name) : std::string(way).append("/").append(name);
    if (number > 1) further.append("[").append(std::to_string(number)).append("]");
    if (!way.empty() || name != "component") add_element(*node, further, metadata);
  }
  const std::string_view words = trimmed(text);
  if (!words.empty() && !way.empty()) metadata.add_string(way, words);
}

/// The extension of an <id>, or its root where that is all there is.
std::string short_id(const xmlNode* id) {
  std::string extension = attribute(id, "extension");
  return extension.empty() ? attribute(id, "root") : extension;
}

}  // namespace

std::string ccda_id(const xmlNode* document) {
  const xmlNode* const id = child(document, "id");
  const std::string extension = attribute(id, "extension");
  return attribute(id, "root") + (extension.empty() ? "" : "^" + extension);
}

void add_ccda_header(const xmlNode* document, Metadata& metadata) {
  add_element(*document, {}, metadata);
  metadata.add_shared(kAuthorKey, short_id(descend(document, {"author", "assignedAuthor", "id"})));
  metadata.add_shared(kPatientKey, short_id(descend(document, {"recordTarget", "patientRole", "id"})));
  metadata.add_shared(kDateKey, iso_date(attribute(child(document, "effectiveTime"), "value")));
}

}  // namespace jointledger
