#include "intake/attachment.h"

#include <utility>

#include "intake/ascii.h"
#include "intake/base64.h"
#include "intake/charset.h"
#include "intake/markup_text.h"

namespace jointledger {
namespace {

constexpr std::string_view kAround = " \t\"";

MediaKind kind_of(std::string_view type) {
  if (type == "text/plain") return MediaKind::plain;
  if (type == "text/html" || type == "application/xhtml+xml") return MediaKind::html;
  if (type == "text/rtf" || type == "application/rtf" || type == "application/x-rtf") return MediaKind::rtf;
  return MediaKind::other;
}

}  // namespace

MediaType media_type_of(std::string_view content_type) {
  MediaType type;
  const std::string text = lowered(content_type);
  std::string_view rest = text;
  type.kind = kind_of(trimmed(rest.substr(0, rest.find(';')), kAround));
  while (rest.find(';') != std::string_view::npos) {
    rest.remove_prefix(rest.find(';') + 1);
    const std::string_view parameter = trimmed(rest.substr(0, rest.find(';')), kAround);
    if (parameter.starts_with("charset=")) type.charset = trimmed(parameter.substr(8), kAround);
  }
  return type;
}

std::optional<std::string> attachment_text(std::string_view bytes, const MediaType& type, std::string& out) {
  // Some sources call RTF plain text.
  if (type.kind == MediaKind::rtf || bytes.starts_with("{\\rtf")) {
    return "its attachment is RTF, which is not read; text/plain and text/html are";
  }
  if (type.kind == MediaKind::other) return "its attachment is neither text/plain nor text/html";
  if (auto reason = to_utf8(bytes, type.charset, out)) return reason;
  if (type.kind == MediaKind::html) {
    const std::string html = std::move(out);
    out.clear();
    return append_html_text(html, out);
  }
  return std::nullopt;
}

std::optional<std::string> base64_attachment_text(std::string_view base64, const MediaType& type, std::string& out) {
  std::string bytes;
  if (!from_base64(base64, bytes)) return "its attachment is not base64";
  return attachment_text(bytes, type, out);
}

}  // namespace jointledger
