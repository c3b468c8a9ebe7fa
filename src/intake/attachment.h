// The text of an attachment: bytes of some media type and character set, to UTF-8 text.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace jointledger {

enum class MediaKind : unsigned char { plain, html, rtf, other };

/// What a media type (RFC 2045, e.g. "text/plain; charset=iso-8859-1") says.
struct MediaType {
  MediaKind kind = MediaKind::other;
  std::string charset = "utf-8";  ///< as named; UTF-8 where it is not
};
MediaType media_type_of(std::string_view content_type);

/// Replaces `out` with the text. Nothing if it went well, else why not, e.g. "its attachment is RTF, which is not
/// read".
std::optional<std::string> attachment_text(std::string_view bytes, const MediaType& type, std::string& out);

/// The same of bytes in base64.
std::optional<std::string> base64_attachment_text(std::string_view base64, const MediaType& type, std::string& out);

}  // namespace jointledger
