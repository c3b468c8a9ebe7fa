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
  bool places() const {
    return is(ConceptKind::region) || is(ConceptKind::part) || is(ConceptKind::muscle) || is(ConceptKind::artery) ||
           is(ConceptKind::nerve);
  }
};

/// The side a word names by itself; nothing for other, same, affected.
std::optional<Side> side_of(SideWord word);

/// The side that a single capital L or R names at a token, judged by its neighbours: beside a place, a side, a grade,
/// in brackets, or before a colon; nothing otherwise.
std::optional<Side> side_letter_at(const Document& document, std::uint32_t token);

/// The items of a sentence. Replaces the contents of `out`.
void itemize(const Document& document, const Sentence& sentence, std::vector<Item>& out);

}  // namespace jointledger
