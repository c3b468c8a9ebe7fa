// From statements to remarks: those that can be held against each other.
#pragma once

#include <cstdint>
#include <vector>

#include "ledger/ledger.h"
#include "reading/document.h"
#include "reading/statement.h"

namespace jointledger {

/// A sentence of an exam, as statements count them.
struct ExamSentence {
  Sentence tokens;
  std::uint32_t number = 0;  ///< Statement::sentence
  std::uint32_t exam = 0;    ///< Remark::exam
};

/// Appends to `out` the statements that can be held against another one, each with what it speaks of. `sentences`
/// ascends by number.
void find_remarks(const Document& document, const std::vector<ExamSentence>& sentences,
                  const std::vector<Statement>& statements, std::vector<Remark>& out);

}  // namespace jointledger
