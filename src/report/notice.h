// What every audit says about itself, in whatever format.
#pragma once

#include <string_view>

namespace jointledger {

inline constexpr std::string_view kNotice =
    "This audits documentation, not care, and makes no diagnosis. A prompt has blanks for what the examiner found and "
    "never states a finding. Local policy and the judgement of a licensed clinician come first.";

}  // namespace jointledger
