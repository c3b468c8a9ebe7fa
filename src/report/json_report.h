// Ledgers and audits as JSON: NDJSON, one object a line, and JSON, the same objects as an indented array.
//
// fixtures/schema/ledger.schema.json and audit.schema.json describe the objects. The members that the source knew of
// a note stand behind its id as they came in, but for those whose key this report uses itself.
#pragma once

#include "report/report.h"

namespace jointledger {

void open_json(const ReportRun& run, std::string& out);
void add_json(const ReportRun& run, const ReportItem& item, std::string& out);
void close_json(const ReportRun& run, std::size_t notes, std::string& out);

void open_ndjson(const ReportRun& run, std::string& out);
void add_ndjson(const ReportRun& run, const ReportItem& item, std::string& out);
void close_ndjson(const ReportRun& run, std::size_t notes, std::string& out);

inline constexpr ReportFormat kJsonReport = {"json", open_json, add_json, ",\n", close_json};
inline constexpr ReportFormat kNdjsonReport = {"ndjson", open_ndjson, add_ndjson, "", close_ndjson};

}  // namespace jointledger
