#include "report/report.h"

#include <algorithm>
#include <array>

#include "report/json_report.h"
#include "report/text_report.h"

namespace jointledger {
namespace {

constexpr std::array<ReportFormat, 3> kFormats = {kTextReport, kJsonReport, kNdjsonReport};

}  // namespace

std::span<const ReportFormat> report_formats() { return kFormats; }

const ReportFormat* report_format_named(std::string_view name) {
  const auto* const found = std::ranges::find(kFormats, name, &ReportFormat::name);
  return found == kFormats.end() ? nullptr : &*found;
}

}  // namespace jointledger
