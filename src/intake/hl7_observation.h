// The text of OBX segments of HL7 version 2: values of type TX, FT, ST and ED (HL7 v2.5.1, section 7.4.2).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "intake/hl7_message.h"

namespace jointledger {

/// Replaces `text` with that of the OBX segments among `segments`, a line for every value and every repetition of one.
/// Where the values have different names (OBX-3), the values of a name stand under it, as under a heading.
///
/// Encapsulated data (ED) is text if its type says so: text/plain or text/html in base64, in hexadecimal or as it is.
/// Other types of value are passed over. `text` is empty where there is none.
///
/// Nothing if it went well, else why not. `charset` is the message's, which is in UTF-8 here.
std::optional<std::string> observation_text(std::span<const std::string_view> segments, const Hl7Delimiters& delimiters,
                                            std::string_view charset, std::string& text);

}  // namespace jointledger
