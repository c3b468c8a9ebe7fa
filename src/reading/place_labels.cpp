// Labels: headings in the note's own words that name places or a side.
#include "reading/heading_kinds.h"
#include "reading/heading_shapes.h"
#include "reading/items.h"

namespace jointledger {
namespace {

constexpr std::uint32_t kLongestLabel = 14;  // tokens
constexpr int kUnknownWords = 2;             // that a label may hold

/// A label as far as it has been read.
struct LabelScan {
  const Document& document;
  bool line_start = false;
  FoundHeading found;
  int unknown = 0;                          ///< words of no known meaning
  std::optional<Side> side;                 ///< the side last named
  std::optional<std::size_t> unsided_from;  ///< the first place that waits for its side
  bool exam_word = false;

  bool has_place() const { return !found.label.places.empty(); }
};

enum class Step {
  goes_on,
  ends,   ///< the label ends here, and is complete
  fails,  ///< this is no label
};

// Whether a list of places goes on at a token.
bool list_goes_on(const Document& d, std::uint32_t i) {
  for (int steps = 0; steps < 3 && i < d.tokens().size(); ++steps) {
    if (side_letter_at(d, i)) return true;
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    if (match.length == 0) return false;
    switch (d.lexicon().meaning(match.value).kind) {
      case ConceptKind::region:
      case ConceptKind::part:
      case ConceptKind::muscle:
      case ConceptKind::side:
        return true;
      case ConceptKind::grammar:
        i += match.length;
        break;
      default:
        return false;
    }
  }
  return false;
}

// "knees bilaterally", "shoulder, right": a side is of the places before it that have none, and of those to come.
void take_side(LabelScan& scan, Side side) {
  scan.side = side;
  if (!scan.unsided_from) return;
  auto& places = scan.found.label.places;
  for (std::size_t p = *scan.unsided_from; p < places.size(); ++p) places[p].side = side;
}

Step take_unknown_word(LabelScan& scan) { return ++scan.unknown > kUnknownWords ? Step::fails : Step::goes_on; }

Step take_place(LabelScan& scan, const Concept& c) {
  if (!c.region) return Step::fails;
  auto& places = scan.found.label.places;
  Side side = c.many ? Side::both : Side::unstated;
  if (c.side) side = *side_of(*c.side);
  if (!is_paired(*c.region) && side == Side::unstated) side = Side::midline;
  if (scan.side) {
    side = *scan.side;
  } else if (!scan.unsided_from && side == Side::unstated) {
    scan.unsided_from = places.size();
  }
  if (c.region == Region::extremities && side == Side::unstated) side = Side::both;
  places.push_back({*c.region, side, c.joints, c.back});
  if (c.second_region) places.push_back({*c.second_region, side, false, false});
  return Step::goes_on;
}

Step take_component(LabelScan& scan, const Concept& c) {
  if (scan.found.label.component && scan.has_place()) return Step::fails;
  if (!c.weak || c.component == Component::inspection || c.component == Component::palpation) {
    scan.found.label.component = c.component;
  }
  return Step::goes_on;
}

Step take_phrase(LabelScan& scan, const Concept& c) {
  switch (c.kind) {
    case ConceptKind::region:
    case ConceptKind::part:
    case ConceptKind::muscle:
      return take_place(scan, c);
    case ConceptKind::side:
      if (c.letter) return take_unknown_word(scan);
      if (const auto side = side_of(*c.side)) take_side(scan, *side);
      return Step::goes_on;
    case ConceptKind::component:
      return take_component(scan, c);
    case ConceptKind::grammar:
      return Step::goes_on;
    case ConceptKind::cue:
      switch (c.cue) {
        case Cue::tested:
        case Cue::testword:
        case Cue::extent:
        case Cue::rest:
          return Step::goes_on;
        default:
          return Step::fails;
      }
    default:
      return Step::fails;
  }
}

// A token that begins no phrase of the exam. Steps over it.
Step take_other(LabelScan& scan, std::uint32_t& i) {
  const Document& d = scan.document;
  const std::string_view text = d.text(i);
  if (d.tokens()[i].kind == TokenKind::number || text == "." || text == ";") return Step::fails;
  // "Left knee, no effusion, full motion.": the places, then what is said of them.
  const bool may_end = text == "," && scan.line_start && scan.has_place() && scan.side;
  if (may_end && !list_goes_on(d, i + 1)) return Step::ends;
  if (text == "/" || text == "," || text == "&" || text == "-" || text == "(" || text == ")") {
    ++i;
    return Step::goes_on;
  }
  const auto heading = d.lexicon().heading_phrases().longest(d.keys(), i);
  if (heading.length > 0 && d.lexicon().heading(heading.value).section == SectionKind::exam) {
    scan.exam_word = true;
    i += heading.length;
    return Step::goes_on;
  }
  ++i;
  return take_unknown_word(scan);
}

// Reads on from `i`, which is left where the label ends.
Step read_label(LabelScan& scan, std::uint32_t token, std::uint32_t& i) {
  const Document& d = scan.document;
  while (i < d.tokens().size() && i < token + kLongestLabel) {
    if (is_break(d, i) || d.is(i, ":") || is_spaced_dash(d, i)) return Step::goes_on;
    if (const auto side = side_letter_at(d, i)) {
      take_side(scan, *side);
      ++i;
      continue;
    }
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    const Step step = match.length > 0 ? take_phrase(scan, d.lexicon().meaning(match.value)) : take_other(scan, i);
    if (step != Step::goes_on) return step;
    i += match.length;
  }
  return Step::goes_on;
}

// Where the text under a label that ends at `i` begins; 0 if nothing marks it as one.
std::uint32_t body_of(const LabelScan& scan, std::uint32_t i) {
  const Document& d = scan.document;
  if (const std::uint32_t body = past_colon(d, i)) return body;
  if (!scan.line_start) return 0;
  if (is_spaced_dash(d, i)) return i + 1;
  const bool own_line = is_break(d, i) && scan.unknown == 0 && (scan.has_place() || scan.exam_word);
  return own_line ? i : 0;
}

}  // namespace

std::optional<FoundHeading> place_label(const Document& d, std::uint32_t token, bool line_start) {
  LabelScan scan{d, line_start, {}, 0, std::nullopt, std::nullopt, false};
  FoundHeading& found = scan.found;
  std::uint32_t i = token;
  const Step step = read_label(scan, token, i);
  if (step == Step::fails) return std::nullopt;
  found.words_end = i;
  found.label.label = true;
  if (step == Step::ends) {
    found.body = i + 1;
    return found;
  }
  if (!scan.has_place() && !scan.side) return std::nullopt;
  if (i >= d.tokens().size() || i == token) return std::nullopt;
  found.body = body_of(scan, i);
  if (found.body == 0) return std::nullopt;
  if (!scan.has_place()) {
    // "Left:" goes on with the places in force.
    if (scan.unknown > 0 || i - token > 3) return std::nullopt;
    found.label.side = scan.side;
    found.label.fresh = false;
  }
  return found;
}

}  // namespace jointledger
