#include "reading/items.h"

#include <cctype>
#include <charconv>

namespace jointledger {
namespace {

// A spinal level written as a letter and a number: L4, C5-6, T12. Returns its length in tokens, 0 if none.
std::uint32_t spinal_level(const Document& d, std::uint32_t i, std::uint32_t end, Region& region) {
  const std::string_view letter = d.text(i);
  if (letter.size() != 1 || i + 1 >= end) return 0;
  const Token& number = d.tokens()[i + 1];
  if (number.kind != TokenKind::number) return 0;
  const bool touches = !number.space_before;
  const char c = letter[0];
  if (!touches) return 0;
  int value = 0;
  const std::string_view digits = d.text(i + 1);
  const auto parsed = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (parsed.ptr != digits.data() + digits.size()) return 0;
  switch (c) {
    case 'C':
    case 'c':
      if (value < 1 || value > 8) return 0;
      region = Region::cervical_spine;
      break;
    case 'T':
    case 't':
      if (value < 1 || value > 12) return 0;
      region = Region::thoracic_spine;
      break;
    case 'L':
    case 'l':
      if (value < 1 || value > 5) return 0;
      region = Region::lumbar_spine;
      break;
    case 'S': {
      // S1 to S4 are heart sounds, too: a sacral level follows a lumbar one or is called a level.
      if (value < 1 || value > 5) return 0;
      bool spinal = i > 0 && (d.is(i - 1, "-") || d.is(i - 1, "/"));
      for (std::uint32_t j = i + 2; j < end && j < i + 5; ++j) {
        const std::string_view word = d.text(j);
        spinal = spinal || word.starts_with("dermatom") || word.starts_with("radic") || word.starts_with("level") ||
                 word.starts_with("nerve") || word.starts_with("root") || word.starts_with("distribution");
      }
      for (std::uint32_t j = i > 8 ? i - 8 : 0; j + 1 < i; ++j)
        spinal = spinal || (d.is(j, "L") && d.tokens()[j + 1].kind == TokenKind::number);
      if (!spinal) return 0;
      region = value == 1 ? Region::lumbar_spine : Region::pelvis;
      break;
    }
    default:
      return 0;
  }
  std::uint32_t length = 2;
  // "L4-L5", "L4-5", "C5/6", "L4 through S1"
  while (i + length + 1 < end && (d.is(i + length, "-") || d.is(i + length, "/") || d.is(i + length, "–"))) {
    if (d.tokens()[i + length + 1].kind == TokenKind::number) {
      length += 2;
    } else if (i + length + 2 < end && d.text(i + length + 1).size() == 1 &&
               d.tokens()[i + length + 2].kind == TokenKind::number) {
      length += 3;
    } else {
      break;
    }
  }
  return length;
}

bool is_space_or_end(const Document& d, std::uint32_t i, std::uint32_t end) {
  return i >= end || d.tokens()[i].space_before;
}

}  // namespace

bool is_value(const Item& item) {
  if (item.kind == ItemKind::figure) return item.figure.kind != FigureKind::skip;
  if (item.kind == ItemKind::plus || item.kind == ItemKind::minus) return true;
  if (!item.is(ConceptKind::cue)) return false;
  switch (item.meaning->cue) {
    case Cue::normal:
    case Cue::good:
    case Cue::present:
    case Cue::symmetric:
    case Cue::equal:
    case Cue::stable:
    case Cue::strong:
    case Cue::weak:
    case Cue::brisk:
    case Cue::bad:
    case Cue::positive:
    case Cue::negative:
    case Cue::absent:
    case Cue::equivocal:
    case Cue::tested:
      return true;
    default:
      return false;
  }
}

bool says_something(const Item& item) {
  return is_value(item) ||
         item.is_any(ConceptKind::finding, ConceptKind::motion, ConceptKind::motion_muscle, ConceptKind::component,
                     ConceptKind::test) ||
         item.is_any(Cue::no, Cue::not_, Cue::pain);
}

std::optional<Side> side_of(SideWord word) {
  switch (word) {
    case SideWord::left:
      return Side::left;
    case SideWord::right:
      return Side::right;
    case SideWord::both:
      return Side::both;
    case SideWord::midline:
      return Side::midline;
    case SideWord::other:
    case SideWord::same:
    case SideWord::affected:
      return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Side> side_letter_at(const Document& d, std::uint32_t i) {
  const std::string_view text = d.text(i);
  if (text != "L" && text != "R") return std::nullopt;
  const Side side = text == "L" ? Side::left : Side::right;
  const auto n = static_cast<std::uint32_t>(d.tokens().size());
  const auto beside = [&](std::uint32_t at) {
    if (at >= n) return false;
    const auto match = d.lexicon().phrases().longest(d.keys(), at);
    if (match.length == 0) return false;
    switch (d.lexicon().meaning(match.value).kind) {
      case ConceptKind::region:
      case ConceptKind::part:
      case ConceptKind::muscle:
      case ConceptKind::artery:
      case ConceptKind::component:
      case ConceptKind::finding:
      case ConceptKind::test:
      case ConceptKind::motion:
      case ConceptKind::motion_muscle:
        return true;
      default:
        return false;
    }
  };
  if (i + 1 < n) {
    const Token& next = d.tokens()[i + 1];
    if (next.kind == TokenKind::number && !next.space_before) return std::nullopt;  // a level
    if (next.kind == TokenKind::number) return side;                                // "R 4/5"
    if (d.is(i + 1, ")") || d.is(i + 1, ":") || d.is(i + 1, ">") || d.is(i + 1, "<") || d.is(i + 1, "=")) return side;
    if (d.is(i + 1, ".") && i + 2 < n && beside(i + 2)) return side;
    if (beside(i + 1)) return side;
  }
  // "R L" side by side: the head of a table.
  if (i + 1 < n && (d.is(i + 1, "L") || d.is(i + 1, "R"))) return side;
  if (i > 0 && (d.is(i - 1, "L") || d.is(i - 1, "R"))) return side;
  if (i > 0 && (d.is(i - 1, ">") || d.is(i - 1, "<") || d.is(i - 1, "=") || d.is(i - 1, "("))) return side;
  if (i > 0 && d.tokens()[i - 1].kind == TokenKind::word) {
    const auto match = d.lexicon().phrases().longest(d.keys(), i - 1);
    if (match.length == 1 && d.lexicon().meaning(match.value).kind == ConceptKind::region) return side;
    if (match.length == 1 && (d.lexicon().meaning(match.value).grammar & kAt) != 0 && i + 1 >= n) return side;
  }
  return std::nullopt;
}

void itemize(const Document& d, const Sentence& sentence, std::vector<Item>& out) {
  out.clear();
  const std::uint32_t end = sentence.last;
  std::uint32_t i = sentence.first;
  const auto put = [&](ItemKind kind, std::uint32_t length) -> Item& {
    Item item;
    item.kind = kind;
    item.first = i;
    item.last = i + length;
    out.push_back(item);
    i += length;
    return out.back();
  };
  while (i < end) {
    const Token& token = d.tokens()[i];
    const std::string_view text = d.text(i);
    if (token.kind == TokenKind::line_break) {
      ++i;
      continue;
    }
    // Bracketed signs and signs that stand alone: (+), (-), "+ Homans".
    if (text == "(" && i + 2 < end && d.is(i + 2, ")") && (d.is(i + 1, "+") || d.is(i + 1, "-") || d.is(i + 1, "–"))) {
      put(d.is(i + 1, "+") ? ItemKind::plus : ItemKind::minus, 3);
      continue;
    }
    if (text[0] == '_') {
      put(ItemKind::blank, 1);
      continue;
    }
    if (text == "[") {
      std::uint32_t j = i + 1;
      bool choice = false;
      while (j < end && j < i + 8 && !d.is(j, "]")) choice = d.is(j++, "/") || choice;
      if (j < end && d.is(j, "]") && (choice || j == i + 1)) {
        put(ItemKind::blank, j - i + 1);
        continue;
      }
    }
    Region level = Region::spine;
    if (const std::uint32_t length = spinal_level(d, i, end, level)) {
      put(ItemKind::level, length).level = level;
      continue;
    }
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    // Figures begin at a digit, or at a sign that touches one; "trace/0" and "grade 4" at a word.
    const bool signed_number = (text == "-" || text == "+") && i + 1 < end &&
                               d.tokens()[i + 1].kind == TokenKind::number && !d.tokens()[i + 1].space_before &&
                               (token.space_before || i == sentence.first || d.is(i - 1, "(") || d.is(i - 1, "/"));
    const bool figure_word =
        d.keys()[i].word != 0 && (text == "grade" || text == "Grade" || text == "trace" || text == "Trace");
    if (token.kind == TokenKind::number || signed_number || figure_word) {
      const auto figure =
          d.lexicon().measures().read(d.note().substr(token.start, d.tokens()[end - 1].end - token.start));
      if (figure && figure->length > 0) {
        std::uint32_t last = i;
        while (last < end && d.tokens()[last].start < token.start + figure->length) ++last;
        if (last - i >= match.length) {
          put(ItemKind::figure, last - i).figure = *figure;
          continue;
        }
      }
      if (token.kind == TokenKind::number && match.length == 0) {
        int value = 0;
        const auto parsed = std::from_chars(text.data(), text.data() + text.size(), value);
        Item& item = put(parsed.ptr == text.data() + text.size() ? ItemKind::number : ItemKind::word, 1);
        item.figure.first = item.figure.second = value;
        continue;
      }
    }
    if (match.length > 0 && i + match.length <= end) {
      const Concept& meaning = d.lexicon().meaning(match.value);
      if (meaning.letter) {
        if (const auto side = side_letter_at(d, i)) {
          put(ItemKind::meaning, match.length).meaning = &meaning;
          continue;
        }
        put(ItemKind::word, match.length);
        continue;
      }
      put(ItemKind::meaning, match.length).meaning = &meaning;
      continue;
    }
    if (text == ",") {
      put(ItemKind::comma, 1);
    } else if (text == ";") {
      put(ItemKind::semicolon, 1);
    } else if (text == ":") {
      put(ItemKind::colon, 1);
    } else if (text == "(" || text == "[") {
      put(ItemKind::open, 1);
    } else if (text == ")" || text == "]") {
      put(ItemKind::close, 1);
    } else if (text == "/") {
      put(ItemKind::slash, 1);
    } else if (text == "+") {
      put(is_space_or_end(d, i, end) || i == sentence.first || is_space_or_end(d, i + 1, end) ? ItemKind::plus
                                                                                              : ItemKind::word,
          1);
    } else if (text == "-" || text == "–" || text == "—") {
      put(ItemKind::dash, 1);
    } else {
      put(ItemKind::word, 1);
    }
  }
  // "both flexion and extension", "are both 5/5": counts, and names no side.
  for (std::size_t k = 0; k + 1 < out.size(); ++k) {
    if (!out[k].is(ConceptKind::side) || out[k].last - out[k].first != 1) continue;
    const std::string_view text = d.text(out[k].first);
    if (text != "both" && text != "Both") continue;
    std::size_t next = k + 1;
    while (next < out.size() && out[next].has(kFiller)) ++next;
    if (next >= out.size()) continue;
    const Item& item = out[next];
    const bool counted = item.is(ConceptKind::motion) || item.is(ConceptKind::component) ||
                         item.is(ConceptKind::finding) || item.is(ConceptKind::test);
    const bool judged = k > 0 && out[k - 1].has(kVerb) && !item.places();
    if (counted || judged) out[k].kind = ItemKind::word;
  }
}

}  // namespace jointledger
