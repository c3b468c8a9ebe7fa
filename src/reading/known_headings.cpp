// Headings whose words the lexicon knows.
#include <algorithm>

#include "reading/heading_kinds.h"
#include "reading/heading_shapes.h"

namespace jointledger {
namespace {

/// A phrase of the lexicon that may be a heading.
struct HeadingPhrase {
  const Heading* heading = nullptr;
  std::uint32_t first = 0;  ///< tokens [first, last)
  std::uint32_t last = 0;
  bool line_start = false;
  bool sentence_start = false;
  bool capitalized = false;
  bool capitals = false;  ///< all of it

  bool starts() const { return line_start || sentence_start; }
};

PhraseTable::Match phrase_at(const Document& d, std::uint32_t token) {
  return token < d.tokens().size() ? d.lexicon().heading_phrases().longest(d.keys(), token) : PhraseTable::Match{};
}

FoundHeading found(const Heading* heading, std::uint32_t words_end, std::uint32_t body) {
  FoundHeading heading_found;
  heading_found.known = heading;
  heading_found.words_end = words_end;
  heading_found.body = body;
  return heading_found;
}

bool is_exam_section(const Heading& heading) {
  return heading.level == Heading::Level::section && heading.section == SectionKind::exam;
}

// "Exam Neck:", "Physical exam - Extremities:": the system behind the word, at `at`, is what the text is about.
std::optional<FoundHeading> inner_heading(const Document& d, const Heading& outer, std::uint32_t at) {
  const bool review = outer.level == Heading::Level::section && outer.section == SectionKind::ros;
  if (!is_exam_section(outer) && !review) return std::nullopt;
  if (d.is(at, "-") || d.is(at, ",")) ++at;
  const auto match = phrase_at(d, at);
  if (match.length == 0) return std::nullopt;
  const Heading& inner = d.lexicon().heading(match.value);
  if (inner.level == Heading::Level::section) return std::nullopt;
  const std::uint32_t words_end = skip_suffix(d, at + match.length);
  const std::uint32_t body = past_colon(d, words_end);
  return body != 0 ? std::optional(found(&inner, words_end, body)) : std::nullopt;
}

bool is_join(const Document& d, std::uint32_t i) {
  return d.is(i, "/") || d.is(i, "&") || d.is(i, "and") || d.is(i, ",");
}

// "Coord/Station/Gait:", "Motor and sensory:": joined headings; the last one that has a component speaks.
void take_joined(const Document& d, HeadingPhrase& phrase) {
  while (phrase.last + 1 < d.tokens().size() && is_join(d, phrase.last)) {
    const auto match = phrase_at(d, phrase.last + 1);
    if (match.length == 0) return;
    const Heading& more = d.lexicon().heading(match.value);
    const std::uint32_t last = phrase.last + 1 + match.length;
    if (more.level == Heading::Level::section || (past_colon(d, last) == 0 && !is_join(d, last))) return;
    // "Neurological/Psychological": what counts under one of them counts.
    const bool admits_more = more.admits <= phrase.heading->admits;
    if (more.component || (!phrase.heading->component && admits_more)) phrase.heading = &more;
    phrase.last = last;
  }
}

// Whether a colon makes a heading of the phrase: in running text it must look like one, too.
bool is_shaped(const Document& d, const HeadingPhrase& phrase) {
  if (phrase.starts()) return true;
  const bool in_text = phrase.capitalized && phrase.first > 0 && d.tokens()[phrase.first].space_before;
  return in_text && (phrase.capitals || phrase.heading->level != Heading::Level::part);
}

// Where the text under a heading without a colon begins, if its words end at `stop`; 0 if it is none.
std::uint32_t body_without_colon(const Document& d, const HeadingPhrase& phrase, std::uint32_t stop) {
  const auto& tokens = d.tokens();
  const Heading::Level level = phrase.heading->level;
  if (phrase.line_start && phrase.capitalized && is_spaced_dash(d, stop)) return stop + 1;
  if (phrase.line_start && is_break(d, stop)) return stop;
  if (phrase.starts() && phrase.capitalized) {
    if (d.is(stop, ";") && level == Heading::Level::system) return stop + 1;
    const bool surely = phrase.capitals || level == Heading::Level::system;
    const bool is_short = stop - phrase.first <= 3;
    if (d.is(stop, ".") && surely && is_short && !is_break(d, stop + 1)) return stop + 1;
  }
  if (!phrase.line_start || !phrase.capitals || stop >= tokens.size()) return 0;
  // "PHYSICAL EXAMINATION,Eye:" where an export put a comma for the line break.
  if (d.is(stop, ",") && stop + 1 < tokens.size() && !tokens[stop + 1].space_before) return stop + 1;
  // "EXTREMITIES No edema": capitals, then a sentence.
  const bool sentence =
      tokens[stop].kind == TokenKind::word && !d.keys()[stop].capitals && is_capitalized(d.text(stop));
  const bool long_enough = d.text(phrase.first).size() >= 4;
  return sentence && long_enough && level != Heading::Level::part ? stop : 0;
}

bool is_exam_word(std::string_view word) {
  return word.starts_with("exam") || word.starts_with("Exam") || word.starts_with("EXAM");
}

// Whether "exam" or "examination" is among the phrase's words.
bool names_exam(const Document& d, const HeadingPhrase& phrase) {
  for (std::uint32_t i = phrase.first; i < phrase.last; ++i) {
    if (is_exam_word(d.text(i))) return true;
  }
  return false;
}

bool is_on(std::string_view word) { return word == "On" || word == "on" || word == "Upon" || word == "upon"; }

bool is_verb(const Concept& meaning) { return meaning.kind == ConceptKind::grammar && (meaning.grammar & kVerb) != 0; }

// "Examination of his left knee revealed": a place of the body and a verb; not "examination of three views showed".
bool tells_of_place(const Document& d, std::uint32_t from) {
  constexpr std::uint32_t kReach = 8;  // tokens
  bool place = false;
  for (std::uint32_t i = from; i < from + kReach && !is_break(d, i) && !d.is(i, ":");) {
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    if (match.length > 0) {
      const Concept& meaning = d.lexicon().meaning(match.value);
      if (meaning.kind == ConceptKind::other_source) return false;
      if (meaning.kind == ConceptKind::region || meaning.kind == ConceptKind::part) place = true;
      if (is_verb(meaning)) return place;
    }
    i += std::max(match.length, 1U);
  }
  return false;
}

// "On examination, ...", "Physical exam reveals ...": opens exam text in a narrative.
bool opens_exam(const Document& d, const HeadingPhrase& phrase, std::uint32_t behind) {
  const bool of_exam =
      is_exam_section(*phrase.heading) || (phrase.heading->level == Heading::Level::system && names_exam(d, phrase));
  if (!phrase.starts() || !of_exam || behind >= d.tokens().size()) return false;
  if (is_on(d.text(phrase.first)) && !is_break(d, behind) && d.tokens()[behind].kind == TokenKind::word) {
    return !d.is(behind, "of") || tells_of_place(d, behind + 1);  // "On examination the knee is swollen"
  }
  if (names_exam(d, phrase) && !is_exam_word(d.text(phrase.last - 1))) return true;  // "physical examination shows"
  if (d.is(behind, ",")) return true;
  if (d.is(behind, "of")) return tells_of_place(d, behind + 1);
  const auto next = d.lexicon().phrases().longest(d.keys(), behind);
  return next.length > 0 && is_verb(d.lexicon().meaning(next.value));
}

}  // namespace

std::optional<FoundHeading> exam_opening(const Document& d, std::uint32_t token) {
  constexpr std::uint32_t kMostLead = 3;  // "On a", "Today on her"
  for (std::uint32_t at = token; at < token + kMostLead && at < d.tokens().size();) {
    const auto lead = d.lexicon().phrases().longest(d.keys(), at);
    if (lead.length == 0) return std::nullopt;
    const Concept& meaning = d.lexicon().meaning(lead.value);
    if (meaning.kind != ConceptKind::grammar || (meaning.grammar & (kAt | kWith | kFiller)) == 0) return std::nullopt;
    at += lead.length;
    const auto match = phrase_at(d, at);
    if (match.length == 0) continue;
    HeadingPhrase phrase;
    phrase.heading = &d.lexicon().heading(match.value);
    phrase.first = at;
    phrase.last = at + match.length;
    phrase.sentence_start = true;
    if (!names_exam(d, phrase)) return std::nullopt;
    if (is_on(d.text(token))) phrase.first = token;
    if (!opens_exam(d, phrase, skip_suffix(d, phrase.last))) return std::nullopt;
    FoundHeading opening = found(phrase.heading, phrase.last, token);
    opening.opens_exam = true;
    return opening;
  }
  return std::nullopt;
}

std::optional<FoundHeading> known_heading(const Document& d, std::uint32_t token, PhraseTable::Match match,
                                          bool line_start, bool sentence_start) {
  const bool letter = match.length == 1 && d.text(token).size() == 1;
  if (letter && !line_start) return std::nullopt;  // "P: 2+" is a pulse
  HeadingPhrase phrase;
  phrase.heading = &d.lexicon().heading(match.value);
  phrase.first = token;
  phrase.last = token + match.length;
  phrase.line_start = line_start;
  phrase.sentence_start = sentence_start;
  if (auto inner = inner_heading(d, *phrase.heading, phrase.last)) return inner;
  take_joined(d, phrase);
  phrase.capitalized = is_capitalized(d.text(token));
  phrase.capitals = all_capitals(d, phrase.first, phrase.last);

  const std::uint32_t suffix_end = skip_suffix(d, phrase.last);
  for (const std::uint32_t stop : {suffix_end, phrase.last}) {
    if (const std::uint32_t body = past_colon(d, stop)) {
      if (!is_shaped(d, phrase)) break;
      return found(phrase.heading, stop, body);
    }
    if (const std::uint32_t body = body_without_colon(d, phrase, stop)) return found(phrase.heading, stop, body);
  }
  if (!opens_exam(d, phrase, suffix_end)) return std::nullopt;
  FoundHeading opening = found(phrase.heading, phrase.last, token);
  opening.opens_exam = true;
  return opening;
}

}  // namespace jointledger
