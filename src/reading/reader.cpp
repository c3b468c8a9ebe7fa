#include "reading/reader.h"

#include <algorithm>

#include "reading/clause.h"
#include "reading/complaints.h"
#include "reading/document.h"
#include "reading/facts.h"
#include "reading/hearsay.h"
#include "reading/merge.h"
#include "reading/placing.h"
#include "reading/references.h"

namespace jointledger {

struct ReadingScratch::Memory {
  Document document;
  std::vector<Sentence> sentences;
  SentenceParts parts;
  std::vector<Statement> statements;
  Facts facts;
  StopRequest stop;
};

ReadingScratch::ReadingScratch() : memory_(std::make_unique<Memory>()) {}
ReadingScratch::~ReadingScratch() = default;
ReadingScratch::ReadingScratch(ReadingScratch&&) noexcept = default;
ReadingScratch& ReadingScratch::operator=(ReadingScratch&&) noexcept = default;
void ReadingScratch::watch(StopRequest stop) { memory_->stop = stop; }

namespace {

// "AROM  R  L": the head of a table whose lines hold a value for each side.
std::optional<std::pair<Side, Side>> table_head(const std::vector<Item>& items) {
  for (std::size_t i = 1; i < items.size(); ++i) {
    if (!items[i].is(ConceptKind::side) || !items[i - 1].is(ConceptKind::side)) continue;
    const auto first = side_of(*items[i - 1].meaning->side);
    const auto second = side_of(*items[i].meaning->side);
    if (!first || !second || *first == *second || *first == Side::both || *second == Side::both) continue;
    const bool last =
        i + 1 == items.size() || items[i + 1].kind == ItemKind::word || items[i + 1].kind == ItemKind::colon;
    if (last) return std::pair(*first, *second);
  }
  return std::nullopt;
}

bool of_leg(Region region) { return covers(Region::lower_extremity, region); }

// Whether the label in force, or without one the complaints, are of a leg and no arm.
bool in_leg(const Scope& scope, const std::vector<Complaint>& complaints) {
  if (!scope.places.empty() && !is_group(scope.places.front().region)) return of_leg(scope.places.front().region);
  if (!scope.places.empty() && scope.places.front().region == Region::lower_extremity) return true;
  if (!scope.places.empty() && scope.places.front().region == Region::upper_extremity) return false;
  const bool leg = std::ranges::any_of(complaints, [](const Complaint& c) { return of_leg(c.region); });
  const bool arm =
      std::ranges::any_of(complaints, [](const Complaint& c) { return covers(Region::upper_extremity, c.region); });
  return leg && !arm;
}

// Leaves a part heading's component in force only for its own stretch, and the topic only where the heading lets it.
void enter(const Stretch& stretch, Topic& topic, Scope& standing) {
  const Scope& scope = stretch.scope;
  // "Motor: ... Lower extremities: 1/5": a limb named in the line of a part keeps the part.
  const bool limb = scope.fresh && !scope.places.empty() &&
                    std::ranges::all_of(scope.places, [](const PlaceRef& p) { return is_paired(p.region); });
  const std::optional<Component> part =
      limb && stretch.same_line &&
              (standing.component == Component::strength || standing.component == Component::reflexes ||
               standing.component == Component::sensation)
          ? standing.component
          : std::nullopt;
  if (scope.fresh) {
    topic.places.clear();
    topic.place_words.clear();
    topic.elsewhere = false;
    topic.side = Side::unstated;
    standing = scope;
    for (const PlaceRef& place : scope.places) {
      if (place.side != Side::unstated && place.side != Side::midline) topic.side = place.side;
    }
    topic.scope_words = stretch.heading;
    if (part && !standing.component) standing.component = part;
  } else {
    standing.component = scope.component;
    topic.elsewhere = false;
    if (!scope.component && !standing.label && !scope.side) topic.places.clear();
    if (scope.component && !standing.label &&
        (*scope.component == Component::sensation || *scope.component == Component::reflexes ||
         *scope.component == Component::gait || *scope.component == Component::strength)) {
      topic.places.clear();  // the parts of a neurological exam are of the whole body again
      topic.place_words.clear();
      topic.side = Side::unstated;
      if (!stretch.same_line && standing.is_system && *scope.component != Component::gait) standing.places.clear();
    }
    if (scope.side) {
      standing.side = scope.side;
      topic.side = *scope.side;
      for (PlaceRef& place : topic.places) {
        if (is_paired(place.region)) place.side = *scope.side;
      }
      for (PlaceRef& place : standing.places) {
        if (is_paired(place.region)) place.side = *scope.side;
      }
    }
    if (standing.admits != Admits::all && scope.admits == Admits::all) {
      // "Motor:" after "Cranial nerves:" or the skin: a part of the exam in its own right.
      standing.places.clear();
      standing.label = false;
      topic.places.clear();
    }
    standing.admits = scope.admits;
  }
  topic.scope = &standing;
}

}  // namespace

Ledger read_note(const Lexicon& lexicon, std::string_view note, ReadingScratch& scratch) {
  ReadingScratch::Memory& m = scratch.memory();
  m.document.lay_out(lexicon, note);
  m.statements.clear();
  m.facts.begin(m.document);
  Ledger ledger;
  find_complaints(m.document, m.sentences, ledger.complaints);

  Topic topic;
  topic.said = &m.statements;
  if (!ledger.complaints.empty())
    topic.complaint = PlaceRef{ledger.complaints.front().region, ledger.complaints.front().side, false};
  for (const Complaint& complaint : ledger.complaints) {
    if (complaint.region == Region::lumbar_spine) topic.low_back_complaint = true;
  }
  // Text under no heading is read as exam text only if the note has no exam of its own.
  const bool has_exam =
      std::ranges::any_of(m.document.stretches(), [](const Stretch& s) { return s.section == SectionKind::exam; });
  Scope standing;
  NamedPlaces named;
  std::uint32_t count = 0;
  for (const Stretch& stretch : m.document.stretches()) {
    enter(stretch, topic, standing);
    if (standing.label && standing.places.size() >= 2) named.assign(standing.places.begin(), standing.places.end());
    const bool exam = stretch.section == SectionKind::exam || (stretch.section == SectionKind::none && !has_exam);
    m.facts.open(stretch, exam);
    if (!exam) continue;
    Context context;
    context.component = standing.component;
    context.section = stretch.section;
    m.document.sentences(stretch, m.sentences);
    for (const Sentence& sentence : m.sentences) {
      if (m.stop.made()) return {};
      context.named = {named.data(), named.size()};
      context.leg = in_leg(standing, ledger.complaints);
      context.sided = topic.side == Side::left || topic.side == Side::right;
      itemize(m.document, sentence, m.parts.items);
      ++count;
      strike_hearsay(context, m.parts.items);
      if (m.parts.items.empty()) continue;
      if (const auto columns = table_head(m.parts.items)) {
        context.columns = columns;
      }
      find_places(m.document, context, m.parts);
      find_units(m.document, context, m.parts);
      place_units(m.document, m.parts, count, topic);
      keep_named(m.document, m.parts, named);
      m.facts.read(sentence, count, m.parts, standing, topic.scope_words);
    }
  }
  if (m.stop.made()) return {};
  merge(lexicon, m.statements, ledger.entries);
  m.facts.hand_over(m.statements, m.sentences, m.parts, ledger);
  return ledger;
}

}  // namespace jointledger
