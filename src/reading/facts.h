// Gathers, while a note is read, what the checks of the note against itself look at.
#pragma once

#include <vector>

#include "ledger/ledger.h"
#include "reading/clause.h"
#include "reading/document.h"
#include "reading/remarks.h"
#include "reading/statement.h"

namespace jointledger {

/// One for each reader, reused from note to note.
class Facts {
 public:
  void begin(const Document& document);

  /// A new stretch; `exam`: its text is read as exam text.
  void open(const Stretch& stretch, bool exam);

  /// A sentence of the stretch, cut into its parts; `number` as Statement counts them, `standing` and `heading` what is
  /// in force.
  void read(const Sentence& sentence, std::uint32_t number, const SentenceParts& parts, const Scope& standing,
            Span heading);

  /// Hands it all over. `sentences` and `parts` are scratch memory.
  void hand_over(const std::vector<Statement>& statements, std::vector<Sentence>& sentences, SentenceParts& parts,
                 Ledger& ledger);

 private:
  const Document* document_ = nullptr;
  std::vector<ExamSentence> sentences_;
  std::vector<NamedPlace> named_;
  std::vector<SideSlip> slips_;
  std::vector<Span> exam_;
  std::uint32_t exams_ = 0;
  bool in_exam_ = false;
};

}  // namespace jointledger
