#include "ledger_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace jointledger::testing {
namespace {

using Json = nlohmann::ordered_json;

class Writer {
 public:
  Writer(std::string_view note, Places places) : note_(note), places_(places) {}

  Json entry(const Entry& e) const {
    Json json = {{"region", name(e.region)},
                 {"component", name(e.component)},
                 {"side", name(e.side)},
                 {"outcome", name(e.outcome)}};
    for (const std::string_view motion : motion_names()) {
      if (e.motions.contains(*motion_named(motion))) json["motions"].push_back(motion);
    }
    for (const Degrees& d : e.degrees) json["degrees"].push_back(degrees(d));
    for (const Grade& g : e.grades) json["grade"].push_back(grade(g));
    for (const std::string_view id : e.structures) json["structures"].push_back(id);
    for (const std::string_view id : e.tests) json["tests"].push_back(id);
    for (const Span& span : e.evidence) put_words(json, span);
    return json;
  }

  Json complaint(const Complaint& c) const {
    Json json = {{"region", name(c.region)}, {"side", name(c.side)}, {"injury", c.injury}};
    put_words(json, c.evidence);
    return json;
  }

 private:
  Json degrees(const Degrees& d) const {
    Json json = Json::object();
    if (d.motion) json["motion"] = name(*d.motion);
    json["side"] = name(d.side);
    if (d.from) json["from"] = *d.from;
    json["to"] = d.to;
    if (d.lacking) json["lacking"] = true;
    put_words(json, d.evidence);
    return json;
  }

  Json grade(const Grade& g) const {
    Json json = {{"side", name(g.side)}, {"tenths", g.tenths}, {"scale", g.scale}};
    put_words(json, g.evidence);
    return json;
  }

  void put_words(Json& json, const Span& span) const {
    if (places_ == Places::shown) json["evidence"].push_back({span.start, span.end});
    std::string words(note_.substr(span.start, span.end - span.start));
    std::erase(words, '\r');
    json["words"].push_back(words);
  }

  std::string_view note_;
  Places places_;
};

template <class List, class Write>
void put_list(std::string& out, std::string_view key, const List& list, const Write& write) {
  out.append("  \"").append(key).append("\": [");
  for (std::size_t i = 0; i < list.size(); ++i) out.append(i == 0 ? "\n    " : ",\n    ").append(write(list[i]).dump());
  out.append(list.empty() ? "]" : "\n  ]");
}

}  // namespace

std::string json_of(std::string_view id, std::string_view note, const Ledger& ledger, Places places) {
  const Writer writer(note, places);
  std::string out = "{\n  \"id\": " + Json(id).dump() + ",\n";
  put_list(out, "entries", ledger.entries, [&](const Entry& e) { return writer.entry(e); });
  out.append(",\n");
  put_list(out, "complaints", ledger.complaints, [&](const Complaint& c) { return writer.complaint(c); });
  return out.append("\n}\n");
}

}  // namespace jointledger::testing
