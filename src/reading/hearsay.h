// What a sentence passes on: the patient's words, what a study showed.
#pragma once

#include <vector>

#include "reading/clause.h"

namespace jointledger {

/// Takes out of a sentence what is no finding at examination: each part between "but" and semicolons in which the
/// patient tells of it or imaging shows it. What examining brought on stays ("complains of pain when the knee is
/// pressed").
void strike_hearsay(const Context& context, std::vector<Item>& items);

}  // namespace jointledger
