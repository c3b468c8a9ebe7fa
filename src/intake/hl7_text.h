// The text in a field of HL7 version 2: escape sequences and formatting commands (HL7 v2.5.1, sections 2.7 and 2.7.6).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "intake/hl7_message.h"

namespace jointledger {

/// Appends the text that a field, component or repetition stands for. `raw` is UTF-8.
///
/// Separators come out of \F\, \S\, \T\, \R\ and \E\; bytes of the character set `charset` out of \Xdd..\; line breaks
/// out of \.br\, \.sp\ and \.ce\, blanks out of \.sk\. Raw CR, and CR LF, are line breaks too. Highlighting, the other
/// commands of layout and sequences of local meaning (\Z..\) leave nothing. An escape character that starts none of
/// these stands for itself: senders leave it as it is in "L5\S1".
///
/// Nothing if it went well, else why not: hexadecimal data that is not of the character set, or a switch to another
/// set (\C..\, \M..\).
std::optional<std::string> append_hl7_text(std::string_view raw, const Hl7Delimiters& delimiters,
                                           std::string_view charset, std::string& out);

/// Appends bytes out of pairs of hexadecimal digits. False, with nothing appended, if they are none.
bool append_hex(std::string_view digits, std::string& out);

}  // namespace jointledger
