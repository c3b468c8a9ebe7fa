#include "report/json_report.h"

#include <rapidjson/prettywriter.h>
#include <rapidjson/writer.h>

#include <algorithm>
#include <array>
#include <utility>

#include "report/json_values.h"
#include "report/notice.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;
using namespace json_values;

/// Its keys as well as some of a note's own could stand in an object; then these stay.
constexpr std::array kOwnKeys = {"id"sv,  "entries"sv, "complaints"sv, "profile"sv, "score"sv,           "applicable"sv,
                                 "met"sv, "gaps"sv,    "credits"sv,    "notice"sv,  "inconsistencies"sv, "doubtful"sv};

template <class Writer>
void entry(Writer& w, const Entry& e) {
  w.StartObject();
  member(w, "region", name(e.region));
  member(w, "component", name(e.component));
  member(w, "side", name(e.side));
  member(w, "outcome", name(e.outcome));
  if (!e.motions.empty()) {
    key(w, "motions");
    motions(w, e.motions);
  }
  if (!e.degrees.empty()) {
    key(w, "degrees");
    array(w, e.degrees, degrees<Writer>);
  }
  if (!e.grades.empty()) {
    key(w, "grade");
    array(w, e.grades, grade<Writer>);
  }
  if (!e.structures.empty()) {
    key(w, "structures");
    strings(w, e.structures);
  }
  if (!e.tests.empty()) {
    key(w, "tests");
    strings(w, e.tests);
  }
  key(w, "certainty");
  share(w, static_cast<double>(e.certainty), kCertaintyDecimals);
  key(w, "evidence");
  spans(w, e.evidence);
  w.EndObject();
}

template <class Writer>
void complaint(Writer& w, const Complaint& c) {
  w.StartObject();
  member(w, "region", name(c.region));
  member(w, "side", name(c.side));
  key(w, "injury");
  w.Bool(c.injury);
  key(w, "evidence");
  span(w, c.evidence);
  w.EndObject();
}

template <class Writer>
void gap(Writer& w, const Gap& g) {
  w.StartObject();
  member(w, "expectation", g.expectation->id);
  member(w, "kind", name(g.expectation->kind));
  member(w, "region", name(g.region));
  member(w, "side", name(g.side));
  key(w, "components");
  names(w, g.components);
  if (!g.motions.empty()) {
    key(w, "motions");
    motions(w, g.motions);
  }
  if (!g.structures.empty()) {
    key(w, "structures");
    strings(w, g.structures);
  }
  member(w, "reason", name(g.reason));
  key(w, "nearest");
  spans(w, g.nearest);
  key(w, "credit");
  share(w, g.credit, kCreditDecimals);
  member(w, "prompt", g.prompt);
  w.EndObject();
}

template <class Writer>
void credit(Writer& w, const Credit& c, const Ledger& ledger) {
  w.StartObject();
  member(w, "expectation", c.expectation->id);
  member(w, "region", name(c.region));
  member(w, "side", name(c.side));
  boost::container::small_vector<Span, 16> evidence;
  for (const std::uint32_t i : c.entries) {
    evidence.insert(evidence.end(), ledger.entries[i].evidence.begin(), ledger.entries[i].evidence.end());
  }
  std::ranges::sort(evidence, {}, [](const Span& s) { return std::pair(s.start, s.end); });
  // Entries share words: one label, several findings.
  evidence.erase(std::unique(evidence.begin(), evidence.end()), evidence.end());
  key(w, "evidence");
  spans(w, evidence);
  w.EndObject();
}

template <class Writer>
void inconsistency(Writer& w, const Inconsistency& i) {
  w.StartObject();
  member(w, "check", name(i.check));
  member(w, "region", name(i.region));
  member(w, "side", name(i.side));
  if (i.component) member(w, "component", name(*i.component));
  key(w, "first");
  spans(w, i.first);
  key(w, "second");
  spans(w, i.second);
  member(w, "message", i.message);
  if (i.check == Check::copied_exam) {
    member(w, "other_note", i.other_note);
    key(w, "share");
    share(w, i.share, 2);
  }
  w.EndObject();
}

template <class Writer>
void id_and_metadata(Writer& w, const Note& note) {
  key(w, "id");
  if (note.id_is_number) {
    raw(w, note.id, rapidjson::kNumberType);
  } else {
    string(w, note.id);
  }
  metadata_members(w, note, [](std::string_view k) { return std::ranges::find(kOwnKeys, k) != kOwnKeys.end(); });
}

template <class Writer>
void ledger_members(Writer& w, const Ledger& ledger) {
  key(w, "entries");
  array(w, ledger.entries, entry<Writer>);
  key(w, "complaints");
  array(w, ledger.complaints, complaint<Writer>);
}

template <class Writer>
void audit_members(Writer& w, const Ledger& ledger, const Audit& audit) {
  member(w, "profile", audit.profile->name);
  key(w, "score");
  share(w, audit.score, kCreditDecimals);
  key(w, "applicable");
  w.Uint(audit.applicable);
  key(w, "met");
  w.Uint(audit.met);
  key(w, "gaps");
  array(w, audit.gaps, gap<Writer>);
  key(w, "credits");
  w.StartArray();
  for (const Credit& c : audit.credits) credit(w, c, ledger);
  w.EndArray();
  key(w, "inconsistencies");
  array(w, audit.inconsistencies, inconsistency<Writer>);
  if (!audit.doubtful.empty()) {
    key(w, "doubtful");
    w.StartArray();
    for (const std::uint32_t i : audit.doubtful) entry(w, ledger.entries[i]);
    w.EndArray();
  }
  member(w, "notice", kNotice);
}

template <class Writer>
void item_object(Writer& w, const ReportItem& item) {
  w.StartObject();
  id_and_metadata(w, item.note);
  if (item.audit == nullptr) {
    ledger_members(w, item.ledger);
  } else {
    audit_members(w, item.ledger, *item.audit);
  }
  w.EndObject();
}

}  // namespace

void open_ndjson(const ReportRun&, std::string&) {}

void add_ndjson(const ReportRun&, const ReportItem& item, std::string& out) {
  StringSink sink{out};
  rapidjson::Writer<StringSink> writer(sink);
  item_object(writer, item);
  out.push_back('\n');
}

void close_ndjson(const ReportRun&, const ReportTally&, std::string&) {}

void open_json(const ReportRun&, std::string& out) { out.append("[\n"); }

void add_json(const ReportRun&, const ReportItem& item, std::string& out) {
  StringSink sink{out};
  rapidjson::PrettyWriter<StringSink> writer(sink);
  writer.SetIndent(' ', 2);
  item_object(writer, item);
}

void close_json(const ReportRun&, const ReportTally& tally, std::string& out) {
  out.append(tally.notes > 0 ? "\n]\n" : "]\n");
}

}  // namespace jointledger
