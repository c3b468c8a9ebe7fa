#include "report/fhir_issue.h"

#include <initializer_list>

#include "report/fhir_note.h"
#include "report/version.h"

namespace jointledger::fhir {
namespace {

using namespace json_values;

constexpr std::string_view kBetweenNames = "\x1f";

std::string id_of_names(std::string_view kind, std::initializer_list<std::string_view> names) {
  std::string name = "urn:jointledger:";
  name.append(kind);
  for (const std::string_view part : names) name.append(kBetweenNames).append(part);
  return uuid_of(name);
}

std::string places(const std::vector<Span>& spans) {
  std::string text;
  for (const Span& s : spans)
    text.append(std::to_string(s.start)).append("-").append(std::to_string(s.end)).append(" ");
  return text;
}

/// What all issues begin with.
void head(Writer& w, std::string_view id) {
  member(w, "resourceType", "DetectedIssue");
  member(w, "id", id);
}

void code_member(Writer& w, std::string_view system, std::string_view code, std::string_view display,
                 std::string_view issue_code, std::string_view issue_display) {
  key(w, "code");
  w.StartObject();
  key(w, "coding");
  w.StartArray();
  coding(w, kIssueSystem, issue_code, issue_display);
  coding(w, system, code, display);
  w.EndArray();
  member(w, "text", std::string(issue_display).append(": ").append(display));
  w.EndObject();
}

/// Who, when, and of which patient and note.
void circumstances(Writer& w, const ReportRun& run, const Note& note, std::string_view other_note) {
  patient_member(w, note);
  if (!run.date.empty()) member(w, "identifiedDateTime", run.date);
  key(w, "author");
  w.StartObject();
  member(w, "type", "Device");
  member(w, "display", kSystem);
  w.EndObject();
  key(w, "implicated");
  w.StartArray();
  source_reference(w, note);
  if (!other_note.empty()) other_note_reference(w, other_note);
  w.EndArray();
}

/// One element of DetectedIssue.evidence.
void evidence(Writer& w, const Note& note, std::string_view system, std::string_view code, std::string_view display,
              const std::vector<Span>& spans) {
  w.StartObject();
  key(w, "code");
  w.StartArray();
  concept_of(w, system, code, display);
  w.EndArray();
  if (!spans.empty()) {
    key(w, "detail");
    w.StartArray();
    evidence_reference(w, note, spans);
    w.EndArray();
  }
  w.EndObject();
}

void gap_extension(Writer& w, const Gap& gap) {
  key(w, "extension");
  w.StartArray();
  w.StartObject();
  member(w, "url", kGapExtension);
  key(w, "extension");
  w.StartArray();
  extension(w, "kind", "valueCode", name(gap.expectation->kind));
  extension(w, "region", "valueCode", name(gap.region));
  extension(w, "side", "valueCode", name(gap.side));
  for (const Component c : gap.components) extension(w, "component", "valueCode", name(c));
  each_motion(gap.motions, [&](Motion motion) { extension(w, "motion", "valueCode", name(motion)); });
  for (const std::string_view s : gap.structures) extension(w, "structure", "valueString", s);
  w.StartObject();
  member(w, "url", "credit");
  key(w, "valueDecimal");
  share(w, gap.credit, kCreditDecimals);
  w.EndObject();
  extension(w, "prompt", "valueString", gap.prompt);
  w.EndArray();
  w.EndObject();
  w.EndArray();
}

void inconsistency_extension(Writer& w, const Inconsistency& i) {
  key(w, "extension");
  w.StartArray();
  w.StartObject();
  member(w, "url", kInconsistencyExtension);
  key(w, "extension");
  w.StartArray();
  extension(w, "region", "valueCode", name(i.region));
  extension(w, "side", "valueCode", name(i.side));
  if (i.component) extension(w, "component", "valueCode", name(*i.component));
  if (i.check == Check::copied_exam) {
    w.StartObject();
    member(w, "url", "share");
    key(w, "valueDecimal");
    share(w, i.share, 2);
    w.EndObject();
  }
  w.EndArray();
  w.EndObject();
  w.EndArray();
}

}  // namespace

std::string id_of(const Note& note, const Profile& profile, const Gap& gap) {
  return id_of_names("gap", {note.id, profile.name, gap.expectation->id, name(gap.region), name(gap.side)});
}

std::string id_of(const Note& note, const Profile& profile, const Inconsistency& i) {
  return id_of_names("inconsistency",
                     {note.id, profile.name, name(i.check), name(i.region), name(i.side),
                      i.component ? name(*i.component) : "", places(i.first), places(i.second), i.other_note});
}

void issue(Writer& w, const ReportRun& run, const Note& note, const Gap& gap) {
  const Expectation& expectation = *gap.expectation;
  w.StartObject();
  head(w, id_of(note, *run.profile, gap));
  gap_extension(w, gap);
  member(w, "status", "preliminary");
  code_member(w, expectation_system(run.profile->name), expectation.id, expectation.asks, "documentation-gap",
              "Documentation gap");
  circumstances(w, run, note, {});
  key(w, "evidence");
  w.StartArray();
  evidence(w, note, kReasonSystem, name(gap.reason), phrase(gap.reason), gap.nearest);
  w.EndArray();
  std::string detail = expectation.asks;
  detail.append(": ").append(phrase(gap.reason)).append(". What would close it: ").append(gap.prompt);
  member(w, "detail", detail);
  member(w, "reference", expectation_uri(run.profile->name, expectation.id));
  w.EndObject();
}

void issue(Writer& w, const ReportRun& run, const Note& note, const Inconsistency& i) {
  w.StartObject();
  head(w, id_of(note, *run.profile, i));
  inconsistency_extension(w, i);
  member(w, "status", "preliminary");
  code_member(w, kCheckSystem, name(i.check), phrase(i.check), "documentation-inconsistency",
              "Documentation inconsistency");
  circumstances(w, run, note, i.other_note);
  key(w, "evidence");
  w.StartArray();
  evidence(w, note, kCheckSystem, name(i.check), {}, i.first);
  if (!i.second.empty()) evidence(w, note, kCheckSystem, name(i.check), {}, i.second);
  w.EndArray();
  member(w, "detail", i.message);
  w.EndObject();
}

}  // namespace jointledger::fhir
