// A gap and an inconsistency as a DetectedIssue; fhir_report.h says why.
#pragma once

#include <string>

#include "report/fhir_terms.h"
#include "report/report.h"

namespace jointledger::fhir {

/// The ids of the resources that stand for them.
std::string id_of(const Note& note, const Profile& profile, const Gap& gap);
std::string id_of(const Note& note, const Profile& profile, const Inconsistency& inconsistency);

/// The whole resource.
void issue(Writer& w, const ReportRun& run, const Note& note, const Gap& gap);
void issue(Writer& w, const ReportRun& run, const Note& note, const Inconsistency& inconsistency);

}  // namespace jointledger::fhir
