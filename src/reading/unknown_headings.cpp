// Headings that no table knows as a whole: what they are is told by their shape, their first words or their last.
#include "reading/heading_kinds.h"
#include "reading/heading_shapes.h"

namespace jointledger {
namespace {

constexpr std::uint32_t kLongest = 12;  // tokens

/// Words before a colon.
struct Words {
  std::uint32_t first = 0;  ///< tokens [first, last)
  std::uint32_t last = 0;
  bool title_case = true;  ///< each begins with a capital
};

std::optional<Words> words_before_colon(const Document& d, std::uint32_t token) {
  const auto n = static_cast<std::uint32_t>(d.tokens().size());
  Words words{token, token};
  for (std::uint32_t& i = words.last; i < n && i < token + kLongest && !is_break(d, i) && !d.is(i, ":"); ++i) {
    if (d.tokens()[i].kind == TokenKind::word) {
      if (!is_capitalized(d.text(i))) words.title_case = false;
    } else if (!d.is(i, "/") && !d.is(i, "&") && !d.is(i, "-") && !d.is(i, "'")) {
      return std::nullopt;
    }
  }
  if (words.last == token || !d.is(words.last, ":")) return std::nullopt;
  return words;
}

FoundHeading found(const Document& d, const Words& words, const Heading* known) {
  FoundHeading heading;
  heading.known = known;
  heading.words_end = words.last;
  heading.body = past_colon(d, words.last);
  return heading;
}

enum class Subject { none, of_organ, of_exam };

// What the words name if they are one phrase of the exam.
Subject subject_of(const Document& d, const Words& words) {
  const auto match = d.lexicon().phrases().longest(d.keys(), words.first);
  if (match.length == 0 || words.first + match.length != words.last) return Subject::none;
  switch (d.lexicon().meaning(match.value).kind) {
    case ConceptKind::elsewhere_place:
    case ConceptKind::elsewhere_finding:
      return Subject::of_organ;
    case ConceptKind::motion:
    case ConceptKind::finding:
    case ConceptKind::test:
    case ConceptKind::component:
    case ConceptKind::motion_muscle:
      return Subject::of_exam;
    default:
      return Subject::none;
  }
}

// "Reason for neurological consultation", "Past ocular history": known by their last words. Null if they are not.
const Heading* known_by_end(const Document& d, const Words& words) {
  for (std::uint32_t at = words.first + 1; at < words.last; ++at) {
    const auto match = d.lexicon().heading_phrases().longest(d.keys(), at);
    if (match.length == 0 || at + match.length != words.last) continue;
    const Heading& heading = d.lexicon().heading(match.value);
    if (heading.level == Heading::Level::section && heading.section != SectionKind::exam) return &heading;
  }
  return nullptr;
}

// "Physical examination at the time of discharge": known by their first words. Null if they are not.
const Heading* known_by_start(const Document& d, const Words& words) {
  const auto match = d.lexicon().heading_phrases().longest(d.keys(), words.first);
  if (match.length == 0) return nullptr;
  const Heading& heading = d.lexicon().heading(match.value);
  if (heading.level != Heading::Level::section) return nullptr;
  // "Assessment of respiratory effort" is a part of the exam, not the assessment of the visit.
  if (heading.section == SectionKind::plan && d.is(words.first + match.length, "of")) return nullptr;
  return &heading;
}

}  // namespace

std::optional<FoundHeading> unknown_heading(const Document& d, std::uint32_t token, bool line_start) {
  const auto words = words_before_colon(d, token);
  if (!words) return std::nullopt;
  switch (subject_of(d, *words)) {
    case Subject::of_exam:
      return std::nullopt;  // "Extension: 0 degrees", "Edema: none": what the text is about, no heading
    case Subject::of_organ: {
      // "Prostate:", "Sphincter tone:": the heading of another organ.
      FoundHeading organ = found(d, *words, nullptr);
      organ.label.admits = Admits::explicit_only;
      organ.label.is_system = true;
      return organ;
    }
    case Subject::none:
      break;
  }
  if (const Heading* known = known_by_end(d, *words)) return found(d, *words, known);
  const bool capitals = all_capitals(d, words->first, words->last);
  if (line_start || capitals) {
    if (const Heading* known = known_by_start(d, *words)) return found(d, *words, known);
  }
  if (!capitals && !(words->title_case && line_start)) return std::nullopt;
  FoundHeading heading = found(d, *words, nullptr);
  heading.unknown = true;
  return heading;
}

}  // namespace jointledger
