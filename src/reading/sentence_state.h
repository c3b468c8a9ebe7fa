// The working state of one sentence while its units are found, and what the steps of find_units() ask of it.
//
// Private to those steps; clause.h is the door.
#pragma once

#include <optional>
#include <vector>

#include "reading/clause.h"
#include "reading/talk.h"

namespace jointledger {

/// Everything the steps of find_units() work on. `items` and `notes` are those of `parts`.
struct SentenceState {
  const Document& document;
  const Context& context;
  SentenceParts& parts;
  const std::vector<Item>& items;
  UnitNotes& notes;
  Talk talk;
};

/// The words of items [first, last); there is at least one.
inline Span words_of(const SentenceState& s, Index first, Index last) {
  return s.document.span(s.items[first].first, s.items[last - 1].last);
}

/// Whether items `a` and `b` stand in one clause.
inline bool same_clause(const SentenceState& s, Index a, Index b) { return s.parts.clause[a] == s.parts.clause[b]; }

/// Adds item `i` to what supports the unit.
inline void add_evidence(const SentenceState& s, Unit& unit, Index i) { unit.words.push_back(words_of(s, i, i + 1)); }

/// Adds a unit made of items [first, last), which no other unit may take any more. The reference holds until the next
/// unit is added.
Unit& add_unit(SentenceState& s, Unit::Kind kind, Component component, const Concept* meaning, Index first, Index last);

/// Whether the unit needs a value for an answer; findings bring their own.
bool takes_value(const Unit& unit);

/// Gives the unit an outcome, unless it has a stronger one (abnormal, normal, stated, not done).
void raise(Unit& unit, Outcome outcome);

/// Whether a denial turns round the value of item `i`: "not normal".
bool is_turned_round(const SentenceState& s, Index i);

/// Whether nothing stands in items [a, b) that would part a subject from its judgement.
bool adjacent(const SentenceState& s, Index a, Index b);

/// Whether only list separators, places, sides and small words stand in items [a, b). `with_values`: prepositions and
/// values that a unit has taken may stand there, too.
bool listed(const SentenceState& s, Index a, Index b, bool with_values);

enum class Pick { first, last };

/// The first or last side named in items [a, b): left, right or both; nothing if there is none.
std::optional<Side> side_between(const SentenceState& s, Index a, Index b, Pick pick);

}  // namespace jointledger
