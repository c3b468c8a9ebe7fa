#include "report/fhir_note.h"

#include <rapidjson/document.h>

#include <algorithm>

#include "report/note_facts.h"

namespace jointledger::fhir {
namespace {

using namespace json_values;

constexpr std::string_view kDocument = "DocumentReference";

void reference_by_identifier(Writer& w, std::string_view type, std::string_view id) {
  member(w, "type", type);
  key(w, "identifier");
  w.StartObject();
  member(w, "value", id);
  w.EndObject();
}

/// Where the note is a resource of FHIR, its type; else empty.
std::string resource_type_of(const Note& note) { return text_member_of(note, "resourceType"); }

void reference_members(Writer& w, const Note& note, std::string_view resource_type) {
  if (resource_type.empty()) return reference_by_identifier(w, kDocument, note.id);
  std::string reference;
  // The id of a resource is letters, digits, - and . only; with a colon it is the URL of its entry in a Bundle.
  if (note.id.find(':') == std::string_view::npos) reference.append(resource_type).append("/");
  member(w, "reference", reference.append(note.id));
  member(w, "type", resource_type);
}

void evidence_extension(Writer& w, const Span& span) {
  const auto place = [&](std::string_view url, std::uint32_t at) {
    w.StartObject();
    member(w, "url", url);
    key(w, "valueUnsignedInt");
    w.Uint(at);
    w.EndObject();
  };
  w.StartObject();
  member(w, "url", kEvidenceExtension);
  key(w, "extension");
  w.StartArray();
  place("start", span.start);
  place("end", span.end);
  w.EndArray();
  w.EndObject();
}

/// Whether the Reference can be one to a Patient: other types say so, in `type` or in the reference itself.
bool may_be_patient(std::string_view json) {
  rapidjson::Document subject;
  subject.Parse(json.data(), json.size());
  if (subject.HasParseError() || !subject.IsObject()) return false;
  const auto text = [&](const char* name) -> std::string_view {
    const auto at = subject.FindMember(name);
    if (at == subject.MemberEnd() || !at->value.IsString()) return {};
    return {at->value.GetString(), at->value.GetStringLength()};
  };
  if (const std::string_view type = text("type"); !type.empty()) return type == "Patient";
  const std::string_view reference = text("reference");
  return reference.starts_with("Patient/") || reference.find("/Patient/") != std::string_view::npos ||
         reference.starts_with("urn:");
}

}  // namespace

void source_reference(Writer& w, const Note& note) {
  const std::string type = resource_type_of(note);
  w.StartObject();
  if (type.empty() && !note.metadata.empty()) {
    std::string members;
    StringSink sink{members};
    Writer inner(sink);
    inner.StartObject();
    metadata_members(inner, note, [](std::string_view) { return false; });
    inner.EndObject();
    key(w, "extension");
    w.StartArray();
    extension(w, kMetadataExtension, "valueString", members);
    w.EndArray();
  }
  reference_members(w, note, type);
  w.EndObject();
}

void evidence_reference(Writer& w, const Note& note, std::span<const Span> evidence) {
  w.StartObject();
  key(w, "extension");
  array(w, evidence, evidence_extension);
  reference_members(w, note, resource_type_of(note));
  w.EndObject();
}

void other_note_reference(Writer& w, std::string_view id) {
  w.StartObject();
  reference_by_identifier(w, kDocument, id);
  w.EndObject();
}

void patient_member(Writer& w, const Note& note) {
  if (!resource_type_of(note).empty()) {
    const auto subject = std::ranges::find(note.metadata, "subject", &Member::key);
    if (subject == note.metadata.end() || !may_be_patient(subject->json)) return;
    key(w, "patient");
    return raw(w, subject->json, rapidjson::kObjectType);
  }
  const std::string patient = text_member_of(note, "patient");
  if (patient.empty()) return;
  key(w, "patient");
  w.StartObject();
  reference_by_identifier(w, "Patient", patient);
  w.EndObject();
}

}  // namespace jointledger::fhir
