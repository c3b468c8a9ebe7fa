// Grades as people write them.
#pragma once

#include <string>

#include "ledger/ledger.h"

namespace jointledger {

/// The value without its scale: "4+", "5-", "3", "trace", "2.5".
std::string grade_text(const Grade& grade);

}  // namespace jointledger
