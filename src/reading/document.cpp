#include "reading/document.h"

#include <cctype>

#include "reading/headings.h"

namespace jointledger {
namespace {

/// In tokens. Nobody writes a longer one, and the steps on a sentence take the square of its length: a hostile one
/// would hang them. It is cut.
constexpr std::uint32_t kLongestSentence = 4096;

bool ends_sentence_mark(std::string_view text) { return text == "." || text == "?" || text == "!"; }

bool is_bullet_mark(std::string_view text) { return text == "•" || text == "·" || text == "●" || text == "▪"; }

bool plural(std::string_view word) {
  return word.size() > 2 && (word.back() == 's' || word.back() == 'S') && !word.ends_with("ss");
}

// Whether a heading of a component that begins a line ("INSPECTION:") may begin the exam in such a section, where no
// exam came before: the written reports of therapists have no other heading for it.
bool may_begin_exam(SectionKind section) {
  return section == SectionKind::none || section == SectionKind::history || section == SectionKind::complaint ||
         section == SectionKind::past || section == SectionKind::data || section == SectionKind::plan;
}

// What a known heading makes of the section in force.
void enter(const Heading& heading, Stretch& stretch, SectionKind section) {
  stretch.section = section;
  stretch.scope = Scope();
  stretch.scope.admits = heading.admits;
  stretch.scope.component = heading.component;
  stretch.scope.is_system = heading.level == Heading::Level::system;
  stretch.scope.fresh = heading.level != Heading::Level::part;
  switch (heading.level) {
    case Heading::Level::section:
      stretch.section = heading.section;
      break;
    case Heading::Level::system:
    case Heading::Level::part:
      if (section == SectionKind::none) stretch.section = SectionKind::exam;
      break;
  }
  if (heading.region || heading.joints) {
    PlaceRef place;
    place.region = heading.region.value_or(Region::whole_body);
    place.joints = heading.joints;
    place.side = is_paired(place.region) ? Side::both : Side::midline;
    place.back = heading.back;
    stretch.scope.places.push_back(place);
  }
}

}  // namespace

void Document::lay_out(const Lexicon& lexicon, std::string_view note) {
  lexicon_ = &lexicon;
  note_ = note;
  tokenize(note, tokens_);
  split_lines(note, tokens_, lines_);
  keys_.clear();
  keys_.reserve(tokens_.size());
  for (const Token& token : tokens_) {
    keys_.push_back(token.kind == TokenKind::line_break
                        ? TokenKey()
                        : lexicon.key(note.substr(token.start, token.end - token.start), token, folded_));
  }
  const auto n = static_cast<std::uint32_t>(tokens_.size());
  line_start_.assign(n, 0);
  bulleted_.assign(n, 0);
  for (const Line& line : lines_) {
    if (line.body_token < n) {
      line_start_[line.body_token] = 1;
      bulleted_[line.body_token] = line.bullet ? 1 : 0;
    }
    if (line.bullet) line_start_[line.first_token] = 2;
  }

  stretches_.clear();
  Stretch current;
  SectionKind section = SectionKind::none;
  SectionKind narrative = SectionKind::none;  // the section to return to when exam text in a narrative ends
  bool sentence_start = true;
  bool examined = false;  // there was exam text under a heading
  const auto close = [&](std::uint32_t at) {
    current.last = at;
    // "Right knee: Inspection: ...": nothing stands under the first heading, but its place stays in force.
    if (current.last > current.first || !current.scope.places.empty()) stretches_.push_back(current);
  };
  std::uint32_t i = 0;
  while (i < n) {
    const Token& token = tokens_[i];
    if (token.kind == TokenKind::line_break) {
      if (narrative != SectionKind::none && i + 1 < n &&
          (narrative == SectionKind::plan || !goes_on_with_exam(i + 1))) {
        // Exam text opened inside a narrative ends with its paragraph, unless the next one tells of the exam, too.
        close(i);
        section = narrative;
        narrative = SectionKind::none;
        current = Stretch();
        current.first = i;
        current.section = section;
      }
      sentence_start = true;
      ++i;
      continue;
    }
    const bool line_start = line_start_[i] == 1;
    if (line_start || sentence_start || (token.kind == TokenKind::word && token.space_before && i > 0)) {
      const auto found = find_heading(*this, i, line_start, sentence_start || line_start);
      if (found && found->opens_exam) {
        if (section != SectionKind::exam && section != SectionKind::ros && section != SectionKind::procedure) {
          close(i);
          narrative = section;
          section = SectionKind::exam;
          current = Stretch();
          current.first = i;
          current.section = section;
        }
      } else if (found) {
        close(i);
        Stretch next;
        next.same_line = line_start_[i] == 0;
        next.heading = span(i, found->words_end);
        next.first = found->body;
        if (found->known != nullptr) {
          enter(*found->known, next, section);
          if (found->known->level == Heading::Level::part && line_start && !examined && may_begin_exam(section))
            next.section = SectionKind::exam;
          if (!next.scope.places.empty() && !plural(text(found->words_end - 1)) &&
              !plural(text(i + (found->words_end - i > 1 ? 1 : 0)))) {
            for (PlaceRef& place : next.scope.places) {
              if (place.region == Region::upper_extremity || place.region == Region::lower_extremity)
                place.side = Side::unstated;
            }
          }
          if (bulleted_[i] != 0 && current.scope.is_system && found->known->section == SectionKind::exam) {
            // "- Examination:" in the list under a system's heading is of that system.
            next.scope = current.scope;
            next.section = section;
          }
          if (under_label_line(current, i, found->words_end) && found->known->level == Heading::Level::system &&
              found->known->admits != Admits::all && next.scope.places.empty()) {
            // "Skin:" in the lines right under "RIGHT KNEE" is the skin of that knee.
            next.scope = Scope();
            next.scope.fresh = false;
            next.scope.label = true;
          }
          if (found->known->level == Heading::Level::section) narrative = SectionKind::none;
          section = next.section;
          if (section == SectionKind::exam) examined = true;
        } else {
          next.section = section;
          if (found->unknown && current.scope.label) next.scope.fresh = false;
          if (!found->unknown) {
            if (section == SectionKind::none && !found->label.places.empty())
              next.section = section = SectionKind::exam;
            next.scope = found->label;
          }
        }
        current = next;
        i = found->body;
        sentence_start = true;
        continue;
      }
    }
    const std::string_view here = text(i);
    sentence_start =
        ends_sentence_mark(here) || here == ";" || is_bullet_mark(here) || line_start_[i] == 2 ||
        (here == "," && i + 1 < n && !tokens_[i + 1].space_before && tokens_[i + 1].kind == TokenKind::word);
    ++i;
  }
  close(n);
}

// Whether the first sentence from `at` on tells of an examination: it names a part of one, and neither a study nor that
// the patient says so.
bool Document::goes_on_with_exam(std::uint32_t at) const {
  bool exam = false;
  while (at < tokens_.size() && !ends_sentence_mark(text(at))) {
    if (tokens_[at].kind == TokenKind::line_break && exam) break;
    const auto match = lexicon_->phrases().longest(keys_, at);
    if (match.length == 0) {
      ++at;
      continue;
    }
    const Concept& meaning = lexicon_->meaning(match.value);
    switch (meaning.kind) {
      case ConceptKind::other_source:
        return false;
      case ConceptKind::cue:
        if (meaning.cue == Cue::says) return false;
        break;
      case ConceptKind::component:
      case ConceptKind::finding:
      case ConceptKind::motion:
      case ConceptKind::test:
        exam = true;
        break;
      default:
        break;
    }
    at += match.length;
  }
  return exam;
}

// Whether the heading at `at` stands in the lines right under a label that has a line to itself, with no blank line
// between.
bool Document::under_label_line(const Stretch& current, std::uint32_t at, std::uint32_t words_end) const {
  if (!current.scope.label || line_start_[at] != 1 || words_end >= tokens_.size() || text(words_end) != ":")
    return false;
  for (std::uint32_t i = current.first; i + 1 < at; ++i) {
    if (tokens_[i].kind == TokenKind::line_break && tokens_[i + 1].kind == TokenKind::line_break) return false;
  }
  if (!current.scope.places.empty())
    return current.first < tokens_.size() && tokens_[current.first].kind == TokenKind::line_break;
  return true;
}

void Document::sentences(const Stretch& stretch, std::vector<Sentence>& out) const {
  out.clear();
  std::uint32_t begin = stretch.first;
  const auto cut = [&](std::uint32_t at) {
    if (at > begin) out.push_back({begin, at});
  };
  for (std::uint32_t i = stretch.first; i < stretch.last; ++i) {
    const Token& token = tokens_[i];
    const std::string_view here = text(i);
    if (i - begin == kLongestSentence) {
      cut(i);
      begin = i;
    }
    if (token.kind == TokenKind::line_break) {
      // A wrapped line goes on in small letters; anything else is a new sentence.
      const bool next_small = i + 1 < stretch.last && tokens_[i + 1].kind == TokenKind::word &&
                              line_start_[i + 1] == 1 &&
                              (std::islower(static_cast<unsigned char>(text(i + 1)[0])) != 0);
      if (next_small && i > begin) continue;
      cut(i);
      begin = i + 1;
      continue;
    }
    if (is_bullet_mark(here) || line_start_[i] == 2) {
      cut(i);
      begin = i + 1;
      continue;
    }
    if (!ends_sentence_mark(here)) continue;
    if (here == "." && i > stretch.first) {
      const bool touching = i + 1 < stretch.last && !tokens_[i + 1].space_before;
      const Token& before = tokens_[i - 1];
      if (before.kind == TokenKind::word && !token.space_before) {
        const bool initial = before.end - before.start == 1;
        const bool next_capital =
            i + 1 < stretch.last && (std::isupper(static_cast<unsigned char>(text(i + 1)[0])) != 0);
        if (initial && touching) continue;  // "p.o."
        if (lexicon_->is_abbreviation(keys_[i - 1].word) && (touching || !next_capital || initial)) continue;
        if (keys_[i - 1].word != 0 && lexicon_->is_abbreviation(keys_[i - 1].word) && next_capital) {
          // "Dr. X" against "... of the ext. No edema": a name has one capitalised word; leave titles together.
          if (before.end - before.start <= 3 && std::isupper(static_cast<unsigned char>(text(i - 1)[0])) != 0) continue;
        }
      }
      if (touching && tokens_[i + 1].kind == TokenKind::number) continue;
    }
    cut(i);
    begin = i + 1;
  }
  cut(stretch.last);
}

}  // namespace jointledger
