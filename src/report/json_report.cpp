#include "report/json_report.h"

#include <rapidjson/prettywriter.h>
#include <rapidjson/writer.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "report/grade_text.h"
#include "report/notice.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

/// A rapidjson output stream that appends to a string.
struct StringSink {
  using Ch = char;
  std::string& out;
  void Put(char c) { out.push_back(c); }
  void Flush() {}
};

/// Its keys as well as some of a note's own could stand in an object; then these stay.
constexpr std::array kOwnKeys = {"id"sv,  "entries"sv, "complaints"sv, "profile"sv, "score"sv,           "applicable"sv,
                                 "met"sv, "gaps"sv,    "credits"sv,    "notice"sv,  "inconsistencies"sv, "doubtful"sv};

template <class Writer>
void string(Writer& w, std::string_view text) {
  w.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
}

template <class Writer>
void key(Writer& w, std::string_view text) {
  w.Key(text.data(), static_cast<rapidjson::SizeType>(text.size()));
}

template <class Writer>
void raw(Writer& w, std::string_view json, rapidjson::Type type) {
  w.RawValue(json.data(), json.size(), type);
}

template <class Writer>
void member(Writer& w, std::string_view name, std::string_view value) {
  key(w, name);
  string(w, value);
}

/// A share, in the fewest digits that tell it apart at `decimals` places.
template <class Writer>
void share(Writer& w, std::string_view name, double value, int decimals) {
  key(w, name);
  const double scale = std::pow(10.0, decimals);
  w.Double(std::round(value * scale) / scale);
}

/// A span on one line, indented output or not: a page of braces would hide the words around it.
template <class Writer>
void span(Writer& w, Span span) {
  constexpr std::string_view kStart = R"({"start":)";
  constexpr std::string_view kEnd = R"(,"end":)";
  constexpr std::size_t kDigits = 10;  // of the largest offset
  std::array<char, kStart.size() + kEnd.size() + 2 * kDigits + 1> text;
  char* const limit = text.data() + text.size() - 1;
  char* at = std::ranges::copy(kStart, text.data()).out;
  at = std::to_chars(at, limit, span.start).ptr;
  at = std::ranges::copy(kEnd, at).out;
  at = std::to_chars(at, limit, span.end).ptr;
  *at++ = '}';
  raw(w, {text.data(), static_cast<std::size_t>(at - text.data())}, rapidjson::kObjectType);
}

template <class Writer, class Spans>
void spans(Writer& w, std::string_view name, const Spans& list) {
  key(w, name);
  w.StartArray();
  for (const Span& s : list) span(w, s);
  w.EndArray();
}

template <class Writer, class List>
void names(Writer& w, std::string_view label, const List& list) {
  if (list.empty()) return;
  key(w, label);
  w.StartArray();
  for (const std::string_view s : list) string(w, s);
  w.EndArray();
}

template <class Writer>
void motions(Writer& w, MotionSet set) {
  if (set.empty()) return;
  key(w, "motions");
  w.StartArray();
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    if (const auto motion = static_cast<Motion>(i); set.contains(motion)) string(w, name(motion));
  }
  w.EndArray();
}

template <class Writer>
void degrees(Writer& w, const Degrees& d) {
  w.StartObject();
  if (d.motion) member(w, "motion", name(*d.motion));
  member(w, "side", name(d.side));
  if (d.from) {
    key(w, "from");
    w.Int(*d.from);
  }
  key(w, "to");
  w.Int(d.to);
  if (d.lacking) {
    key(w, "lacking");
    w.Bool(true);
  }
  key(w, "evidence");
  span(w, d.evidence);
  w.EndObject();
}

template <class Writer>
void grade(Writer& w, const Grade& g) {
  w.StartObject();
  member(w, "value", grade_text(g));
  key(w, "scale");
  w.Int(g.scale);
  member(w, "side", name(g.side));
  key(w, "evidence");
  span(w, g.evidence);
  w.EndObject();
}

template <class Writer>
void entry(Writer& w, const Entry& e) {
  w.StartObject();
  member(w, "region", name(e.region));
  member(w, "component", name(e.component));
  member(w, "side", name(e.side));
  member(w, "outcome", name(e.outcome));
  motions(w, e.motions);
  if (!e.degrees.empty()) {
    key(w, "degrees");
    w.StartArray();
    for (const Degrees& d : e.degrees) degrees(w, d);
    w.EndArray();
  }
  if (!e.grades.empty()) {
    key(w, "grade");
    w.StartArray();
    for (const Grade& g : e.grades) grade(w, g);
    w.EndArray();
  }
  names(w, "structures", e.structures);
  names(w, "tests", e.tests);
  share(w, "certainty", static_cast<double>(e.certainty), 3);
  spans(w, "evidence", e.evidence);
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
  w.StartArray();
  for (const Component c : g.components) string(w, name(c));
  w.EndArray();
  motions(w, g.motions);
  names(w, "structures", g.structures);
  member(w, "reason", name(g.reason));
  spans(w, "nearest", g.nearest);
  share(w, "credit", g.credit, 4);
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
  spans(w, "evidence", evidence);
  w.EndObject();
}

template <class Writer>
void inconsistency(Writer& w, const Inconsistency& i) {
  w.StartObject();
  member(w, "check", name(i.check));
  member(w, "region", name(i.region));
  member(w, "side", name(i.side));
  if (i.component) member(w, "component", name(*i.component));
  spans(w, "first", i.first);
  spans(w, "second", i.second);
  member(w, "message", i.message);
  if (i.check == Check::copied_exam) {
    member(w, "other_note", i.other_note);
    share(w, "share", i.share, 2);
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
  for (const Member& m : note.metadata) {
    if (std::ranges::find(kOwnKeys, m.key) != kOwnKeys.end()) continue;
    key(w, m.key);
    raw(w, m.json, rapidjson::kObjectType);
  }
}

template <class Writer>
void ledger_members(Writer& w, const Ledger& ledger) {
  key(w, "entries");
  w.StartArray();
  for (const Entry& e : ledger.entries) entry(w, e);
  w.EndArray();
  key(w, "complaints");
  w.StartArray();
  for (const Complaint& c : ledger.complaints) complaint(w, c);
  w.EndArray();
}

template <class Writer>
void audit_members(Writer& w, const Ledger& ledger, const Audit& audit) {
  member(w, "profile", audit.profile->name);
  share(w, "score", audit.score, 4);
  key(w, "applicable");
  w.Uint(audit.applicable);
  key(w, "met");
  w.Uint(audit.met);
  key(w, "gaps");
  w.StartArray();
  for (const Gap& g : audit.gaps) gap(w, g);
  w.EndArray();
  key(w, "credits");
  w.StartArray();
  for (const Credit& c : audit.credits) credit(w, c, ledger);
  w.EndArray();
  key(w, "inconsistencies");
  w.StartArray();
  for (const Inconsistency& i : audit.inconsistencies) inconsistency(w, i);
  w.EndArray();
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

void close_ndjson(const ReportRun&, std::size_t, std::string&) {}

void open_json(const ReportRun&, std::string& out) { out.append("[\n"); }

void add_json(const ReportRun&, const ReportItem& item, std::string& out) {
  StringSink sink{out};
  rapidjson::PrettyWriter<StringSink> writer(sink);
  writer.SetIndent(' ', 2);
  item_object(writer, item);
}

void close_json(const ReportRun&, std::size_t notes, std::string& out) { out.append(notes > 0 ? "\n]\n" : "]\n"); }

}  // namespace jointledger
