// How far "no" and "not" reach, and what "absent" and "none" answer.
#include <algorithm>

#include "reading/unit_steps.h"

namespace jointledger {
namespace {

/// A denial while it holds, and what stands right before the item in hand.
struct Denial {
  bool holds = false;     ///< "no": to the end of its list
  bool not_next = false;  ///< "not": for the next judgement or finding
  Index at = 0;           ///< where the word stands, once there was one
  Index clause = 0;       ///< where it holds
  Index denied = 0;       ///< units denied so far

  bool joined = false;  ///< "and", "or", "nor", a slash
  bool comma = false;
  bool affirmed = false;  ///< an amount: "mild"
  bool with = false;
  bool adjective = false;  ///< the unit before was one

  Index answered = 0;  ///< the last item that answered what stood before it: "absent", "none"

  bool any() const { return holds || not_next; }
  void forget_neighbours() { joined = comma = affirmed = with = false; }
};

bool is_thing(const Item& item) {
  return item.is_any(ConceptKind::test, ConceptKind::finding) || item.places() || item.is(Cue::pain);
}

// "Negative Homans" belongs to what follows; "Homans negative" answers what stands before.
bool negates_forward(const SentenceState& s, Index i) {
  const auto& items = s.items;
  Index next = i + 1;
  while (next < items.size() && (is_filler(items[next]) || items[next].is(ConceptKind::side) || items[next].has(kAt) ||
                                 items[next].has(kWith))) {
    ++next;
  }
  if (next >= items.size() || !is_thing(items[next])) return false;
  // A thing right before it, not separated, takes it instead.
  Index k = i;
  const auto is_small = [](const Item& item) {
    return is_filler(item) || item.has(kVerb) || item.is(Cue::testword) || item.is(ConceptKind::side) ||
           item.kind == ItemKind::colon || item.kind == ItemKind::dash;
  };
  while (k > 0 && is_small(items[k - 1])) --k;
  if (k == 0) return true;
  const Item& before = items[k - 1];
  if (items[i].kind == ItemKind::minus) return !before.is(ConceptKind::test);
  return !(same_clause(s, k - 1, i) && before.is_any(ConceptKind::test, ConceptKind::finding));
}

// Whether a verb after a denied list begins a new assertion: "no swelling and has tenderness".
bool verb_opens(const SentenceState& s, Index i) {
  for (Index j = i + 1; j < s.items.size() && j < i + 5 && same_clause(s, i, j); ++j) {
    const Item& item = s.items[j];
    if (item.is_any(Cue::no, Cue::not_)) return false;
    if (item.is(ConceptKind::finding) || item.is(Cue::pain)) return true;
    if (is_value(item)) return !item.is_any(Cue::present, Cue::tested);
    if (item.places()) return false;
  }
  return false;
}

// "absent", "none", "negative" after findings: those in its clause, back to the last one with its own answer.
void answer_absent(SentenceState& s, Denial& denial, Index i) {
  auto& units = s.parts.units;
  for (auto unit = units.rbegin(); unit != units.rend(); ++unit) {
    if (unit->first > i || unit->clause != s.parts.clause[i]) continue;
    if (unit->kind != Unit::Kind::finding || unit->first < denial.answered) break;
    if (unit->outcome && unit->outcome != Outcome::abnormal) continue;
    unit->outcome = Outcome::normal;
    add_evidence(s, *unit, i);
  }
  denial.answered = i;
}

// Words that open or end a denial, and separators. Returns whether the item was one.
bool steer(const SentenceState& s, Denial& denial, Index i) {
  const Item& item = s.items[i];
  const bool minus = item.kind == ItemKind::minus;
  if (item.is(Cue::no) && denial.not_next && denial.at + 1 == i) {
    denial.not_next = false;  // "not without swelling": there is some
  } else if (item.is(Cue::no) || ((item.is(Cue::negative) || minus) && negates_forward(s, i))) {
    denial.holds = true;
    denial.clause = s.parts.clause[i];
    denial.denied = 0;
    denial.at = i;
    denial.forget_neighbours();
  } else if (minus) {
    return true;
  } else if (item.is(Cue::not_)) {
    denial.not_next = true;
    denial.at = i;
  } else if (item.is_any(Cue::but, Cue::except) || item.kind == ItemKind::semicolon) {
    denial.holds = denial.not_next = false;
  } else if (item.kind == ItemKind::comma) {
    denial.comma = true;
    denial.joined = denial.affirmed = false;
  } else if (item.has(kOr) || item.has(kAnd) || item.kind == ItemKind::slash) {
    denial.joined = true;
    denial.affirmed = false;
  } else if (item.has(kAffirms)) {
    denial.affirmed = true;
  } else {
    return false;
  }
  return true;
}

// Whether a finding after the first denied one is told for itself: "no effusion, mild swelling".
bool told_for_itself(const Denial& denial, const Unit& unit) {
  const bool adjective = unit.meaning != nullptr && unit.meaning->adjective;
  const bool parted = denial.comma && !denial.joined;
  if (denial.affirmed && (parted || denial.with)) return true;
  if (adjective && parted && !denial.adjective) return true;
  return denial.with && !denial.joined && !denial.comma;
}

void answer_finding(const SentenceState& s, Denial& denial, Unit& unit, bool& denied) {
  const Index i = unit.first;
  const bool has_sense = unit.meaning != nullptr && unit.meaning->kind == ConceptKind::finding;
  switch (has_sense ? unit.meaning->sense : Sense::bad) {
    case Sense::good: {
      // A list's denial does not reach good news: "no effusion, nontender".
      const bool direct =
          (denied && denial.denied == 0 && i <= denial.at + 2) || (denial.not_next && i <= denial.at + 3);
      unit.outcome = direct ? Outcome::abnormal : Outcome::normal;
      if (!direct) denied = denial.holds = false;
      break;
    }
    case Sense::not_done:
      unit.outcome = denied || denial.not_next ? Outcome::normal : Outcome::not_done;
      break;
    case Sense::stated:
      unit.outcome = Outcome::stated;
      break;
    case Sense::bad: {
      const bool negated = denied || (denial.not_next && i <= denial.at + 4);
      unit.outcome = negated ? Outcome::normal : Outcome::abnormal;
      unit.coordinated = negated && denial.denied > 0;
      if (!negated) break;
      add_evidence(s, unit, denial.at);
      if (denial.not_next) {
        denial.holds = true;  // "not swollen or tender"
        denial.clause = s.parts.clause[i];
      }
      break;
    }
  }
}

void reach_finding(const SentenceState& s, Denial& denial, Unit& unit) {
  bool denied = denial.holds;
  if (denied && denial.denied > 0 && told_for_itself(denial, unit)) denied = denial.holds = false;
  if (unit.kind == Unit::Kind::finding) answer_finding(s, denial, unit, denied);
  if (denied || denial.not_next) ++denial.denied;
  denial.adjective = unit.meaning != nullptr && unit.meaning->adjective;
  denial.not_next = false;
}

// "No reflexes": whether that is good or bad is decided by what else is said of them (sharing.cpp). A manoeuvre that is
// denied is negative.
void reach_component(SentenceState& s, Denial& denial, Unit& unit) {
  if (!denial.any()) return;
  ++denial.denied;
  if (unit.kind == Unit::Kind::test) {
    unit.outcome = Outcome::normal;
    add_evidence(s, unit, denial.at);
  } else if (denial.holds || unit.first <= denial.at + 3) {
    s.notes.denied.push_back(static_cast<Index>(&unit - s.parts.units.data()));
  }
}

void reach_unit(SentenceState& s, Denial& denial, Unit& unit) {
  const bool finding = unit.kind == Unit::Kind::finding || unit.kind == Unit::Kind::elsewhere;
  if (finding) {
    reach_finding(s, denial, unit);
  } else {
    reach_component(s, denial, unit);
  }
  denial.forget_neighbours();
  // The second component of one phrase has the answer of the first.
  Unit* const twin = &unit + 1;
  if (twin < s.parts.units.data() + s.parts.units.size() && twin->first == unit.first) twin->outcome = unit.outcome;
}

void reach_value(SentenceState& s, Denial& denial, Index i) {
  const Item& item = s.items[i];
  const bool good = item.is_any(Cue::good, Cue::normal, Cue::positive, Cue::brisk) || item.kind == ItemKind::figure ||
                    item.kind == ItemKind::plus;
  const bool parted = denial.comma && !denial.joined;
  if (denial.denied > 0 && (good || (item.is(Cue::bad) && parted))) denial.holds = false;
  if (denial.any()) s.notes.turned_round.push_back(i);
  if (!item.is(Cue::tested)) denial.not_next = false;
}

// The unit that begins at item `i`, and is the first to take it; null if there is none.
Unit* unit_beginning(SentenceParts& parts, Index i) {
  const auto unit = std::ranges::find_if(parts.units, [&](const Unit& u) { return i >= u.first && i < u.last; });
  return unit != parts.units.end() && unit->first == i ? &*unit : nullptr;
}

}  // namespace

void apply_denials(SentenceState& s) {
  Denial denial;
  for (Index i = 0; i < s.items.size(); ++i) {
    const Item& item = s.items[i];
    if (s.parts.clause[i] != denial.clause) denial.holds = false;
    if (steer(s, denial, i)) continue;
    if (item.has(kWith) && !item.has(kAt)) denial.with = true;
    if (denial.holds && denial.denied > 0 && item.has(kVerb) && verb_opens(s, i)) denial.holds = false;
    if (Unit* unit = unit_beginning(s.parts, i)) {
      reach_unit(s, denial, *unit);
      i = unit->last - 1;
      continue;
    }
    if (is_value(item)) reach_value(s, denial, i);
    if (item.is_any(Cue::absent, Cue::none)) answer_absent(s, denial, i);
    if (item.is(Cue::negative) && !negates_forward(s, i)) answer_absent(s, denial, i);
    if (item.is(Cue::pain) && denial.any()) s.notes.turned_round.push_back(i);
    // Unknown words keep a denial alive for a few steps only.
    const bool unknown = item.kind == ItemKind::word && s.document.tokens()[item.first].kind == TokenKind::word;
    if (unknown && denial.denied == 0 && i > denial.at + 8) denial.holds = false;
  }
}

}  // namespace jointledger
