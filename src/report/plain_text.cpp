#include "report/plain_text.h"

#include <utf8proc.h>

#include <algorithm>

namespace jointledger {
namespace {

struct Character {
  std::size_t length = 1;  // in bytes
  utf8proc_int32_t code = 0xFFFD;
};

/// The character at the start of `text`, which is not empty.
Character first_of(std::string_view text) {
  Character c;
  const auto length = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                       static_cast<utf8proc_ssize_t>(text.size()), &c.code);
  if (length <= 0) return {};
  c.length = static_cast<std::size_t>(length);
  return c;
}

bool is_blank(utf8proc_int32_t code) {
  switch (utf8proc_category(code)) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
    case UTF8PROC_CATEGORY_ZS:
      return true;
    default:
      return false;
  }
}

}  // namespace

std::string on_one_line(std::string_view text) {
  std::string line;
  bool space = false;
  while (!text.empty()) {
    const Character c = first_of(text);
    if (is_blank(c.code)) {
      space = true;
    } else {
      if (space && !line.empty()) line.push_back(' ');
      space = false;
      line.append(text.substr(0, c.length));
    }
    text.remove_prefix(c.length);
  }
  return line;
}

std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    const Character c = first_of(text);
    width += static_cast<std::size_t>(std::max(0, utf8proc_charwidth(c.code)));
    text.remove_prefix(c.length);
  }
  return width;
}

std::string cut_to_width(std::string text, std::size_t columns) {
  constexpr std::string_view kCut = " ...";
  if (width_of(text) <= columns) return text;
  const std::size_t room = columns - std::min(columns, kCut.size());
  std::size_t width = 0;
  std::size_t end = 0;
  while (end < text.size()) {
    const Character c = first_of(std::string_view(text).substr(end));
    width += static_cast<std::size_t>(std::max(0, utf8proc_charwidth(c.code)));
    if (width > room) break;
    end += c.length;
  }
  // Not in the middle of a word, unless the word fills most of the room.
  if (const std::size_t space = text.rfind(' ', end); space != std::string::npos && space > end / 2) end = space;
  text.resize(end);
  return text.append(kCut);
}

void append_wrapped(std::string_view text, std::string_view first, std::string_view others, std::string& out) {
  out.append(first);
  std::size_t column = width_of(first);
  bool at_start = true;
  while (!text.empty()) {
    const std::size_t length = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, length);
    const std::size_t width = width_of(word);
    if (!at_start && column + 1 + width > kLineWidth) {
      out.append("\n").append(others);
      column = width_of(others);
      at_start = true;
    }
    if (!at_start) {
      out.push_back(' ');
      ++column;
    }
    out.append(word);
    column += width;
    at_start = false;
    text.remove_prefix(std::min(length + 1, text.size()));
  }
  out.push_back('\n');
}

}  // namespace jointledger
