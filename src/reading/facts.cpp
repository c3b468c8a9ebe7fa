#include "reading/facts.h"

#include <algorithm>

#include "reading/joint_states.h"
#include "reading/named_places.h"

namespace jointledger {
namespace {

// "PHYSICAL EXAMINATION", where the heading of a joint or a part of the exam only goes on with the one in hand.
bool begins_exam(const Document& document, const Stretch& stretch) {
  const auto& tokens = document.tokens();
  const auto at = std::ranges::lower_bound(tokens, stretch.heading.start, {}, &Token::start);
  if (at == tokens.end() || at->start >= stretch.heading.end) return false;
  const auto match =
      document.lexicon().heading_phrases().longest(document.keys(), static_cast<std::size_t>(at - tokens.begin()));
  const auto end = at + match.length;
  if (match.length == 0 || (end - 1)->end < stretch.heading.end) return false;  // "Examination of the left knee"
  const Heading& heading = document.lexicon().heading(match.value);
  return heading.level == Heading::Level::section && heading.section == SectionKind::exam;
}

}  // namespace

void Facts::begin(const Document& document) {
  document_ = &document;
  sentences_.clear();
  named_.clear();
  slips_.clear();
  exam_.clear();
  exams_ = 0;
  in_exam_ = false;
}

void Facts::open(const Stretch& stretch, bool exam) {
  if (exam && (!in_exam_ || begins_exam(*document_, stretch))) ++exams_;
  in_exam_ = exam;
  if (!exam) return;
  name_label(stretch, named_);
  exam_.push_back(document_->span(stretch.first, stretch.last));
}

void Facts::read(const Sentence& sentence, std::uint32_t number, const SentenceParts& parts, const Scope& standing,
                 Span heading) {
  sentences_.push_back({sentence, number, exams_});
  name_places(*document_, parts, named_);
  find_slips(*document_, parts, standing, heading, slips_);
}

void Facts::hand_over(const std::vector<Statement>& statements, std::vector<Sentence>& sentences, SentenceParts& parts,
                      Ledger& ledger) {
  find_remarks(*document_, sentences_, statements, ledger.remarks);
  find_assessed(*document_, sentences, parts, ledger.named_in_assessment);
  find_joint_states(*document_, sentences, parts, ledger.joint_states);
  ledger.named_in_exam = named_;
  ledger.side_slips = slips_;
  ledger.exam = exam_;
}

}  // namespace jointledger
