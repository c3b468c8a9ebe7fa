#include "report/fhir_measure.h"

#include "report/dates.h"

namespace jointledger::fhir {
namespace {

using namespace json_values;

void period_member(Writer& w, const ReportTally& tally) {
  key(w, "period");
  w.StartObject();
  if (tally.first_date == 0) {
    key(w, "extension");
    w.StartArray();
    extension(w, kDataAbsentReason, "valueCode", "unknown");
    w.EndArray();
  } else {
    member(w, "start", date_of_number(tally.first_date));
    member(w, "end", date_of_number(tally.last_date));
  }
  w.EndObject();
}

void population(Writer& w, std::string_view code, std::string_view display, std::uint64_t count) {
  w.StartObject();
  key(w, "code");
  concept_of(w, kPopulationSystem, code, display);
  key(w, "count");
  w.Uint64(count);
  w.EndObject();
}

/// The part of a whole; nothing of nothing.
void score_member(Writer& w, double part, std::uint64_t whole) {
  if (whole == 0) return;
  key(w, "measureScore");
  w.StartObject();
  key(w, "value");
  share(w, part / static_cast<double>(whole), kCreditDecimals);
  w.EndObject();
}

void proportion(Writer& w, std::uint64_t met, std::uint64_t asked) {
  population(w, "denominator", "Denominator", asked);
  population(w, "numerator", "Numerator", met);
  w.EndArray();
  score_member(w, static_cast<double>(met), asked);
}

void notes_group(Writer& w, const ReportTally& tally) {
  w.StartObject();
  key(w, "code");
  concept_of(w, kMeasureGroupSystem, "notes", "Notes that lack nothing required, of those to which anything applied");
  key(w, "population");
  w.StartArray();
  population(w, "initial-population", "Initial Population", tally.notes);
  proportion(w, tally.complete, tally.asked);
  w.EndObject();
}

void score_group(Writer& w, const ReportTally& tally) {
  w.StartObject();
  key(w, "code");
  concept_of(w, kMeasureGroupSystem, "mean-score", "Mean score of the notes to which anything applied");
  key(w, "population");
  w.StartArray();
  population(w, "initial-population", "Initial Population", tally.asked);
  w.EndArray();
  constexpr double kPerPoint = 10'000.0;
  score_member(w, static_cast<double>(tally.score) / kPerPoint, tally.asked);
  w.EndObject();
}

void expectation_group(Writer& w, const Profile& profile, const Expectation& expectation,
                       const ExpectationTally& tally) {
  w.StartObject();
  key(w, "code");
  concept_of(w, expectation_system(profile.name), expectation.id, expectation.asks);
  key(w, "population");
  w.StartArray();
  proportion(w, tally.met, tally.asked);
  w.EndObject();
}

/// All but the id.
void content(Writer& w, const ReportRun& run, const ReportTally& tally) {
  const Profile& profile = *run.profile;
  member(w, "status", "complete");
  member(w, "type", "summary");
  member(w, "measure", measure_uri(profile.name));
  if (!run.date.empty()) member(w, "date", run.date);
  period_member(w, tally);
  key(w, "improvementNotation");
  concept_of(w, kImprovementSystem, "increase", "Increased score indicates improvement");
  key(w, "group");
  w.StartArray();
  notes_group(w, tally);
  score_group(w, tally);
  for (std::size_t i = 0; i < profile.expectations.size(); ++i) {
    const auto& counts = i < tally.expectations.size() ? tally.expectations[i] : ExpectationTally();
    expectation_group(w, profile, profile.expectations[i], counts);
  }
  w.EndArray();
}

}  // namespace

std::string id_of(const ReportRun& run, const ReportTally& tally) {
  std::string text;
  StringSink sink{text};
  Writer w(sink);
  w.StartObject();
  content(w, run, tally);
  w.EndObject();
  return uuid_of(text.insert(0, "urn:jointledger:measure-report\x1f"));
}

void measure_report(Writer& w, const ReportRun& run, const ReportTally& tally) {
  w.StartObject();
  member(w, "resourceType", "MeasureReport");
  member(w, "id", id_of(run, tally));
  content(w, run, tally);
  w.EndObject();
}

}  // namespace jointledger::fhir
