// base64 (RFC 4648), as attachments come in.
#pragma once

#include <string>
#include <string_view>

namespace jointledger {

/// Replaces `out` with what `text` stands for; white space in it is passed over. False if it is not base64.
bool from_base64(std::string_view text, std::string& out);

}  // namespace jointledger
