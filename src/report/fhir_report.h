// Audits as FHIR R4 (4.0.1): a DetectedIssue for each gap and each inconsistency, and one MeasureReport at the end.
//
// `fhir` is NDJSON, a resource a line; `fhir-bundle` is the same resources as one Bundle of type collection.
//
// Why DetectedIssue: it is the resource for "something is amiss in the record that a person should look at". It names
// the document (implicated), holds the evidence and the words for it, and whoever closes the gap can say so in it
// (mitigation). Of the others, an Observation or a Condition would put what the note lacks into the chart as a finding
// of the patient; a Task would give somebody work, which local policy decides; an OperationOutcome belongs to one
// request and is not kept; a GuidanceResponse answers a request, and its dataRequirement cannot name a side. HL7's own
// guide on gaps in care (DEQM) uses DetectedIssue for gaps, too (from memory). No severity is given, since that stands
// for the harm to the patient; `required` and `advised` are the extension's.
//
// Why one MeasureReport of type summary: it is the resource for how often a measure was met over a period. Its groups
// are the notes (numerator: those that lack nothing required, of those to which anything applied), the mean score, and
// each expectation of the profile. Without a date in the notes its period is said to be unknown.
//
// The source document is `implicated`. Where the note came as FHIR that is a reference to its resource, and `patient`
// is its subject. Else both are references by identifier, with the note's id and its member "patient"; the members that
// the source knew of the note stand beside its id as they came in, in an extension.
//
// Codes are the program's own, of systems that begin with urn:jointledger: (fhir_terms.h lists them), since none is
// published for what a note lacks; there is no diagnosis among them. The status is preliminary: nobody has looked yet.
//
// Ids are UUIDs made of what they stand for (RFC 4122, version 5): auditing the same note again gives the same ids, so
// that to PUT them twice does no harm. The clock is not asked; dates are that of the run, where one is given, and those
// of the notes. Evidence counts bytes of the UTF-8 text of the note.
#pragma once

#include "report/report.h"

namespace jointledger {

void open_fhir(const ReportRun& run, std::string& out);
void add_fhir(const ReportRun& run, const ReportItem& item, std::string& out);
void close_fhir(const ReportRun& run, const ReportTally& tally, std::string& out);

void open_fhir_bundle(const ReportRun& run, std::string& out);
void add_fhir_bundle(const ReportRun& run, const ReportItem& item, std::string& out);
void close_fhir_bundle(const ReportRun& run, const ReportTally& tally, std::string& out);

inline constexpr ReportFormat kFhirReport = {
    .name = "fhir", .open = open_fhir, .add = add_fhir, .between = "", .close = close_fhir, .audits_only = true};
inline constexpr ReportFormat kFhirBundleReport = {.name = "fhir-bundle",
                                                   .open = open_fhir_bundle,
                                                   .add = add_fhir_bundle,
                                                   .between = "",
                                                   .close = close_fhir_bundle,
                                                   .audits_only = true};

}  // namespace jointledger
