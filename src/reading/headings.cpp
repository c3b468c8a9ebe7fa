#include "reading/headings.h"

#include <algorithm>
#include <cctype>

#include "reading/items.h"

namespace jointledger {
namespace {

constexpr std::uint32_t kLongestLabel = 14;  // tokens

bool is_break(const Document& d, std::uint32_t i) {
  return i >= d.tokens().size() || d.tokens()[i].kind == TokenKind::line_break;
}

bool capitalized(std::string_view word) {
  return !word.empty() && (std::isupper(static_cast<unsigned char>(word[0])) != 0);
}

bool all_capitals(const Document& d, std::uint32_t first, std::uint32_t last) {
  std::size_t letters = 0;
  for (std::uint32_t i = first; i < last; ++i) {
    if (d.tokens()[i].kind != TokenKind::word) continue;
    if (!d.keys()[i].capitals) return false;
    letters += d.tokens()[i].end - d.tokens()[i].start;
  }
  return letters >= 2;
}

// Steps over "exam", "examination", "findings" and the like, a bracket of a few words, after a heading's phrase.
std::uint32_t skip_suffix(const Document& d, std::uint32_t i) {
  for (int words = 0; words < 2 && !is_break(d, i); ++words) {
    // A date: "HCT 11/4/92:".
    if (d.tokens()[i].kind == TokenKind::number) {
      std::uint32_t j = i;
      while (j < i + 6 && !is_break(d, j) && (d.tokens()[j].kind == TokenKind::number || d.is(j, "/") || d.is(j, "-")))
        ++j;
      if (j >= i + 3) i = j;
    }
    if (d.is(i, "(") || d.is(i, "[")) {
      std::uint32_t j = i + 1;
      while (j < i + 8 && !is_break(d, j) && !d.is(j, ")") && !d.is(j, "]")) ++j;
      if (is_break(d, j) || j == i + 8) return i;
      i = j + 1;
      continue;
    }
    const auto match = d.lexicon().heading_phrases().longest(d.keys(), i);
    if (match.length == 0) return i;
    const Heading& heading = d.lexicon().heading(match.value);
    if (heading.level != Heading::Level::section ||
        (heading.section != SectionKind::exam && heading.section != SectionKind::data)) {
      return i;
    }
    i += match.length;
  }
  return i;
}

// One past the colon (and the stray comma some exports leave behind it) if one stands at `i`, else 0.
std::uint32_t past_colon(const Document& d, std::uint32_t i) {
  if (d.is(i, ",") && d.is(i + 1, ":")) ++i;
  if (!d.is(i, ":") && !d.is(i, "：")) return 0;
  ++i;
  while (d.is(i, ",") || d.is(i, ":")) ++i;
  return i;
}

// A dash between spaces after a heading: "NECK - supple".
bool spaced_dash(const Document& d, std::uint32_t i) {
  if (i + 1 >= d.tokens().size()) return false;
  if (!d.is(i, "-") && !d.is(i, "–") && !d.is(i, "—")) return false;
  return d.tokens()[i + 1].space_before;
}

// Whether a list of places goes on at a token.
bool goes_on(const Document& d, std::uint32_t i) {
  for (int steps = 0; steps < 3 && i < d.tokens().size(); ++steps) {
    if (side_letter_at(d, i)) return true;
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    if (match.length == 0) return false;
    const Concept& c = d.lexicon().meaning(match.value);
    if (c.kind == ConceptKind::region || c.kind == ConceptKind::part || c.kind == ConceptKind::muscle ||
        c.kind == ConceptKind::side)
      return true;
    if (c.kind != ConceptKind::grammar) return false;
    i += match.length;
  }
  return false;
}

// A label that names places or a side and little else: "Right knee:", "Examination of the left shoulder reveals:".
std::optional<FoundHeading> place_label(const Document& d, std::uint32_t token, bool line_start) {
  FoundHeading found;
  std::uint32_t i = token;
  int unknown = 0;
  std::optional<Side> pending_side;
  std::optional<std::uint32_t> unsided_from;
  bool has_place = false;
  bool exam_word = false;
  const Lexicon& lexicon = d.lexicon();
  const auto n = static_cast<std::uint32_t>(d.tokens().size());
  while (i < n && i < token + kLongestLabel) {
    if (is_break(d, i) || d.is(i, ":") || spaced_dash(d, i)) break;
    const auto side = side_letter_at(d, i);
    if (side) {
      pending_side = side;
      if (unsided_from) {
        for (auto p = *unsided_from; p < found.label.places.size(); ++p) found.label.places[p].side = *side;
      }
      ++i;
      continue;
    }
    const auto match = lexicon.phrases().longest(d.keys(), i);
    if (match.length == 0) {
      const std::string_view text = d.text(i);
      if (d.tokens()[i].kind == TokenKind::number) return std::nullopt;
      if (text == "," && line_start && has_place && pending_side && !goes_on(d, i + 1)) {
        // "Left knee, no effusion, full motion.": the places, then what is said of them.
        found.words_end = i;
        found.body = i + 1;
        found.label.label = true;
        return found;
      }
      if (text == "/" || text == "," || text == "&" || text == "-" || text == "(" || text == ")") {
        ++i;
        continue;
      }
      if (text == "." || text == ";") return std::nullopt;
      const auto heading = lexicon.heading_phrases().longest(d.keys(), i);
      if (heading.length > 0 && lexicon.heading(heading.value).section == SectionKind::exam) {
        exam_word = true;
        i += heading.length;
        continue;
      }
      if (++unknown > 2) return std::nullopt;
      ++i;
      continue;
    }
    const Concept& c = lexicon.meaning(match.value);
    switch (c.kind) {
      case ConceptKind::region:
      case ConceptKind::part:
      case ConceptKind::muscle: {
        if (!c.region) return std::nullopt;
        Side side_here = c.many ? Side::both : Side::unstated;
        if (c.side) side_here = *side_of(*c.side);
        if (!is_paired(*c.region) && side_here == Side::unstated) side_here = Side::midline;
        if (pending_side) {
          side_here = *pending_side;
        } else if (!unsided_from && side_here == Side::unstated) {
          unsided_from = static_cast<std::uint32_t>(found.label.places.size());
        }
        if (c.region == Region::extremities && side_here == Side::unstated) side_here = Side::both;
        found.label.places.push_back({*c.region, side_here, c.joints, c.back});
        if (c.second_region) found.label.places.push_back({*c.second_region, side_here, false, false});
        has_place = true;
        break;
      }
      case ConceptKind::side:
        if (c.letter) {
          if (++unknown > 2) return std::nullopt;
        } else if (const auto named = side_of(*c.side)) {
          pending_side = *named;
          if (unsided_from) {  // "knees bilaterally", "shoulder, right"
            for (auto p = *unsided_from; p < found.label.places.size(); ++p) found.label.places[p].side = *named;
          }
        }
        break;
      case ConceptKind::component:
        if (found.label.component && has_place) return std::nullopt;
        if (!c.weak || c.component == Component::inspection || c.component == Component::palpation) {
          found.label.component = c.component;
        }
        break;
      case ConceptKind::grammar:
        break;
      case ConceptKind::cue:
        if (c.cue != Cue::tested && c.cue != Cue::testword && c.cue != Cue::extent && c.cue != Cue::rest)
          return std::nullopt;
        break;
      default:
        return std::nullopt;
    }
    i += match.length;
  }
  if (!has_place && !pending_side) return std::nullopt;
  if (i >= n || i == token) return std::nullopt;
  found.words_end = i;
  if (const std::uint32_t body = past_colon(d, i)) {
    found.body = body;
  } else if (line_start && spaced_dash(d, i)) {
    found.body = i + 1;
  } else if (line_start && is_break(d, i) && unknown == 0 && (has_place || exam_word)) {
    found.body = i;  // a line by itself
  } else {
    return std::nullopt;
  }
  if (!has_place) {
    if (unknown > 0 || found.words_end - token > 3) return std::nullopt;
    found.label.side = pending_side;
    found.label.fresh = false;
  }
  found.label.label = true;
  return found;
}

// "Word word:" at the start of a line or sentence, in capitals or title case, that no table knows.
std::optional<FoundHeading> unknown_heading(const Document& d, std::uint32_t token, bool line_start) {
  std::uint32_t i = token;
  const auto n = static_cast<std::uint32_t>(d.tokens().size());
  bool lower = false;
  while (i < n && i < token + 12 && !is_break(d, i) && !d.is(i, ":")) {
    if (d.tokens()[i].kind == TokenKind::word) {
      if (!capitalized(d.text(i))) lower = true;
    } else if (!d.is(i, "/") && !d.is(i, "&") && !d.is(i, "-") && !d.is(i, "'")) {
      return std::nullopt;
    }
    ++i;
  }
  if (i == token || i >= n || !d.is(i, ":")) return std::nullopt;
  // "Extension: 0 degrees", "Edema: none": the subject of what follows, not a heading.
  const auto subject = d.lexicon().phrases().longest(d.keys(), token);
  if (subject.length > 0 && token + subject.length == i) {
    switch (d.lexicon().meaning(subject.value).kind) {
      case ConceptKind::elsewhere_place:
      case ConceptKind::elsewhere_finding: {
        // "Prostate:", "Sphincter tone:": the heading of another organ.
        FoundHeading other;
        other.words_end = i;
        other.body = past_colon(d, i);
        other.label.admits = Admits::explicit_only;
        other.label.is_system = true;
        return other;
      }
      case ConceptKind::motion:
      case ConceptKind::finding:
      case ConceptKind::test:
      case ConceptKind::component:
      case ConceptKind::motion_muscle:
        return std::nullopt;
      default:
        break;
    }
  }
  // "Reason for neurological consultation", "Past ocular history": known by their last words.
  for (std::uint32_t at = token + 1; at < i; ++at) {
    const auto tail = d.lexicon().heading_phrases().longest(d.keys(), at);
    if (tail.length == 0 || at + tail.length != i) continue;
    const Heading& heading = d.lexicon().heading(tail.value);
    if (heading.level != Heading::Level::section || heading.section == SectionKind::exam) continue;
    FoundHeading known;
    known.known = &heading;
    known.words_end = i;
    known.body = past_colon(d, i);
    if (d.text(token) == "REASON" || d.text(token) == "Reason") known.known = &heading;
    return known;
  }
  const auto opening = d.lexicon().heading_phrases().longest(d.keys(), token);
  if (opening.length > 0 && d.lexicon().heading(opening.value).level == Heading::Level::section &&
      (line_start || all_capitals(d, token, i))) {
    FoundHeading known;  // "Physical examination at the time of discharge"
    known.known = &d.lexicon().heading(opening.value);
    known.words_end = i;
    known.body = past_colon(d, i);
    return known;
  }
  const bool capitals = all_capitals(d, token, i);
  if (!capitals && (lower || !line_start)) return std::nullopt;
  FoundHeading found;
  found.unknown = true;
  found.words_end = i;
  found.body = past_colon(d, i);
  return found;
}

}  // namespace

std::optional<FoundHeading> find_heading(const Document& d, std::uint32_t token, bool line_start, bool sentence_start) {
  const Lexicon& lexicon = d.lexicon();
  if (d.tokens()[token].kind != TokenKind::word && d.tokens()[token].kind != TokenKind::number) return std::nullopt;
  auto match = lexicon.heading_phrases().longest(d.keys(), token);
  if (match.length == 1 && d.text(token).size() == 1 && !line_start) match.length = 0;  // "P: 2+" is a pulse
  if (match.length > 0) {
    // "Exam Neck:", "Physical exam - Extremities:": the system behind the word is what the text is about.
    const Heading& first = lexicon.heading(match.value);
    if (first.level == Heading::Level::section &&
        (first.section == SectionKind::exam || first.section == SectionKind::ros)) {
      std::uint32_t at = token + match.length;
      if (d.is(at, "-") || d.is(at, ",")) ++at;
      const auto inner =
          at < d.tokens().size() ? lexicon.heading_phrases().longest(d.keys(), at) : PhraseTable::Match{};
      if (inner.length > 0 && lexicon.heading(inner.value).level != Heading::Level::section) {
        const std::uint32_t stop = skip_suffix(d, at + inner.length);
        if (const std::uint32_t body = past_colon(d, stop)) {
          FoundHeading found;
          found.known = &lexicon.heading(inner.value);
          found.words_end = stop;
          found.body = body;
          return found;
        }
      }
    }
    const Heading* heading = &lexicon.heading(match.value);
    std::uint32_t end = token + match.length;
    // "Coord/Station/Gait:", "Motor and sensory:": joined headings; the last one that has a component speaks.
    while (end + 1 < d.tokens().size() && (d.is(end, "/") || d.is(end, "&") || d.is(end, "and") || d.is(end, ","))) {
      const auto more = lexicon.heading_phrases().longest(d.keys(), end + 1);
      if (more.length == 0 || lexicon.heading(more.value).level == Heading::Level::section) break;
      const std::uint32_t stop = end + 1 + more.length;
      if (!past_colon(d, stop) && !d.is(stop, "/") && !d.is(stop, "&") && !d.is(stop, "and") && !d.is(stop, ",")) break;
      if (lexicon.heading(more.value).component || !heading->component) heading = &lexicon.heading(more.value);
      end = stop;
    }
    std::uint32_t suffix_end = skip_suffix(d, end);
    const bool capital_start = capitalized(d.text(token));
    FoundHeading found;
    found.known = heading;
    found.words_end = end;
    for (const std::uint32_t stop : {suffix_end, end}) {
      if (const std::uint32_t body = past_colon(d, stop)) {
        // A colon makes a heading of a phrase; in running text it must look like one, too.
        const bool shaped =
            line_start || sentence_start || (capital_start && token > 0 && d.tokens()[token].space_before);
        if (!shaped) break;
        if (!line_start && !sentence_start && !all_capitals(d, token, end) && heading->level == Heading::Level::part)
          break;
        found.body = body;
        found.words_end = stop;
        return found;
      }
      if (line_start && spaced_dash(d, stop) && capital_start) {
        found.body = stop + 1;
        found.words_end = stop;
        return found;
      }
      if (line_start && is_break(d, stop)) {
        found.body = stop;
        found.words_end = stop;
        return found;
      }
      if ((line_start || sentence_start) && capital_start && d.is(stop, ";") &&
          heading->level == Heading::Level::system) {
        found.body = stop + 1;
        found.words_end = stop;
        return found;
      }
      const bool caps = all_capitals(d, token, end);
      if ((line_start || sentence_start) && capital_start && stop - token <= 3 && d.is(stop, ".") &&
          (caps || heading->level == Heading::Level::system) && !is_break(d, stop + 1)) {
        found.body = stop + 1;
        found.words_end = stop;
        return found;
      }
      // "PHYSICAL EXAMINATION,Eye:" where an export put a comma for the line break.
      if (line_start && caps && d.is(stop, ",") && stop + 1 < d.tokens().size() && !d.tokens()[stop + 1].space_before) {
        found.body = stop + 1;
        found.words_end = stop;
        return found;
      }
      if (line_start && caps && match.length >= 1 && end - token >= 1 && stop < d.tokens().size() &&
          d.tokens()[stop].kind == TokenKind::word && !d.keys()[stop].capitals && capitalized(d.text(stop)) &&
          heading->level != Heading::Level::part && d.text(token).size() >= 4) {
        found.body = stop;
        found.words_end = stop;
        return found;
      }
    }
    // "On examination, ...", "Physical exam reveals ...": opens exam text in a narrative.
    if ((line_start || sentence_start) && heading->level == Heading::Level::section &&
        heading->section == SectionKind::exam && suffix_end < d.tokens().size()) {
      const auto next = lexicon.phrases().longest(d.keys(), suffix_end);
      const bool verb = next.length > 0 && lexicon.meaning(next.value).kind == ConceptKind::grammar &&
                        (lexicon.meaning(next.value).grammar & kVerb) != 0;
      if (d.is(suffix_end, ",") || verb) {
        found.opens_exam = true;
        found.body = token;
        return found;
      }
    }
  }
  if (line_start || sentence_start) {
    if (auto label = place_label(d, token, line_start)) return label;
    if (auto unknown = unknown_heading(d, token, line_start)) return unknown;
  }
  return std::nullopt;
}

}  // namespace jointledger
