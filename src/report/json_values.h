// The values of ledgers and audits as JSON, for the formats that are JSON and those that hold some.
//
// Writer is a rapidjson Writer or PrettyWriter. Each function writes one value, or one member of the object begun.
#pragma once

#include <rapidjson/writer.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <string_view>

#include "intake/json_string.h"
#include "intake/note.h"
#include "ledger/ledger.h"
#include "report/grade_text.h"

namespace jointledger::json_values {

using jointledger::StringSink;

/// The plain one, for what is not for people's eyes.
using CompactWriter = rapidjson::Writer<StringSink>;

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
void share(Writer& w, double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  w.Double(std::round(value * scale) / scale);
}
inline constexpr int kCertaintyDecimals = 3;
inline constexpr int kCreditDecimals = 4;  ///< of scores, too

/// What the source knew of a note, as it came in, but for the members that `leave_out(key)` says.
template <class Writer, class LeaveOut>
void metadata_members(Writer& w, const Note& note, LeaveOut leave_out) {
  for (const Member& m : note.metadata) {
    if (leave_out(m.key)) continue;
    key(w, m.key);
    raw(w, m.json, rapidjson::kObjectType);
  }
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

/// `element(w, x)` writes each.
template <class Writer, class List, class Element>
void array(Writer& w, const List& list, Element element) {
  w.StartArray();
  for (const auto& x : list) element(w, x);
  w.EndArray();
}

template <class Writer, class Spans>
void spans(Writer& w, const Spans& list) {
  array(w, list, [](Writer& to, const Span& s) { span(to, s); });
}

template <class Writer, class List>
void strings(Writer& w, const List& list) {
  array(w, list, [](Writer& to, std::string_view s) { string(to, s); });
}

/// The names of the values of the vocabulary.
template <class Writer, class List>
void names(Writer& w, const List& list) {
  array(w, list, [](Writer& to, auto value) { string(to, name(value)); });
}

/// Calls `use(motion)` for each of a set.
template <class Use>
void each_motion(MotionSet set, Use use) {
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    if (const auto motion = static_cast<Motion>(i); set.contains(motion)) use(motion);
  }
}

template <class Writer>
void motions(Writer& w, MotionSet set) {
  w.StartArray();
  each_motion(set, [&](Motion motion) { string(w, name(motion)); });
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

}  // namespace jointledger::json_values
