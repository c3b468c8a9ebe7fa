// A whole output, as the program writes it.
#pragma once

#include <string>

#include "example.h"
#include "report/report.h"

namespace jointledger::testing {

inline std::string written(const ReportFormat& format, const Example& example, bool audited, int times = 1,
                           std::string_view date = "2031-06-01") {
  const ReportRun run{.profile = audited ? &example.profile : nullptr, .colour = false, .date = date};
  ReportTally tally;
  std::string out;
  format.open(run, out);
  for (int i = 0; i < times; ++i) {
    if (i > 0) out.append(format.between);
    const ReportItem item{example.note, example.ledger, audited ? &example.result : nullptr};
    format.add(run, item, out);
    count(item, tally);
  }
  format.close(run, tally, out);
  return out;
}

}  // namespace jointledger::testing
