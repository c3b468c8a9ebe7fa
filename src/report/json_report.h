// Ledgers and audits as JSON: NDJSON, one object a line, and JSON, the same objects as an indented array.
//
// fixtures/schema/ledger.schema.json and audit.schema.json describe the objects. The members that the source knew of
// a note stand behind its id as they came in, but for those whose key this report uses itself.
#pragma once

#include "report/report.h"

namespace jointledger {

void open_json(const ReportRun& run, std::string& out);
void add_json(const ReportRun& run, const ReportItem& item, std::string& out);
void close_json(const ReportRun& run, const ReportTally& tally, std::string& out);

void open_ndjson(const ReportRun& run, std::string& out);
void add_ndjson(const ReportRun& run, const ReportItem& item, std::string& out);
void close_ndjson(const ReportRun& run, const ReportTally& tally, std::string& out);

inline constexpr ReportFormat kJsonReport = {
    .name = "json", .open = open_json, .add = add_json, .between = ",\n", .close = close_json};
inline constexpr ReportFormat kNdjsonReport = {
    .name = "ndjson", .open = open_ndjson, .add = add_ndjson, .between = "", .close = close_ndjson};

}  // namespace jointledger
