#include "report/report.h"

#include <algorithm>
#include <array>

#include "report/csv_report.h"
#include "report/fhir_report.h"
#include "report/json_report.h"
#include "report/omop_report.h"
#include "report/text_report.h"

namespace jointledger {
namespace {

constexpr std::array<ReportFormat, 7> kFormats = {kTextReport, kJsonReport,       kNdjsonReport, kCsvReport,
                                                  kFhirReport, kFhirBundleReport, kOmopReport};

}  // namespace

std::span<const ReportFormat> report_formats() { return kFormats; }

const ReportFormat* report_format_named(std::string_view name) {
  const auto* const found = std::ranges::find(kFormats, name, &ReportFormat::name);
  return found == kFormats.end() ? nullptr : &*found;
}

}  // namespace jointledger
