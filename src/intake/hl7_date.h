// The time stamps of HL7, versions 2 and 3.
#pragma once

#include <string>
#include <string_view>

namespace jointledger {

/// YYYY[MM[DD[HH[MM[SS[.S...]]]]]][+/-ZZZZ] in the form of ISO 8601, as exact as it is: "2031-03-04",
/// "2031-03-04T10:15+01:00". What is not of that form comes back as it is.
std::string iso_date(std::string_view stamp);

}  // namespace jointledger
