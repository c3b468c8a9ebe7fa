// A run as a MeasureReport; fhir_report.h says what is in it.
#pragma once

#include <string>

#include "report/fhir_terms.h"
#include "report/report.h"

namespace jointledger::fhir {

/// The id is made of all that the report says.
std::string id_of(const ReportRun& run, const ReportTally& tally);

/// The whole resource.
void measure_report(Writer& w, const ReportRun& run, const ReportTally& tally);

}  // namespace jointledger::fhir
