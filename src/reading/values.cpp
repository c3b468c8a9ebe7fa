#include "reading/values.h"

#include <algorithm>
#include <cstdlib>

namespace jointledger {
namespace {

// Figures are tenths of a grade (lexicon/measures.h).
constexpr int kOutOfTwo = 20;
constexpr int kOutOfFour = 40;

Outcome power(int tenths) { return tenths >= 50 ? Outcome::normal : Outcome::abnormal; }
Outcome reflex(int tenths) { return tenths >= 7 && tenths <= 24 ? Outcome::normal : Outcome::abnormal; }
Outcome pulse(int tenths) { return tenths >= 7 && tenths <= 34 ? Outcome::normal : Outcome::abnormal; }

Outcome turned_round(Outcome outcome) {
  if (outcome == Outcome::abnormal) return Outcome::normal;
  if (outcome == Outcome::normal) return Outcome::abnormal;
  return outcome;
}

bool is_motion(const Unit& unit) {
  return unit.kind == Unit::Kind::motion && unit.component == Component::range_of_motion;
}

std::optional<Outcome> number_value(const SentenceState& s, int number, const Unit& unit) {
  if (is_motion(unit) && number <= 360) return Outcome::stated;
  // "Strength 4": a number behind the word itself may as well count something else.
  const bool graded = unit.kind != Unit::Kind::component || s.context.component == Component::strength;
  if (unit.component == Component::strength && number <= 5 && graded) return power(number * 10);
  if (unit.component == Component::reflexes && number <= 4) return reflex(number * 10);
  return std::nullopt;
}

std::optional<Outcome> plus_grade_value(const Figure& f, Component component) {
  if (component == Component::reflexes) return std::max(reflex(f.first), reflex(f.second));
  if (component == Component::perfusion) return pulse(f.first);
  if (component == Component::strength) return power(f.first);
  return std::nullopt;
}

ValueReading right_and_left(Outcome right, Outcome left) { return {std::max(right, left), std::pair(right, left)}; }

ValueReading pair_value(const Figure& f, Component component) {
  if (component == Component::reflexes) {
    if (f.second == kOutOfFour) return {reflex(f.first), std::nullopt};
    const bool unlike = std::abs(f.first - f.second) >= 5;
    return unlike ? right_and_left(Outcome::abnormal, Outcome::abnormal)
                  : right_and_left(reflex(f.first), reflex(f.second));
  }
  if (component == Component::perfusion) {
    if (f.second == kOutOfFour || f.second == kOutOfTwo) return {pulse(f.first), std::nullopt};
    return right_and_left(pulse(f.first), pulse(f.second));
  }
  if (component == Component::strength) return right_and_left(power(f.first), power(f.second));
  return {};
}

ValueReading figure_value(const Figure& f, const Unit& unit) {
  const bool degrees_count = unit.component == Component::range_of_motion;
  switch (f.kind) {
    case FigureKind::grade:
      if (unit.component == Component::strength) return {power(f.first), std::nullopt};
      return {};
    case FigureKind::plus_grade:
      return {plus_grade_value(f, unit.component), std::nullopt};
    case FigureKind::pair:
      return pair_value(f, unit.component);
    case FigureKind::ratio:
      if (is_motion(unit) && f.first <= 180 && f.second <= 180) return right_and_left(Outcome::stated, Outcome::stated);
      return {};
    case FigureKind::range: {
      const bool grades = f.second == 5 && f.first >= 0 && f.first <= 5;  // "4-5 strength"
      if (unit.component == Component::strength && grades) return {power(f.first * 10), std::nullopt};
      if (degrees_count) return {Outcome::stated, std::nullopt};
      return {};
    }
    case FigureKind::degrees:
      if (degrees_count) return {Outcome::stated, std::nullopt};
      return {};
    case FigureKind::skip:
      return {};
  }
  return {};
}

// What a judgement says before any denial; `firm`: a denial does not turn it round.
std::optional<Outcome> cue_value(Cue cue, const Unit& unit, bool& firm) {
  const Component component = unit.component;
  const bool flow_or_reflex = component == Component::perfusion || component == Component::reflexes;
  switch (cue) {
    case Cue::normal:
    case Cue::good:
    case Cue::symmetric:
    case Cue::equal:
    case Cue::stable:
    case Cue::strong:
      return Outcome::normal;
    case Cue::weak:
    case Cue::bad:
      return Outcome::abnormal;
    case Cue::present:
      if (unit.kind == Unit::Kind::test) return Outcome::abnormal;
      if (flow_or_reflex || component == Component::sensation) return Outcome::normal;
      return std::nullopt;
    case Cue::brisk:
      if (component == Component::reflexes) return Outcome::abnormal;
      if (component == Component::perfusion) return Outcome::normal;
      return std::nullopt;
    case Cue::positive:
      return flow_or_reflex ? Outcome::normal : Outcome::abnormal;
    case Cue::negative:
      firm = true;
      return Outcome::normal;
    case Cue::absent:
      firm = true;
      return unit.kind == Unit::Kind::test ? Outcome::normal : Outcome::abnormal;
    case Cue::equivocal:
    case Cue::tested:
      return Outcome::stated;
    default:
      return std::nullopt;
  }
}

std::optional<Motion> first_of(MotionSet motions) {
  for (std::size_t m = 0; m < kMotionCount; ++m) {
    if (motions.contains(static_cast<Motion>(m))) return static_cast<Motion>(m);
  }
  return std::nullopt;
}

void measure_degrees(Unit& unit, const Item& item, Span words) {
  const bool number = item.kind == ItemKind::number;
  const bool range = is_figure(item, FigureKind::range);
  const bool ratio = is_figure(item, FigureKind::ratio);
  if (!number && !range && !ratio && !is_figure(item, FigureKind::degrees)) return;
  Degrees degrees;
  degrees.motion = first_of(unit.motions);
  degrees.evidence = words;
  degrees.to = item.figure.second;
  if (range) degrees.from = item.figure.first;
  if (ratio) {
    degrees.side = Side::right;
    degrees.to = item.figure.first;
    unit.degrees.push_back(degrees);
    degrees.side = Side::left;
    degrees.to = item.figure.second;
  }
  unit.degrees.push_back(degrees);
}

void measure_grade(Unit& unit, const Item& item, Span words) {
  const bool number = item.kind == ItemKind::number;
  const bool pair = is_figure(item, FigureKind::pair);
  if (!number && !pair && !is_figure(item, FigureKind::grade) && !is_figure(item, FigureKind::plus_grade)) return;
  Grade grade;
  grade.evidence = words;
  grade.scale = unit.component == Component::strength ? 5 : 4;
  grade.tenths = number ? item.figure.first * 10 : item.figure.first;
  if (pair) grade.side = Side::right;
  unit.grades.push_back(grade);
  if (!pair) return;
  grade.side = Side::left;
  grade.tenths = item.figure.second;
  unit.grades.push_back(grade);
}

}  // namespace

ValueReading value_of(const SentenceState& s, Index i, const Unit& unit) {
  const Item& item = s.items[i];
  switch (item.kind) {
    case ItemKind::number:
      return {number_value(s, item.figure.first, unit), std::nullopt};
    case ItemKind::figure:
      return figure_value(item.figure, unit);
    case ItemKind::minus:
      return {Outcome::normal, std::nullopt};
    case ItemKind::plus:
      return {is_turned_round(s, i) ? Outcome::normal : Outcome::abnormal, std::nullopt};
    default:
      break;
  }
  bool firm = false;
  std::optional<Outcome> outcome = cue_value(item.meaning->cue, unit, firm);
  if (outcome && !firm && is_turned_round(s, i)) {
    if (item.is(Cue::tested)) return {};  // "not tested" is no result
    outcome = turned_round(*outcome);
  }
  return {outcome, std::nullopt};
}

void put_value(SentenceState& s, Unit& unit, Index i) {
  const ValueReading reading = value_of(s, i, unit);
  if (reading.outcome) raise(unit, *reading.outcome);
  const Span words = words_of(s, i, i + 1);
  unit.words.push_back(words);
  if (unit.component == Component::range_of_motion) {
    measure_degrees(unit, s.items[i], words);
  } else {
    measure_grade(unit, s.items[i], words);
  }
  if (reading.sides && reading.sides->first != reading.sides->second) {
    s.notes.unlike_pairs.push_back({words, reading.sides->first, reading.sides->second});
  }
}

}  // namespace jointledger
