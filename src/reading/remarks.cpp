#include "reading/remarks.h"

#include <algorithm>
#include <tuple>

namespace jointledger {
namespace {

using Use = RemarkWord::Use;

/// Tokens [first, last).
struct Tokens {
  std::uint32_t first = 0;
  std::uint32_t last = 0;
};

template <class List>
void sort_unique(List& list) {
  std::ranges::sort(list);
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

/// Reads what the statements of one sentence leave unsaid: what they speak of, and what weakens them.
class SentenceReader {
 public:
  SentenceReader(const Document& document, const ExamSentence& sentence)
      : d_(document), lexicon_(document.lexicon()), sentence_(sentence) {
    each_word(whole(), [&](const RemarkWord& word) {
      parted_ = parted_ || word.use == Use::change || word.use == Use::compared;
    });
    each_concept(whole(), [&](const Concept& c, std::uint32_t, std::uint32_t) {
      if (c.kind == ConceptKind::side && (*c.side == SideWord::other || *c.side == SideWord::same)) parted_ = true;
      if (c.kind != ConceptKind::cue) return;
      parted_ =
          parted_ || c.cue == Cue::compared || c.cue == Cue::comparing || c.cue == Cue::equalled || c.cue == Cue::same;
      excepts_ = excepts_ || c.cue == Cue::except;
    });
    parted_ = parted_ || dated();
  }

  void read(const Statement& s, std::vector<Remark>& out) const {
    if (parted_ || !firm(s)) return;
    Remark remark;
    for (const Span& span : s.evidence) note_subjects(span, remark);
    for (const auto test : s.tests) remark.subjects.push_back(test);
    const Tokens clause = clause_of(s);
    bool weak = s.outcome == Outcome::normal && excepts_;
    each_word(clause, [&](const RemarkWord& word) {
      if (word.use == Use::narrows) remark.narrowed.push_back(word.id);
      if (word.use == Use::hedge && s.outcome == Outcome::normal) weak = true;
      if (word.use == Use::pain && s.component == Component::range_of_motion) weak = true;
    });
    if ((s.outcome == Outcome::normal || s.component == Component::range_of_motion) && has_unknown(clause)) weak = true;
    remark.motions = s.motions;
    each_concept(clause, [&](const Concept& c, std::uint32_t first, std::uint32_t last) {
      look_at(c, first, last, s, remark, weak);
    });
    if (weak) return;
    for (const auto structure : s.structures) remark.narrowed.push_back(structure);
    if (s.component == Component::range_of_motion) remark.subjects.assign(1, "motion");
    if (s.component == Component::strength) remark.subjects.assign(1, "strength");
    if (remark.subjects.empty()) return;
    sort_unique(remark.subjects);
    sort_unique(remark.narrowed);
    remark.region = s.region;
    remark.component = s.component;
    remark.side = s.side;
    remark.outcome = s.outcome;
    remark.evidence.assign(s.evidence.begin(), s.evidence.end());
    std::ranges::sort(remark.evidence, {}, [](const Span& span) { return std::tuple(span.start, span.end); });
    remark.sentence = sentence_.number;
    remark.exam = sentence_.exam;
    out.push_back(std::move(remark));
  }

 private:
  // Judged outright, of one place that the note names, on a side that is known.
  static bool firm(const Statement& s) {
    if (!s.judged || (s.outcome != Outcome::normal && s.outcome != Outcome::abnormal)) return false;
    if (s.component == Component::unspecified) return false;
    if (s.component == Component::gait) return true;
    if (is_group(s.region) || s.place_source == PlaceSource::none || s.place_source == PlaceSource::heading)
      return false;
    // Power and feeling told after a place may as well be those of the whole limb.
    const bool wide =
        s.component == Component::strength || s.component == Component::sensation || s.component == Component::reflexes;
    if (wide && s.place_source == PlaceSource::topic) return false;
    return !is_paired(s.region) || s.side != Side::unstated;
  }

  // Places, and the motions that are graded, narrow a remark down.
  void look_at(const Concept& c, std::uint32_t first, std::uint32_t last, const Statement& s, Remark& remark,
               bool& weak) const {
    switch (c.kind) {
      case ConceptKind::cue:
        if ((c.cue == Cue::rest || c.cue == Cue::equivocal) && s.outcome == Outcome::normal) weak = true;
        break;
      case ConceptKind::motion:
      case ConceptKind::motion_muscle:
        if (s.component == Component::strength) remark.motions.insert(c.motions);
        break;
      case ConceptKind::side:
        // Of the spine a side is a direction.
        if (!is_paired(s.region)) remark.narrowed.push_back(*c.side == SideWord::left ? "left" : "right");
        break;
      case ConceptKind::part:
      case ConceptKind::muscle:
      case ConceptKind::nerve:
      case ConceptKind::artery:
        // By its words: one id stands for a whole neighbourhood.
        for (std::uint32_t i = first; i < last; ++i) {
          if (d_.keys()[i].word != 0) remark.narrowed.push_back(lexicon_.vocabulary().word(d_.keys()[i].word));
        }
        break;
      default:
        break;
    }
  }

  Tokens whole() const { return {sentence_.tokens.first, sentence_.tokens.last}; }

  template <class Each>
  void each_word(Tokens tokens, Each each) const {
    for (std::uint32_t i = tokens.first; i < tokens.last;) {
      const auto match = lexicon_.remark_phrases().longest(d_.keys(), i);
      if (match.length > 0) each(lexicon_.remark_word(match.value));
      i += std::max<std::uint32_t>(match.length, 1);
    }
  }

  template <class Each>
  void each_concept(Tokens tokens, Each each) const {
    for (std::uint32_t i = tokens.first; i < tokens.last;) {
      const auto match = lexicon_.phrases().longest(d_.keys(), i);
      if (match.length > 0) each(lexicon_.meaning(match.value), i, i + match.length);
      i += std::max<std::uint32_t>(match.length, 1);
    }
  }

  // A long word that no table knows may name what the remark is narrowed to ("the pes bursa is nontender").
  bool has_unknown(Tokens tokens) const {
    constexpr std::uint32_t kLong = 4;
    for (std::uint32_t i = tokens.first; i < tokens.last;) {
      const auto known = std::max(lexicon_.phrases().longest(d_.keys(), i).length,
                                  lexicon_.remark_phrases().longest(d_.keys(), i).length);
      const Token& token = d_.tokens()[i];
      const bool unit_of_measure = i > sentence_.tokens.first && d_.tokens()[i - 1].kind == TokenKind::number;
      if (known == 0 && token.kind == TokenKind::word && token.end - token.start >= kLong && !unit_of_measure)
        return true;
      i += std::max<std::uint32_t>(known, 1);
    }
    return false;
  }

  // "on 3/4/20": three numbers with slashes between.
  bool dated() const {
    const auto number = [&](std::uint32_t i) { return d_.tokens()[i].kind == TokenKind::number; };
    for (std::uint32_t i = sentence_.tokens.first; i + 4 < sentence_.tokens.last; ++i) {
      if (number(i) && d_.is(i + 1, "/") && number(i + 2) && d_.is(i + 3, "/") && number(i + 4)) return true;
    }
    return false;
  }

  // The tokens of a span that lie in this sentence.
  Tokens tokens_of(Span span) const {
    const auto begin = d_.tokens().begin();
    const auto from = std::lower_bound(begin + sentence_.tokens.first, begin + sentence_.tokens.last, span.start,
                                       [](const Token& token, std::uint32_t at) { return token.start < at; });
    auto to = from;
    while (to != begin + sentence_.tokens.last && to->end <= span.end) ++to;
    return {static_cast<std::uint32_t>(from - begin), static_cast<std::uint32_t>(to - begin)};
  }

  void note_subjects(Span span, Remark& remark) const {
    each_word(tokens_of(span), [&](const RemarkWord& word) {
      if (word.use == Use::finding) remark.subjects.push_back(word.id);
    });
  }

  // What stands between the separators around the statement's own words.
  Tokens clause_of(const Statement& s) const {
    Tokens clause{sentence_.tokens.last, sentence_.tokens.first};
    for (const Span& span : s.evidence) {
      const Tokens tokens = tokens_of(span);
      if (tokens.first == tokens.last) continue;
      clause.first = std::min(clause.first, tokens.first);
      clause.last = std::max(clause.last, tokens.last);
    }
    if (clause.first >= clause.last) return whole();
    const auto parts = [&](std::uint32_t i) { return d_.is(i, ",") || d_.is(i, ";") || d_.is(i, "but"); };
    while (clause.first > sentence_.tokens.first && !parts(clause.first - 1)) --clause.first;
    while (clause.last < sentence_.tokens.last && !parts(clause.last)) ++clause.last;
    return clause;
  }

  const Document& d_;
  const Lexicon& lexicon_;
  const ExamSentence& sentence_;
  bool parted_ = false;  // told of another time or side
  bool excepts_ = false;
};

}  // namespace

void find_remarks(const Document& document, const std::vector<ExamSentence>& sentences,
                  const std::vector<Statement>& statements, std::vector<Remark>& out) {
  auto s = statements.begin();
  for (const ExamSentence& sentence : sentences) {
    while (s != statements.end() && s->sentence < sentence.number) ++s;
    if (s == statements.end()) return;
    if (s->sentence != sentence.number) continue;
    const SentenceReader reader(document, sentence);
    for (; s != statements.end() && s->sentence == sentence.number; ++s) reader.read(*s, out);
  }
}

}  // namespace jointledger
