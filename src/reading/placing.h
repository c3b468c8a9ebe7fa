// Bringing the two sides of a sentence together: what is said, and of which region and side.
#pragma once

#include <cstdint>

#include "reading/clause.h"
#include "reading/topic.h"

namespace jointledger {

/// Turns the parts of one sentence into statements, appended to `topic.said`, and moves the topic on.
void place_units(const Document& document, const SentenceParts& parts, std::uint32_t sentence, Topic& topic);

}  // namespace jointledger
