#include "text/tokens.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace jointledger {
namespace {

/// What one character is to the tokenizer.
enum class Shape : std::uint8_t {
  letter,
  mark,
  digit,
  space,
  line_break,
  punct,
  symbol,
  multibyte,  ///< only in the table: not ASCII, so ask Unicode
};

constexpr std::array<Shape, 256> make_byte_shapes() {
  std::array<Shape, 256> shapes{};
  for (std::size_t c = 0; c < shapes.size(); ++c) {
    if (c >= 0x80) {
      shapes[c] = Shape::multibyte;
    } else if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) {
      shapes[c] = Shape::letter;
    } else if (c >= '0' && c <= '9') {
      shapes[c] = Shape::digit;
    } else {
      shapes[c] = c <= ' ' || c == 0x7F ? Shape::space : Shape::punct;
    }
  }
  for (const char c : {'\n', '\r', '\v', '\f'}) shapes[static_cast<unsigned char>(c)] = Shape::line_break;
  for (const char c : {'$', '+', '<', '=', '>', '^', '`', '|', '~'}) {
    shapes[static_cast<unsigned char>(c)] = Shape::symbol;
  }
  return shapes;
}

constexpr std::array<Shape, 256> byte_shapes = make_byte_shapes();

Shape shape_of(utf8proc_int32_t code_point) {
  switch (utf8proc_category(code_point)) {
    case UTF8PROC_CATEGORY_LU:
    case UTF8PROC_CATEGORY_LL:
    case UTF8PROC_CATEGORY_LT:
    case UTF8PROC_CATEGORY_LM:
    case UTF8PROC_CATEGORY_LO:
      return Shape::letter;
    case UTF8PROC_CATEGORY_MN:
    case UTF8PROC_CATEGORY_MC:
    case UTF8PROC_CATEGORY_ME:
      return Shape::mark;
    case UTF8PROC_CATEGORY_ND:
      return Shape::digit;
    case UTF8PROC_CATEGORY_ZS:
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
      return Shape::space;
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
      return Shape::line_break;
    case UTF8PROC_CATEGORY_PC:
    case UTF8PROC_CATEGORY_PD:
    case UTF8PROC_CATEGORY_PS:
    case UTF8PROC_CATEGORY_PE:
    case UTF8PROC_CATEGORY_PI:
    case UTF8PROC_CATEGORY_PF:
    case UTF8PROC_CATEGORY_PO:
      return Shape::punct;
    default:  // symbols, but also fractions, superscripts, private use and what Unicode does not know yet
      return Shape::symbol;
  }
}

struct CodePoint {
  utf8proc_int32_t value;  ///< negative for a byte that is not UTF-8
  std::uint32_t size;      ///< bytes, at least 1
};

CodePoint decode(std::string_view text, std::size_t at) {
  utf8proc_int32_t value = -1;
  const auto size = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at,
                                     static_cast<utf8proc_ssize_t>(text.size() - at), &value);
  if (size <= 0) return {-1, 1};
  return {value, static_cast<std::uint32_t>(size)};
}

struct Glyph {
  Shape shape;
  std::uint32_t size;
};

Glyph multibyte_glyph(std::string_view text, std::size_t at) {
  const CodePoint code_point = decode(text, at);
  return {code_point.value < 0 ? Shape::symbol : shape_of(code_point.value), code_point.size};
}

/// The character at `at`, or a space past the end, which ends any token.
inline Glyph glyph_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {Shape::space, 0};
  const Shape shape = byte_shapes[static_cast<unsigned char>(text[at])];
  return shape == Shape::multibyte ? multibyte_glyph(text, at) : Glyph{shape, 1};
}

constexpr std::string_view curly_apostrophe = "\xE2\x80\x99";  // U+2019

/// Bytes of the apostrophe at `at`, or 0.
inline std::size_t apostrophe_size(std::string_view text, std::size_t at) {
  if (at >= text.size()) return 0;
  if (text[at] == '\'') return 1;
  return text.substr(at, curly_apostrophe.size()) == curly_apostrophe ? curly_apostrophe.size() : 0;
}

/// Where the word ends whose first character stands before `at`.
std::size_t end_of_word(std::string_view text, std::size_t at) {
  for (;;) {
    while (at < text.size() && byte_shapes[static_cast<unsigned char>(text[at])] == Shape::letter) ++at;
    if (const std::size_t apostrophe = apostrophe_size(text, at); apostrophe != 0) {
      const Glyph next = glyph_at(text, at + apostrophe);
      if (next.shape != Shape::letter) return at;
      at += apostrophe + next.size;
      continue;
    }
    const Glyph next = glyph_at(text, at);
    if (next.shape != Shape::letter && next.shape != Shape::mark) return at;
    at += next.size;
  }
}

std::size_t end_of_digits(std::string_view text, std::size_t at) {
  for (Glyph next = glyph_at(text, at); next.shape == Shape::digit; next = glyph_at(text, at)) at += next.size;
  return at;
}

/// Where the number ends whose first digit stands before `at`.
std::size_t end_of_number(std::string_view text, std::size_t at) {
  at = end_of_digits(text, at);
  if (at >= text.size() || text[at] != '.') return at;
  const std::size_t fraction_end = end_of_digits(text, at + 1);
  return fraction_end == at + 1 ? at : fraction_end;
}

/// Where the sign at [start, end) ends: lines to fill in (____) and rows of stars (***) are one sign.
std::size_t end_of_punct(std::string_view text, std::size_t start, std::size_t end) {
  const char sign = text[start];
  if (sign != '_' && sign != '*') return end;
  while (end < text.size() && text[end] == sign) ++end;
  return end;
}

}  // namespace

void tokenize(std::string_view utf8, std::vector<Token>& out) {
  out.clear();
  bool space_before = false;
  std::size_t at = 0;
  const auto add = [&](TokenKind kind, std::size_t end) {
    out.push_back({static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(end), kind, space_before});
    space_before = false;
    at = end;
  };

  while (at < utf8.size()) {
    const Glyph glyph = glyph_at(utf8, at);
    const std::size_t end = at + glyph.size;
    switch (glyph.shape) {
      case Shape::space:
        space_before = true;
        at = end;
        break;
      case Shape::letter:
        add(TokenKind::word, end_of_word(utf8, end));
        break;
      case Shape::mark:
        // Inside a word end_of_word() has taken it already.
        if (!out.empty() && !space_before) {
          out.back().end = static_cast<std::uint32_t>(end);
          at = end;
        } else {
          add(TokenKind::word, end_of_word(utf8, end));
        }
        break;
      case Shape::digit:
        add(TokenKind::number, end_of_number(utf8, end));
        break;
      case Shape::punct:
        add(TokenKind::punct, end_of_punct(utf8, at, end));
        break;
      case Shape::symbol:
        add(TokenKind::symbol, end);
        break;
      case Shape::line_break:
        add(TokenKind::line_break, utf8[at] == '\r' && end < utf8.size() && utf8[end] == '\n' ? end + 1 : end);
        space_before = true;
        break;
      case Shape::multibyte:  // glyph_at() never gives it
        break;
    }
  }
}

namespace {

inline char ascii_lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c; }

void append_utf8(utf8proc_int32_t code_point, std::string& out) {
  std::array<utf8proc_uint8_t, 4> bytes{};
  const auto size = utf8proc_encode_char(code_point, bytes.data());
  out.append(reinterpret_cast<const char*>(bytes.data()), static_cast<std::size_t>(size));
}

void append_folded(CodePoint code_point, std::string_view bytes, std::string& out) {
  constexpr auto options =
      static_cast<utf8proc_option_t>(UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK);
  std::array<utf8proc_int32_t, 32> parts{};  // the longest decomposition in Unicode has 18
  int boundary_class = UTF8PROC_BOUNDCLASS_START;
  const auto count = utf8proc_decompose_char(code_point.value, parts.data(), parts.size(), options, &boundary_class);
  const bool whole = count >= 0 && static_cast<std::size_t>(count) <= parts.size();
  const auto end = parts.begin() + (whole ? count : 0);
  // Unicode decomposes free-standing accents such as U+02DA into a space and a mark. A space is no name for a sign.
  if (!whole || std::find(parts.begin(), end, ' ') != end) {
    out.append(bytes);
    return;
  }
  std::for_each(parts.begin(), end, [&](utf8proc_int32_t part) { append_utf8(part, out); });
}

}  // namespace

void fold(std::string_view token_text, std::string& out) {
  out.resize(token_text.size());
  unsigned char seen = 0;
  for (std::size_t i = 0; i < token_text.size(); ++i) {
    seen |= static_cast<unsigned char>(token_text[i]);
    out[i] = ascii_lower(token_text[i]);
  }
  if (seen < 0x80) return;

  out.clear();
  for (std::size_t at = 0; at < token_text.size();) {
    const CodePoint code_point = decode(token_text, at);
    const std::string_view bytes = token_text.substr(at, code_point.size);
    if (bytes.size() == 1) {
      out.push_back(ascii_lower(bytes.front()));
    } else if (bytes == curly_apostrophe) {
      out.push_back('\'');
    } else {
      append_folded(code_point, bytes, out);
    }
    at += code_point.size;
  }
}

}  // namespace jointledger
