#include "report/csv_report.h"

#include "report/csv_row.h"
#include "report/json_values.h"

namespace jointledger {
namespace {

using namespace json_values;

/// What the rows of a note have in common.
struct NoteCells {
  std::string id;
  std::string metadata;
};

template <class Write>
std::string json_of(Write write) {
  std::string json;
  StringSink sink{json};
  CompactWriter writer(sink);
  write(writer);
  return json;
}

template <class List, class Write>
void list_cell(CsvRow& row, const List& list, Write write) {
  if (list.empty()) return row.nothing();
  row.text(json_of([&](CompactWriter& w) { write(w, list); }));
}

void motions_cell(CsvRow& row, MotionSet set) { list_cell(row, set, motions<CompactWriter>); }

void share_cell(CsvRow& row, double value, int decimals) {
  row.name(json_of([&](CompactWriter& w) { share(w, value, decimals); }));
}

template <class Spans>
void words_cell(CsvRow& row, std::string_view text, const Spans& evidence) {
  list_cell(row, evidence, [&](CompactWriter& w, const Spans& spans) {
    array(w, spans, [&](CompactWriter& to, const Span& s) { string(to, text.substr(s.start, s.end - s.start)); });
  });
}

bool begins_a_formula(std::string_view id) {
  return id.size() > 1 && std::string_view("=+-@\t\r\n").find(id.front()) != std::string_view::npos;
}

std::string id_cell(const Note& note) {
  std::string id(note.id);
  if (note.id_is_number) return id;
  const std::size_t behind = std::min(id.find_first_not_of('\''), id.size());
  if (begins_a_formula(note.id.substr(behind))) id.insert(id.begin(), '\'');
  return id;
}

NoteCells cells_of(const Note& note) {
  return {id_cell(note), json_of([&](CompactWriter& w) {
            w.StartObject();
            metadata_members(w, note, [](std::string_view) { return false; });
            w.EndObject();
          })};
}

void entry_row(const ReportItem& item, const NoteCells& note, const Entry& e, std::string& out) {
  CsvRow row(out);
  row.text(note.id);
  row.name(name(e.region));
  row.name(name(e.component));
  row.name(name(e.side));
  row.name(name(e.outcome));
  motions_cell(row, e.motions);
  list_cell(row, e.degrees, [](CompactWriter& w, const auto& list) { array(w, list, degrees<CompactWriter>); });
  list_cell(row, e.grades, [](CompactWriter& w, const auto& list) { array(w, list, grade<CompactWriter>); });
  list_cell(row, e.structures, [](CompactWriter& w, const auto& list) { strings(w, list); });
  list_cell(row, e.tests, [](CompactWriter& w, const auto& list) { strings(w, list); });
  share_cell(row, static_cast<double>(e.certainty), kCertaintyDecimals);
  list_cell(row, e.evidence, [](CompactWriter& w, const auto& list) { spans(w, list); });
  words_cell(row, item.note.text, e.evidence);
  row.text(note.metadata);
  row.end();
}

void gap_row(const ReportItem& item, const NoteCells& note, const Gap& g, std::string& out) {
  CsvRow row(out);
  row.text(note.id);
  row.text(item.audit->profile->name);
  share_cell(row, item.audit->score, kCreditDecimals);
  row.text(g.expectation->id);
  row.name(name(g.expectation->kind));
  row.name(name(g.region));
  row.name(name(g.side));
  list_cell(row, g.components, [](CompactWriter& w, const auto& list) { names(w, list); });
  motions_cell(row, g.motions);
  list_cell(row, g.structures, [](CompactWriter& w, const auto& list) { strings(w, list); });
  row.name(name(g.reason));
  list_cell(row, g.nearest, [](CompactWriter& w, const auto& list) { spans(w, list); });
  words_cell(row, item.note.text, g.nearest);
  share_cell(row, g.credit, kCreditDecimals);
  row.text(g.prompt);
  row.text(note.metadata);
  row.end();
}

template <class Columns>
void header(const Columns& columns, std::string& out) {
  CsvRow row(out);
  for (const std::string_view column : columns) row.name(column);
  row.end();
}

}  // namespace

void open_csv(const ReportRun& run, std::string& out) {
  if (run.profile == nullptr) {
    header(kEntryColumns, out);
  } else {
    header(kGapColumns, out);
  }
}

void add_csv(const ReportRun&, const ReportItem& item, std::string& out) {
  const NoteCells note = cells_of(item.note);
  if (item.audit == nullptr) {
    for (const Entry& e : item.ledger.entries) entry_row(item, note, e, out);
  } else {
    for (const Gap& g : item.audit->gaps) gap_row(item, note, g, out);
  }
}

void close_csv(const ReportRun&, const ReportTally&, std::string&) {}

}  // namespace jointledger
