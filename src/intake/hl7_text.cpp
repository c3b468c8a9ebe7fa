#include "intake/hl7_text.h"

#include <algorithm>
#include <charconv>

#include "intake/ascii.h"
#include "intake/charset.h"

namespace jointledger {
namespace {

/// A command may move this far and no further: text is not to be grown by a few bytes.
constexpr unsigned kMostSteps = 100;

/// How often a command is to be done, from what follows its name ("3", "+3"); once if nothing does. Nothing if
/// that is no number.
std::optional<unsigned> steps_in(std::string_view digits) {
  if (digits.starts_with('+')) digits.remove_prefix(1);
  if (digits.empty()) return 1;
  unsigned steps = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), steps);
  if (end != digits.data() + digits.size() || error == std::errc::invalid_argument) return std::nullopt;
  return error == std::errc() ? std::min(steps, kMostSteps) : kMostSteps;
}

/// Does a formatting command, given without its point. False if it is none.
bool format(std::string_view command, std::string& out) {
  const std::string name = lowered(command.substr(0, 2));
  const auto steps = steps_in(command.substr(std::min<std::size_t>(2, command.size())));
  if (!steps) return name == "in" || name == "ti";  // may be negative
  if (name == "br" || name == "ce") {
    out.push_back('\n');
  } else if (name == "sp") {
    out.append(*steps, '\n');
  } else if (name == "sk") {
    out.append(*steps, ' ');
  } else {
    return name == "in" || name == "ti" || name == "fi" || name == "nf";
  }
  return true;
}

void append_with_line_breaks(std::string_view text, std::string& out) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    out.push_back(text[i] == '\r' ? '\n' : text[i]);
  }
}

/// A character set is not UTF-8 only within these bytes, so they are put together over sequences that follow each
/// other.
std::optional<std::string> append_bytes(std::string& bytes, std::string_view charset, std::string& out) {
  if (bytes.empty()) return std::nullopt;
  std::string text;
  if (auto reason = to_utf8(bytes, charset, text)) return "an escape sequence of its text is " + *reason;
  append_with_line_breaks(text, out);
  bytes.clear();
  return std::nullopt;
}

/// The character that one of the letters stands for; 0 for none.
char separator_of(char letter, const Hl7Delimiters& delimiters) {
  switch (letter) {
    case 'F':
      return delimiters.field;
    case 'S':
      return delimiters.component;
    case 'T':
      return delimiters.subcomponent;
    case 'R':
      return delimiters.repetition;
    case 'E':
      return delimiters.escape;
    default:
      return '\0';
  }
}

bool is_hex(std::string_view text) {
  return text.find_first_not_of("0123456789ABCDEFabcdef") == std::string_view::npos;
}

/// Whether a sequence, given without its escape characters, switches to another character set.
bool is_switch(std::string_view sequence) {
  return (sequence.front() == 'C' || sequence.front() == 'M') && (sequence.size() == 5 || sequence.size() == 7) &&
         is_hex(sequence.substr(1));
}

/// Appends what a sequence stands for. False if it is none.
bool append_sequence(std::string_view sequence, const Hl7Delimiters& delimiters, std::string& out) {
  if (sequence.front() == '.') return format(sequence.substr(1), out);
  if (sequence.front() == 'Z') return is_hex(sequence.substr(1));
  if (sequence == "H" || sequence == "N") return true;  // highlighting on and off
  const char separator = sequence.size() == 1 ? separator_of(sequence.front(), delimiters) : '\0';
  if (separator != '\0') out.push_back(separator);
  return separator != '\0';
}

}  // namespace

bool append_hex(std::string_view digits, std::string& out) {
  if (digits.size() % 2 != 0) return false;
  const std::size_t before = out.size();
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    unsigned byte = 0;
    const char* const end = digits.data() + i + 2;
    if (std::from_chars(digits.data() + i, end, byte, 16).ptr != end) {
      out.resize(before);
      return false;
    }
    out.push_back(static_cast<char>(byte));
  }
  return true;
}

std::optional<std::string> append_hl7_text(std::string_view raw, const Hl7Delimiters& delimiters,
                                           std::string_view charset, std::string& out) {
  std::string bytes;  // of hexadecimal data that is not yet appended
  while (!raw.empty()) {
    const std::size_t start = std::min(delimiters.escape == '\0' ? raw.npos : raw.find(delimiters.escape), raw.size());
    const std::size_t end = start > 0 ? raw.npos : raw.find(delimiters.escape, 1);
    const std::string_view sequence = end == raw.npos ? std::string_view() : raw.substr(1, end - 1);
    if (sequence.size() > 1 && sequence.front() == 'X' && append_hex(sequence.substr(1), bytes)) {
      raw.remove_prefix(end + 1);
      continue;
    }
    if (auto reason = append_bytes(bytes, charset, out)) return reason;
    if (!sequence.empty() && is_switch(sequence))
      return "its text switches to another character set, which is not read";
    if (start > 0) {
      append_with_line_breaks(raw.substr(0, start), out);
      raw.remove_prefix(start);
    } else if (!sequence.empty() && append_sequence(sequence, delimiters, out)) {
      raw.remove_prefix(end + 1);
    } else {
      out.push_back(delimiters.escape);
      raw.remove_prefix(1);
    }
  }
  return append_bytes(bytes, charset, out);
}

}  // namespace jointledger
