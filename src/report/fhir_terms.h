// The code systems and extensions of the program's own in FHIR, and those of HL7 that it uses.
//
// Own ones are URNs: they name, and lead nowhere. What the codes stand for is told where they are defined.
#pragma once

#include <string>
#include <string_view>

#include "report/json_values.h"

namespace jointledger::fhir {

/// `documentation-gap`, `documentation-inconsistency`.
inline constexpr std::string_view kIssueSystem = "urn:jointledger:issue";
/// The names of Reason (audit.h).
inline constexpr std::string_view kReasonSystem = "urn:jointledger:reason";
/// The names of Check (checks.h).
inline constexpr std::string_view kCheckSystem = "urn:jointledger:check";
/// `notes`, `mean-score`.
inline constexpr std::string_view kMeasureGroupSystem = "urn:jointledger:measure-group";

/// On a DetectedIssue: kind, region, side, component, motion, structure, credit, prompt of a gap, those that are many
/// as often as need be; region, side, component and share of an inconsistency.
inline constexpr std::string_view kGapExtension = "urn:jointledger:gap";
inline constexpr std::string_view kInconsistencyExtension = "urn:jointledger:inconsistency";
/// On a reference to a note: start and end of one piece of evidence.
inline constexpr std::string_view kEvidenceExtension = "urn:jointledger:evidence";
/// On a reference to a note: a JSON object, as a string.
inline constexpr std::string_view kMetadataExtension = "urn:jointledger:note-metadata";

// Of HL7 terminology, as FHIR R4 binds them.
inline constexpr std::string_view kPopulationSystem = "http://terminology.hl7.org/CodeSystem/measure-population";
inline constexpr std::string_view kImprovementSystem =
    "http://terminology.hl7.org/CodeSystem/measure-improvement-notation";
inline constexpr std::string_view kDataAbsentReason = "http://hl7.org/fhir/StructureDefinition/data-absent-reason";

using Writer = json_values::CompactWriter;

/// "urn:jointledger:expectation:complaint", the code system of a profile's expectations, and
/// "urn:jointledger:measure:complaint", the measure that it is. What a URN may not hold of the name is in %XX.
std::string expectation_system(std::string_view profile);
std::string measure_uri(std::string_view profile);
/// One expectation as a URN.
std::string expectation_uri(std::string_view profile, std::string_view expectation);

/// One Coding; without a display if that is empty.
void coding(Writer& w, std::string_view system, std::string_view code, std::string_view display);
/// A CodeableConcept of one Coding.
void concept_of(Writer& w, std::string_view system, std::string_view code, std::string_view display);
/// An Extension with a string-like value; `value` is the name of the value member, such as "valueCode".
void extension(Writer& w, std::string_view url, std::string_view value, std::string_view text);

/// A UUID of version 5 for a name, the same ever after.
std::string uuid_of(std::string_view name);

}  // namespace jointledger::fhir
