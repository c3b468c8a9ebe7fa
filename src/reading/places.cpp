// Cuts a sentence into clauses, and meets the places in it.
#include <algorithm>

#include "reading/place_steps.h"

namespace jointledger {
namespace {

// "Musculoskeletal exam is normal" is of the whole body; beside findings the words only introduce them.
bool names_only_exam(const std::vector<Item>& items) {
  return std::ranges::none_of(items, [](const Item& item) {
    return item.is_any(ConceptKind::finding, ConceptKind::component, ConceptKind::motion, ConceptKind::test,
                       ConceptKind::part) ||
           (item.is(ConceptKind::region) && !item.meaning->exam);
  });
}

// ", there was an atrophy of the calf", ", he has no swelling": a sentence of its own behind a comma.
bool opens_sentence(const PlaceScan& scan, Index i) {
  if (i == 0 || i + 1 >= scan.items.size() || !scan.said || scan.items[i - 1].kind != ItemKind::comma) return false;
  if (!is_filler(scan.items[i]) || !scan.items[i + 1].has(kVerb)) return false;
  const std::string_view word = scan.document.text(scan.items[i].first);
  return word == "there" || word == "he" || word == "she";
}

// A semicolon, "but" and "otherwise" always start a clause; "the rest of the foot" does not.
bool opens_clause(const PlaceScan& scan, Index i) {
  const Item& item = scan.items[i];
  if (opens_sentence(scan, i)) return true;
  if (item.kind == ItemKind::semicolon || item.is(Cue::but)) return true;
  if (!item.is(Cue::rest) || i == 0) return false;
  const Index next = next_solid(scan.items, i + 1);
  return next >= scan.items.size() || !scan.items[next].places();
}

void open_clause(PlaceScan& scan) {
  ++scan.clause;
  scan.said = false;
  scan.at = false;
  scan.side.reset();
  scan.start.reset();
}

void meet_side(PlaceScan& scan, Index i) {
  const Concept& meaning = *scan.items[i].meaning;
  const auto side = side_of(*meaning.side);
  if (!side || *side == Side::midline) return;
  scan.side = side;
  scan.side_letter = meaning.letter;
  if (!scan.start) scan.start = i;
}

// Words that are neither place nor side: they may lead to a place, or end the reach of a side.
void pass_over(PlaceScan& scan, Index i) {
  const Item& item = scan.items[i];
  if (is_filler(item) || is_bracket(item)) return;
  if (joins(item)) {
    // "right and left knee" is one phrase of its own; "right knee and ankle" keeps the side through the join.
    const bool side_goes_on = scan.side && !scan.side_letter;
    if (!side_goes_on && item.kind == ItemKind::comma) scan.at = false;
    return;
  }
  if (item.has(kAt) || item.is_any(Cue::equalled, Cue::compared)) {
    scan.at = true;
    return;
  }
  if (says_something(item) && !item.is_any(Cue::no, Cue::not_)) scan.said = true;
  // "right-sided tenderness", "left 4/5": a side that belongs to no place nearby.
  const bool lone_word = item.kind == ItemKind::word && !(i > 0 && scan.items[i - 1].kind == ItemKind::word);
  if (!lone_word) {
    scan.side.reset();
    scan.start.reset();
  }
  if (item.kind != ItemKind::word && item.kind != ItemKind::number && !item.is(Cue::extent)) scan.at = false;
}

// Returns one past the last item of the place.
Index meet_place(PlaceScan& scan, Index i) {
  FoundPlace place;
  place.elsewhere = scan.items[i].is(ConceptKind::elsewhere_place);
  place.member = name_place(scan, i);
  place.paired = is_paired(place.member.place.region);
  place.last = take_side(scan, place.member);
  const Index last = place.last;
  add_place(scan, std::move(place));
  for (Index k = i; k < last; ++k) scan.parts.clause[k] = scan.clause;
  scan.side.reset();
  scan.start.reset();
  scan.at = false;
  return last;
}

}  // namespace

Index next_solid(const std::vector<Item>& items, Index i) {
  const auto is_light = [](const Item& item) {
    return is_filler(item) || item.is(ConceptKind::side) || is_bracket(item) || item.is(Cue::extent);
  };
  while (i < items.size() && is_light(items[i])) ++i;
  return i;
}

void find_places(const Document& document, const Context& context, SentenceParts& parts) {
  parts.groups.clear();
  parts.clause.assign(parts.items.size(), 0);
  PlaceScan scan{
      document, context, parts, parts.items, talk_for_places(context, parts.items), names_only_exam(parts.items)};
  for (Index i = 0; i < parts.items.size();) {
    if (opens_clause(scan, i)) open_clause(scan);
    parts.clause[i] = scan.clause;
    if (is_place(scan, i)) {
      i = meet_place(scan, i);
      continue;
    }
    if (parts.items[i].is(ConceptKind::side)) {
      meet_side(scan, i);
    } else {
      pass_over(scan, i);
    }
    ++i;
  }
  clean_groups(scan);
}

}  // namespace jointledger
