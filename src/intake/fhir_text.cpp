#include "intake/fhir_text.h"

#include <utility>
#include <vector>

#include "intake/attachment.h"
#include "intake/fhir_bundle.h"
#include "intake/markup_text.h"

namespace jointledger {
namespace {

namespace dom = simdjson::dom;

/// The attachments are forms of one document (R4: "each with a different format"): the best is read.
std::optional<std::string> read_attachments(const std::vector<dom::element>& attachments, std::string& text) {
  const dom::element* best = nullptr;
  MediaType best_type;
  for (const dom::element& attachment : attachments) {
    if (string_at(attachment, "data").empty()) continue;
    MediaType type = media_type_of(string_at(attachment, "contentType"));
    if (best != nullptr && type.kind >= best_type.kind) continue;
    best = &attachment;
    best_type = std::move(type);
  }
  if (best == nullptr) return "its attachment has no data, or only a link to it, which is not followed";
  return base64_attachment_text(string_at(*best, "data"), best_type, text);
}

std::vector<dom::element> document_attachments(dom::element document) {
  dom::array contents;
  std::vector<dom::element> attachments;
  if (document["content"].get(contents) != simdjson::SUCCESS) return attachments;
  for (const dom::element content : contents) {
    dom::element attachment;
    if (content["attachment"].get(attachment) == simdjson::SUCCESS) attachments.push_back(attachment);
  }
  return attachments;
}

/// Recursion ends with the document's depth, which is bounded.
std::optional<std::string> read_sections(dom::element parent, std::string& text) {
  dom::array sections;
  if (parent["section"].get(sections) != simdjson::SUCCESS) return std::nullopt;
  for (const dom::element section : sections) {
    append_title(string_at(section, "title"), text);
    dom::element narrative;
    if (section["text"].get(narrative) == simdjson::SUCCESS) {
      if (auto reason = append_html_text(string_at(narrative, "div"), text)) return reason;
    }
    if (auto reason = read_sections(section, text)) return reason;
    if (!text.empty() && !text.ends_with("\n\n")) text.push_back('\n');
  }
  return std::nullopt;
}

}  // namespace

FhirText fhir_text(dom::element resource, std::string_view type, std::string& text) {
  text.clear();
  if (type == "DocumentReference") {
    const std::vector<dom::element> attachments = document_attachments(resource);
    if (attachments.empty()) return {true, "it has no attachment"};
    return {true, read_attachments(attachments, text)};
  }
  if (type == "DiagnosticReport") {
    dom::array forms;
    if (resource["presentedForm"].get(forms) != simdjson::SUCCESS || forms.size() == 0) return {};
    return {true, read_attachments({forms.begin(), forms.end()}, text)};
  }
  if (type == "Composition") return {true, read_sections(resource, text)};
  return {};
}

bool holds_text(std::string_view type, std::string_view key) {
  if (type == "DocumentReference") return key == "content";
  if (type == "DiagnosticReport") return key == "presentedForm";
  return type == "Composition" && key == "section";
}

}  // namespace jointledger
