// A sentence as a row of items: phrases of the lexicon, figures, separators, and words of no known meaning.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "lexicon/concepts.h"
#include "lexicon/measures.h"
#include "reading/document.h"

namespace jointledger {

enum class ItemKind : std::uint8_t {
  word,     ///< no known meaning
  meaning,  ///< a phrase of the lexicon: `concept` says which
  figure,   ///< a measure
  number,   ///< a plain whole number; its value is figure.first
  level,    ///< a spinal level: `level` says where
  comma,
  semicolon,
  colon,
  open,  ///< a bracket
  close,
  slash,
  plus,   ///< a sign that stands for "positive"
  minus,  ///< ... "negative"
  dash,
  blank,  ///< a template's place to fill in: "____", "[ ]", "[normal / abnormal]"
};

struct Item {
  ItemKind kind = ItemKind::word;
  const Concept* meaning = nullptr;
  std::uint32_t first = 0;  ///< tokens [first, last)
  std::uint32_t last = 0;
  Figure figure;
  Region level = Region::spine;

  bool is(ConceptKind k) const { return kind == ItemKind::meaning && meaning->kind == k; }
  bool is(Cue cue) const {
    return kind == ItemKind::meaning && meaning->kind == ConceptKind::cue && meaning->cue == cue;
  }
  bool has(GrammarRole role) const {
    return kind == ItemKind::meaning && meaning->kind == ConceptKind::grammar && (meaning->grammar & role) != 0;
  }
  /// Whether it is one of several kinds of phrase, or cues.
  template <class... Kind>
  bool is_any(Kind... kinds) const {
    return (is(kinds) || ...);
  }
  /// "the former", "the latter"
  bool refers() const { return has(kFormer) || has(kLatter); }
  bool places() const {
    return is_any(ConceptKind::region, ConceptKind::part, ConceptKind::muscle, ConceptKind::artery, ConceptKind::nerve);
  }
};

/// A small word that stands between the words that matter without parting them: articles, amounts.
inline bool is_filler(const Item& item) { return item.has(kFiller) || item.has(kAffirms); }

/// What stands between the members of a list: a comma, a slash, a dash, "and", "or".
inline bool joins(const Item& item) {
  return item.kind == ItemKind::comma || item.kind == ItemKind::slash || item.kind == ItemKind::dash ||
         item.has(kAnd) || item.has(kOr);
}

/// Whether it is an opening or closing bracket.
inline bool is_bracket(const Item& item) { return item.kind == ItemKind::open || item.kind == ItemKind::close; }

/// Whether it is a figure of the kind.
inline bool is_figure(const Item& item, FigureKind kind) {
  return item.kind == ItemKind::figure && item.figure.kind == kind;
}

/// Whether an item is a judgement, figure or sign that can give a component its result.
bool is_value(const Item& item);

/// Whether an item tells something of the exam: a value, a part of the exam, a finding, a denial.
bool says_something(const Item& item);

/// The side a word names by itself; nothing for other, same, affected.
std::optional<Side> side_of(SideWord word);

/// The side that a single capital L or R names at a token, judged by its neighbours: beside a place, a side, a grade,
/// in brackets, or before a colon; nothing otherwise.
std::optional<Side> side_letter_at(const Document& document, std::uint32_t token);

/// The items of a sentence. Replaces the contents of `out`.
void itemize(const Document& document, const Sentence& sentence, std::vector<Item>& out);

}  // namespace jointledger
