// The column term_modifiers of NOTE_NLP; omop_report.h says what is in it. Pure functions.
#pragma once

#include <string>

#include "ledger/ledger.h"
#include "report/passage.h"

namespace jointledger {

std::string modifiers_of(const Entry& entry, const CharacterIndex& characters);
std::string modifiers_of(const Complaint& complaint, const CharacterIndex& characters);

}  // namespace jointledger
