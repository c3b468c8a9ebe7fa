#include "report/passage.h"

#include <algorithm>

namespace jointledger {
namespace {

constexpr std::size_t kStep = 512;

bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

std::size_t characters_in(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, begins_character));
}

bool is_space(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }

std::uint32_t bytes_of(Span span) { return span.end - span.start; }

/// Where the character `count` characters after byte `at` begins, or the end.
std::size_t forward(std::string_view text, std::size_t at, std::size_t count) {
  for (; count > 0 && at < text.size(); --count) {
    do ++at;
    while (at < text.size() && !begins_character(text[at]));
  }
  return at;
}

/// Where the character `count` characters before byte `at` begins, or the start.
std::size_t backward(std::string_view text, std::size_t at, std::size_t count) {
  for (; count > 0 && at > 0; --count) {
    do --at;
    while (at > 0 && !begins_character(text[at]));
  }
  return at;
}

}  // namespace

CharacterIndex::CharacterIndex(std::string_view text) : text_(text) {
  marks_.reserve(text.size() / kStep + 1);
  std::size_t count = 0;
  for (std::size_t at = 0; at <= text.size(); at += kStep) {
    marks_.push_back(count);
    count += characters_in(text.substr(at, kStep));
  }
}

std::size_t CharacterIndex::before(std::size_t at) const {
  const std::size_t mark = at / kStep;
  return marks_[mark] + characters_in(text_.substr(mark * kStep, at - mark * kStep));
}

Span passage_of(const CharacterIndex& characters, std::span<const Span> evidence, std::size_t longest) {
  Span best = evidence.front();
  std::uint32_t most = 0;
  std::uint32_t held = 0;  // bytes of the pieces from first to last
  for (std::size_t first = 0, last = 0; last < evidence.size(); ++last) {
    held += bytes_of(evidence[last]);
    while (first < last && characters.in({evidence[first].start, evidence[last].end}) > longest) {
      held -= bytes_of(evidence[first++]);
    }
    if (held > most) {
      most = held;
      best = {evidence[first].start, evidence[last].end};
    }
  }
  if (characters.in(best) > longest) {
    best.end = static_cast<std::uint32_t>(forward(characters.text(), best.start, longest));
  }
  return best;
}

Span surroundings_of(const CharacterIndex& characters, Span passage, std::size_t longest) {
  const std::string_view text = characters.text();
  const std::size_t length = characters.in(passage);
  const std::size_t spare = longest - std::min(longest, length);
  std::size_t start = backward(text, passage.start, spare / 2);
  std::size_t end = forward(text, passage.end, spare - spare / 2);
  // A word that is cut is left out, as is white space at the ends.
  if (start > 0 && !is_space(text[start - 1])) {
    while (start < passage.start && !is_space(text[start])) ++start;
  }
  while (start < passage.start && is_space(text[start])) ++start;
  if (end < text.size() && !is_space(text[end])) {
    while (end > passage.end && !is_space(text[end - 1])) --end;
  }
  while (end > passage.end && is_space(text[end - 1])) --end;
  return {static_cast<std::uint32_t>(start), static_cast<std::uint32_t>(end)};
}

}  // namespace jointledger
