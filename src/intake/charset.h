// Text in the character sets of the world, to UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace jointledger {

/// Replaces `out` with `bytes` in UTF-8. `charset` is an IANA name in any case ("iso-8859-1", "windows-1252"); the C
/// library's iconv does the work. Nothing if it went well, else why not, without quoting the text.
std::optional<std::string> to_utf8(std::string_view bytes, std::string_view charset, std::string& out);

}  // namespace jointledger
