// Templates: "Strength: ____/5", "[ ] edema". What a blank asks for is not answered.
#include "reading/unit_steps.h"

namespace jointledger {
namespace {

// Where the phrase before the blank at `i` ends.
Index end_of_phrase_before(const SentenceState& s, Index i) {
  while (i > 0) {
    const Item& before = s.items[i - 1];
    if (!is_filler(before) && !before.has(kVerb) && before.kind != ItemKind::colon) break;
    --i;
  }
  return i;
}

// Where the phrase behind the blank at `i` begins.
Index start_of_phrase_behind(const SentenceState& s, Index i) {
  ++i;
  while (i < s.items.size() && (s.items[i].kind == ItemKind::slash || is_filler(s.items[i]))) ++i;
  return i;
}

}  // namespace

void strike_blanks(SentenceState& s) {
  for (Index i = 0; i < s.items.size(); ++i) {
    if (s.items[i].kind != ItemKind::blank) continue;
    const Index before = end_of_phrase_before(s, i);
    const Index behind = start_of_phrase_behind(s, i);
    const bool box = s.document.text(s.items[i].first) == "[";  // a box to tick may as well stand before its phrase
    std::erase_if(s.parts.units,
                  [&](const Unit& unit) { return unit.last == before || (box && unit.first == behind); });
    // "____/5": the five is printed.
    const bool printed = behind < s.items.size() &&
                         (s.items[behind].kind == ItemKind::number || s.items[behind].kind == ItemKind::figure);
    if (printed) s.parts.consumed[behind] = 1;
  }
}

}  // namespace jointledger
