// Ledgers and audits for people: a grid of region by component with a mark for left and right, and under it the
// findings as written, or the gaps. Fits 80 columns and reads in black and white; colour only underlines.
//
// Control characters of the note are shown as spaces, so that a note cannot steer a terminal.
#pragma once

#include "report/report.h"

namespace jointledger {

void open_text(const ReportRun& run, std::string& out);
void add_text(const ReportRun& run, const ReportItem& item, std::string& out);
void close_text(const ReportRun& run, const ReportTally& tally, std::string& out);

inline constexpr ReportFormat kTextReport = {
    .name = "text", .open = open_text, .add = add_text, .between = "\n", .close = close_text};

}  // namespace jointledger
