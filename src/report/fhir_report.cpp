#include "report/fhir_report.h"

#include "report/fhir_issue.h"
#include "report/fhir_measure.h"

namespace jointledger {
namespace {

template <class Write>
void resource(std::string& out, Write write) {
  json_values::StringSink sink{out};
  fhir::Writer writer(sink);
  write(writer);
}

template <class Write>
void bundle_entry(std::string_view id, std::string& out, Write write) {
  out.append(R"({"fullUrl":"urn:uuid:)").append(id).append(R"(","resource":)");
  resource(out, write);
  out.append("}");
}

}  // namespace

void open_fhir(const ReportRun&, std::string&) {}

void add_fhir(const ReportRun& run, const ReportItem& item, std::string& out) {
  const auto add = [&](const auto& found) {
    resource(out, [&](fhir::Writer& w) { fhir::issue(w, run, item.note, found); });
    out.append("\n");
  };
  for (const Gap& gap : item.audit->gaps) add(gap);
  for (const Inconsistency& inconsistency : item.audit->inconsistencies) add(inconsistency);
}

void close_fhir(const ReportRun& run, const ReportTally& tally, std::string& out) {
  resource(out, [&](fhir::Writer& w) { fhir::measure_report(w, run, tally); });
  out.append("\n");
}

void open_fhir_bundle(const ReportRun&, std::string& out) {
  out.append(R"({"resourceType":"Bundle","type":"collection","entry":[)").append("\n");
}

void add_fhir_bundle(const ReportRun& run, const ReportItem& item, std::string& out) {
  const auto add = [&](const auto& found) {
    bundle_entry(fhir::id_of(item.note, *run.profile, found), out,
                 [&](fhir::Writer& w) { fhir::issue(w, run, item.note, found); });
    out.append(",\n");  // the MeasureReport is always behind it
  };
  for (const Gap& gap : item.audit->gaps) add(gap);
  for (const Inconsistency& inconsistency : item.audit->inconsistencies) add(inconsistency);
}

void close_fhir_bundle(const ReportRun& run, const ReportTally& tally, std::string& out) {
  bundle_entry(fhir::id_of(run, tally), out, [&](fhir::Writer& w) { fhir::measure_report(w, run, tally); });
  out.append("\n]}\n");
}

}  // namespace jointledger
