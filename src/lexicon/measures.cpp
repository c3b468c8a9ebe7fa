#include "lexicon/measures.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace jointledger {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Takes a word that dictation puts for a sign ("4 plus over 5") from the front of the text; 0 if there is none.
int take_spoken_sign(std::string_view& text) {
  std::size_t i = 0;
  while (i < text.size() && text[i] == ' ') ++i;
  std::size_t end = i;
  while (end < text.size() && std::isalpha(static_cast<unsigned char>(text[end])) != 0) ++end;
  const std::string_view word = text.substr(i, end - i);
  const bool plus = word == "plus" || word == "Plus" || word == "PLUS";
  const bool minus = word == "minus" || word == "Minus" || word == "MINUS";
  if (!plus && !minus) return 0;
  text.remove_prefix(end);
  return plus ? 3 : -3;
}

// One graded value: [+-]digits[.digits][+-]* or "trace", in tenths. Advances `text` past it.
std::optional<int> graded(std::string_view& text) {
  std::size_t i = 0;
  while (i < text.size() && !is_digit(text[i]) && text[i] != '+' && text[i] != '-' && text[i] != 't' && text[i] != 'T')
    ++i;
  text.remove_prefix(i);
  if (text.empty()) return std::nullopt;
  if (text[0] == 't' || text[0] == 'T') {
    std::size_t n = 0;
    while (n < text.size() && std::isalpha(static_cast<unsigned char>(text[n]))) ++n;
    text.remove_prefix(n);
    return 5;
  }
  int sign = 0;
  if (text[0] == '+' || text[0] == '-') {
    sign = text[0] == '+' ? 3 : -3;
    text.remove_prefix(1);
    while (!text.empty() && text[0] == ' ') text.remove_prefix(1);
  }
  if (text.empty() || !is_digit(text[0])) return std::nullopt;
  int value = 0;
  while (!text.empty() && is_digit(text[0])) {
    value = std::min(value * 10 + (text[0] - '0'), 100000);
    text.remove_prefix(1);
  }
  value *= 10;
  if (text.size() > 1 && text[0] == '.' && is_digit(text[1])) {
    value += text[1] - '0';
    text.remove_prefix(2);
  }
  while (text.size() > 1 && text[0] == ' ' && (text[1] == '+' || (text[1] == '-' && text.size() > 2 && text[2] == '/')))
    text.remove_prefix(1);
  if (!text.empty() && text[0] == '+') {
    sign = 3;
    while (!text.empty() && text[0] == '+') text.remove_prefix(1);
  } else if (!text.empty() && text[0] == '-' &&
             (text.size() == 1 || text[1] == '/' || text[1] == ' ' || text[1] == '-')) {
    // A minus that belongs to the value: "4-/5"; in "4-5/5" it joins two values.
    const bool closes = text.size() == 1 || text[1] != ' ' || text.size() < 3 || !is_digit(text[2]);
    if (closes) {
      sign = -3;
      text.remove_prefix(1);
    }
  } else if (const int spoken = take_spoken_sign(text)) {
    sign = spoken;
  }
  return value + sign;
}

// A whole number of degrees with its sign.
std::optional<int> whole(std::string_view& text) {
  std::size_t i = 0;
  while (i < text.size() && !is_digit(text[i])) ++i;
  if (i == text.size()) return std::nullopt;
  const bool negative = i > 0 && text[i - 1] == '-' && i == 1;
  int value = 0;
  while (i < text.size() && is_digit(text[i])) value = std::min(value * 10 + (text[i++] - '0'), 100000);
  text.remove_prefix(i);
  return negative ? -value : value;
}

}  // namespace

std::optional<std::string> Measures::add(FigureKind kind, std::string_view pattern) {
  re2::RE2::Options options;
  options.set_log_errors(false);
  auto expression = std::make_unique<re2::RE2>(re2::StringPiece(pattern.data(), pattern.size()), options);
  if (!expression->ok()) return expression->error();
  patterns_.push_back({kind, std::move(expression)});
  return std::nullopt;
}

std::optional<Figure> Measures::read(std::string_view text) const {
  // No figure is longer than this; it keeps a hostile run of digits from being scanned again at each of them.
  constexpr std::size_t kLongest = 48;
  const std::string_view near = text.substr(0, kLongest);
  const re2::StringPiece piece(near.data(), near.size());
  for (const Pattern& pattern : patterns_) {
    re2::StringPiece whole_match;
    if (!pattern.expression->Match(piece, 0, piece.size(), re2::RE2::ANCHOR_START, &whole_match, 1)) continue;
    std::string_view matched(whole_match.data(), whole_match.size());
    // Half a number is no figure.
    if (!matched.empty() && is_digit(matched.back()) && matched.size() < near.size() && is_digit(near[matched.size()]))
      continue;
    while (!matched.empty() && matched.back() == ' ') matched.remove_suffix(1);
    Figure figure{pattern.kind, static_cast<std::uint32_t>(matched.size()), 0, 0};
    std::string_view rest = matched;
    switch (pattern.kind) {
      case FigureKind::skip:
        break;
      case FigureKind::grade: {
        const auto first = graded(rest);
        if (!first) continue;
        figure.first = figure.second = *first;
        // "4-5/5", "4 to 5 out of 5": two values before the scale; the lower one counts.
        if (const std::size_t scale = matched.find_last_of('5'); scale != std::string_view::npos) {
          std::string_view middle = rest.substr(0, rest.size() - std::min(rest.size(), matched.size() - scale));
          if (std::ranges::any_of(middle, is_digit)) {
            while (!middle.empty() && !is_digit(middle[0])) middle.remove_prefix(1);
            if (const auto second = graded(middle)) {
              figure.second = std::max(*first, *second);
              figure.first = std::min(*first, *second);
            }
          }
        }
        break;
      }
      case FigureKind::ratio: {
        const auto first = whole(rest);
        const auto second = whole(rest);
        if (!first || !second) continue;
        figure.first = *first;
        figure.second = *second;
        break;
      }
      case FigureKind::plus_grade:
      case FigureKind::pair: {
        const auto first = graded(rest);
        if (!first) continue;
        figure.first = figure.second = *first;
        if (pattern.kind == FigureKind::pair) {
          if (!rest.empty() && rest[0] == '/') rest.remove_prefix(1);
          if (const auto second = graded(rest)) figure.second = *second;
        } else if (const std::size_t higher = rest.find_first_of("0123456789");
                   higher != std::string_view::npos &&
                   rest.substr(0, higher).find_first_not_of(" +-to") == std::string_view::npos) {
          rest.remove_prefix(higher);
          if (const auto second = graded(rest)) figure.second = std::max(*first, *second);  // "2 to 3+"
        }
        break;
      }
      case FigureKind::range: {
        const auto from = whole(rest);
        if (!from) continue;
        const bool negative = rest.find("--") != std::string_view::npos || rest.find("- -") != std::string_view::npos ||
                              rest.find("to -") != std::string_view::npos;
        const auto to = whole(rest);
        if (!to) continue;
        figure.first = *from;
        figure.second = negative ? -std::abs(*to) : std::abs(*to);
        break;
      }
      case FigureKind::degrees: {
        const auto value = whole(rest);
        if (!value) continue;
        figure.first = figure.second = *value;
        break;
      }
    }
    return figure;
  }
  return std::nullopt;
}

}  // namespace jointledger
