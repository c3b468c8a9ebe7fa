#include <algorithm>
#include <limits>

#include "reading/clause.h"

namespace jointledger {
namespace {

using Index = std::uint32_t;
constexpr Index kNone = std::numeric_limits<Index>::max();

bool is_filler(const Item& item) { return item.has(kFiller) || item.has(kAffirms); }

bool joins(const Item& item) {
  return item.kind == ItemKind::comma || item.kind == ItemKind::slash || item.kind == ItemKind::dash ||
         item.has(kAnd) || item.has(kOr);
}

int rank(Outcome outcome) { return static_cast<int>(outcome); }

/// Works through the items of one sentence, clause by clause.
class UnitFinder {
 public:
  UnitFinder(const Document& document, const Context& context, SentenceParts& parts)
      : document_(document), context_(context), parts_(parts), items_(parts.items) {}

  /// Blanks of a template: what they ask for is not answered.
  void blanks() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (items_[i].kind != ItemKind::blank) continue;
      Index before = i;
      while (before > 0 && (is_filler(items_[before - 1]) || items_[before - 1].kind == ItemKind::colon ||
                            items_[before - 1].has(kVerb)))
        --before;
      Index after = i + 1;
      while (after < items_.size() && (items_[after].kind == ItemKind::slash || is_filler(items_[after]))) ++after;
      const bool box = document_.text(items_[i].first) == "[";
      std::erase_if(parts_.units, [&](const Unit& unit) {
        return (before > 0 && unit.last == before && !box) || (box && unit.first == after) ||
               (box && unit.last == before);
      });
      if (after < items_.size() && (items_[after].kind == ItemKind::number || items_[after].kind == ItemKind::figure))
        parts_.consumed[after] = 1;
    }
  }

  void run() {
    parts_.units.clear();
    parts_.consumed.assign(items_.size(), 0);
    look_around();
    collect();
    blanks();
    pains();
    deny();
    judge();
    share_judgements();
    exceptions();
    signs_with_results();
    doubts();
    deferrals();
    bare_values();
    drop_unjudged();
    remainders();
  }

 private:
  // "Otherwise 5/5", "the remainder of the exam is normal": of what was not named before.
  void remainders() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::rest)) continue;
      if (i + 1 < items_.size() &&
          (items_[i + 1].places() || (is_filler(items_[i + 1]) && i + 2 < items_.size() && items_[i + 2].places())))
        continue;  // "the rest of the foot"
      for (Unit& unit : parts_.units) {
        if (unit.clause == parts_.clause[i] && unit.first >= i) unit.after_rest = true;
        // "full strength in all other areas"
        const bool place_rest = i > 0 && (items_[i - 1].has(kAt) || is_filler(items_[i - 1]));
        if (place_rest && unit.last <= i && i - unit.last <= 3) unit.after_rest = true;
      }
    }
  }

  Span span(Index first, Index last) const { return document_.span(items_[first].first, items_[last - 1].last); }
  bool same_clause(Index a, Index b) const { return parts_.clause[a] == parts_.clause[b]; }

  bool has_component(Index clause, Component component) const {
    if (context_.component == component) return true;
    for (Index i = 0; i < items_.size(); ++i) {
      if (parts_.clause[i] != clause) continue;
      const Item& item = items_[i];
      if ((item.is(ConceptKind::component) || item.is(ConceptKind::finding)) && item.meaning->component == component)
        return true;
    }
    return false;
  }

  void look_around() {
    for (const Item& item : items_) {
      if (item.kind == ItemKind::figure && item.figure.kind == FigureKind::grade) grade_ = true;
      if (item.is(ConceptKind::component) || item.is(ConceptKind::finding)) {
        if (item.meaning->component == Component::strength) strength_ = true;
        if (item.meaning->component == Component::reflexes) reflexes_ = true;
        if (item.meaning->component == Component::range_of_motion) motion_ = true;
        if (item.meaning->component == Component::palpation) palpation_ = true;
        if (item.meaning->component == Component::perfusion) perfusion_ = true;
      }
      if (item.is(Cue::resisted)) strength_ = true;
      if (item.is(Cue::weak)) strong_ = true;
      if (item.is(Cue::strong)) strong_ = true;
      if (item.is(ConceptKind::motion_muscle)) strength_ = true;
    }
    if (context_.component == Component::strength) strength_ = true;
    if (context_.component == Component::reflexes) reflexes_ = true;
    if (context_.component == Component::range_of_motion) motion_ = true;
    if (grade_ && !reflexes_) strength_ = true;
    if (strong_ && !perfusion_ && !reflexes_) strength_ = true;
  }

  Unit& add(Unit::Kind kind, Component component, const Concept* meaning, Index first, Index last) {
    Unit unit;
    unit.kind = kind;
    unit.component = component;
    unit.meaning = meaning;
    unit.first = first;
    unit.last = last;
    unit.clause = parts_.clause[first];
    unit.words.push_back(span(first, last));
    parts_.units.push_back(unit);
    for (Index i = first; i < last; ++i) parts_.consumed[i] = 1;
    return parts_.units.back();
  }

  // Whether muscles in this clause are graded rather than pressed.
  bool muscles_graded(Index clause) const {
    if (reflexes_) return false;
    if (strength_) {
      for (Index i = 0; i < items_.size(); ++i) {
        if (parts_.clause[i] == clause && items_[i].is(ConceptKind::finding) &&
            (items_[i].meaning->component == Component::palpation ||
             items_[i].meaning->component == Component::inspection)) {
          return false;
        }
      }
      return true;
    }
    // "Normal biceps, triceps, grip": judged muscles and nothing else.
    bool value = false;
    for (Index i = 0; i < items_.size(); ++i) {
      if (parts_.clause[i] != clause) continue;
      const Item& item = items_[i];
      if (is_value(item)) value = true;
      if (item.is(ConceptKind::finding) || item.is(ConceptKind::motion) || item.is(ConceptKind::test) ||
          item.is(Cue::pain) || item.is(ConceptKind::component)) {
        return false;
      }
    }
    return value;
  }

  void collect() {
    for (Index i = 0; i < items_.size(); ++i) {
      const Item& item = items_[i];
      if (item.kind != ItemKind::meaning) continue;
      const Concept& c = *item.meaning;
      switch (c.kind) {
        case ConceptKind::component: {
          // "abduction strength": the motion before it is what is graded.
          if (c.component == Component::strength && !c.region && !parts_.units.empty()) {
            Unit& last = parts_.units.back();
            if (last.kind == Unit::Kind::motion && last.last == i) {
              last.component = Component::strength;
              last.last = i + 1;
              last.words.back() = span(last.first, last.last);
              parts_.consumed[i] = 1;
              break;
            }
          }
          add(Unit::Kind::component, c.component, &c, i, i + 1);
          if (c.second_component) add(Unit::Kind::component, *c.second_component, &c, i, i + 1);
          break;
        }
        case ConceptKind::finding:
          // "flexion contracture", "extension lag": the motion it is of.
          if (c.component == Component::range_of_motion && !parts_.units.empty() &&
              parts_.units.back().kind == Unit::Kind::motion && parts_.units.back().last == i) {
            const Unit motion = parts_.units.back();
            parts_.units.pop_back();
            Unit& unit = add(Unit::Kind::finding, c.component, &c, motion.first, i + 1);
            unit.motions = motion.motions;
            break;
          }
          add(Unit::Kind::finding, c.component, &c, i, i + 1);
          if (c.second_component) add(Unit::Kind::finding, *c.second_component, &c, i, i + 1);
          break;
        case ConceptKind::test:
          add(Unit::Kind::test, c.component, &c, i, i + 1);
          break;
        case ConceptKind::motion: {
          if (short_capitals(i) && !moves_elsewhere(i)) break;  // "ER" is a place in a hospital, too
          Unit& unit = add(Unit::Kind::motion, Component::range_of_motion, &c, i, i + 1);
          unit.motions = c.motions;
          if (strength_ && !motion_) unit.component = Component::strength;
          break;
        }
        case ConceptKind::motion_muscle:
          add(Unit::Kind::muscle, Component::strength, &c, i, i + 1);
          break;
        case ConceptKind::muscle:
          if (muscles_graded(parts_.clause[i])) add(Unit::Kind::muscle, Component::strength, &c, i, i + 1);
          break;
        case ConceptKind::artery:
          if (felt(i)) add(Unit::Kind::component, Component::perfusion, &c, i, i + 1);
          break;
        case ConceptKind::elsewhere_finding:
          add(Unit::Kind::elsewhere, Component::unspecified, &c, i, i + 1);
          break;
        default:
          break;
      }
    }
  }

  bool short_capitals(Index i) const {
    const std::string_view text = document_.text(items_[i].first);
    return items_[i].last - items_[i].first == 1 && text.size() <= 2 && text[0] >= 'A' && text[0] <= 'Z';
  }

  bool moves_elsewhere(Index i) const {
    for (Index j = 0; j < items_.size(); ++j) {
      if (j == i) continue;
      if (items_[j].is(ConceptKind::motion) || items_[j].places() ||
          (items_[j].is(ConceptKind::component) && items_[j].meaning->component == Component::range_of_motion))
        return true;
    }
    return motion_;
  }

  // An artery that is said to be felt, in a sentence without the word pulse.
  bool felt(Index i) const {
    if (perfusion_) return false;
    for (Index j = i + 1; j < items_.size() && j < i + 4; ++j) {
      if (items_[j].is(Cue::present) || items_[j].is(Cue::strong) || items_[j].is(Cue::absent)) return true;
      if (items_[j].kind == ItemKind::figure && items_[j].figure.kind == FigureKind::plus_grade) return true;
    }
    return false;
  }

  // Pain counts by what brings it on: a motion, pressing, work against resistance, bearing weight, a manoeuvre.
  void pains() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::pain)) continue;
      Component component = Component::unspecified;
      MotionSet motions;
      const Concept* meaning = nullptr;
      Index end = i + 1;
      bool prepared = false;  // a word such as "with" stands between
      bool over = false;
      bool found_motion_region = false;
      for (Index j = i + 1; j < items_.size() && j < i + 14 && same_clause(i, j); ++j) {
        const Item& item = items_[j];
        if (item.has(kWith) || item.has(kAt)) {
          prepared = true;
          if (item.has(kAt) && !item.has(kWith)) over = true;
          continue;
        }
        if (is_filler(item) || item.is(ConceptKind::side) || item.kind == ItemKind::word || item.is(Cue::tested))
          continue;
        if (item.places()) {
          if (component == Component::unspecified) continue;
          if (j == end || component == Component::range_of_motion) continue;
          break;
        }
        if (item.is(Cue::palpating) ||
            (item.is(ConceptKind::component) && item.meaning->component == Component::palpation)) {
          component = component == Component::unspecified ? Component::palpation : component;
          end = j + 1;
          break;
        }
        if (item.is(Cue::resisted) ||
            (item.is(ConceptKind::component) && item.meaning->component == Component::strength)) {
          component = Component::strength;
          meaning = nullptr;
          end = j + 1;
          continue;
        }
        if (item.is(Cue::loading) || (item.is(ConceptKind::component) && item.meaning->component == Component::gait)) {
          if (component != Component::unspecified) break;
          component = Component::gait;
          meaning = item.is(ConceptKind::component) ? item.meaning : nullptr;
          end = j + 1;
          break;
        }
        if (item.is(ConceptKind::test)) {
          if (component != Component::unspecified) break;
          component = item.meaning->component;
          meaning = item.meaning;
          end = j + 1;
          break;
        }
        if (item.is(ConceptKind::motion) ||
            (item.is(ConceptKind::component) && item.meaning->component == Component::range_of_motion)) {
          if (component == Component::strength) {
            end = j + 1;
            continue;
          }
          if (component != Component::unspecified && component != Component::range_of_motion) break;
          component = Component::range_of_motion;
          motions.insert(item.meaning->motions);
          if (item.meaning->region && !found_motion_region) {
            meaning = item.meaning;
            found_motion_region = true;
          }
          end = j + 1;
          continue;
        }
        if (is_value(item) && (item.is(Cue::good) || item.is(Cue::normal) || item.is(Cue::bad)) &&
            component == Component::unspecified)
          continue;  // "with full flexion"
        if (joins(item) && component == Component::range_of_motion && motion_follows(j + 1)) continue;
        if (joins(item) && component == Component::unspecified && item.kind != ItemKind::comma) continue;
        break;
      }
      if (component == Component::unspecified && over && has_place_after(i)) {
        // "pain over the joint line" is found by pressing.
        component = Component::palpation;
        end = i + 1;
        prepared = true;
        if (!pressing_preposition(i)) component = Component::unspecified;
      }
      const bool adjective_before_motion = component == Component::range_of_motion && !prepared && end == i + 2;
      if (component != Component::unspecified &&
          (prepared || adjective_before_motion || component == Component::palpation)) {
        // What it takes in is no unit of its own any more.
        std::erase_if(parts_.units, [&](const Unit& unit) { return unit.first > i && unit.last <= end; });
        Unit unit;
        unit.kind = Unit::Kind::finding;
        unit.component = component;
        unit.meaning = meaning;
        unit.first = i;
        unit.last = end;
        unit.clause = parts_.clause[i];
        unit.motions = component == Component::range_of_motion ? motions : MotionSet();
        unit.words.push_back(span(i, end));
        const auto at = std::ranges::find_if(parts_.units, [&](const Unit& u) { return u.first > i; });
        parts_.units.insert(at, unit);
        for (Index j = i; j < end; ++j) parts_.consumed[j] = 1;
      } else {
        pain_after_.push_back(i);  // "flexion is painful", "ROM without pain": judges what stands before
      }
    }
  }

  // Whether a list of motions goes on behind separators.
  bool motion_follows(Index j) const {
    while (j < items_.size() && (joins(items_[j]) || is_filler(items_[j]) || items_[j].is(ConceptKind::side))) ++j;
    return j < items_.size() && items_[j].is(ConceptKind::motion);
  }

  bool has_place_after(Index i) const {
    for (Index j = i + 1; j < items_.size() && j < i + 8 && same_clause(i, j); ++j) {
      if (items_[j].places() || items_[j].kind == ItemKind::level) return true;
      if (items_[j].kind == ItemKind::comma) return false;
    }
    return false;
  }

  bool pressing_preposition(Index i) const {
    for (Index j = i + 1; j < items_.size() && j < i + 4; ++j) {
      if (!items_[j].has(kAt)) continue;
      const std::string_view text = document_.text(items_[j].first);
      return text == "over" || text == "along" || text == "around" || text == "overlying";
    }
    return false;
  }

  Unit* unit_at(Index item) {
    for (Unit& unit : parts_.units) {
      if (item >= unit.first && item < unit.last) return &unit;
    }
    return nullptr;
  }

  // Denials: how far "no" reaches, and what "absent" and "none" answer.
  void deny() {
    bool denying = false;
    bool joined_or = false;  // "or"/"nor"/"and" right before
    bool comma_before = false;
    bool affirmed = false;  // an amount right before
    Index reach_clause = kNone;
    Index seen = 0;  // units denied so far
    bool not_next = false;
    Index no_at = kNone;
    bool with_before = false;
    for (Index i = 0; i < items_.size(); ++i) {
      const Item& item = items_[i];
      if (denying && parts_.clause[i] != reach_clause) denying = false;
      if (item.is(Cue::no) || (item.is(Cue::negative) && negates_forward(i)) || item.kind == ItemKind::minus) {
        if (item.kind == ItemKind::minus && !negates_forward(i)) continue;
        denying = true;
        reach_clause = parts_.clause[i];
        seen = 0;
        no_at = i;
        comma_before = joined_or = affirmed = with_before = false;
        continue;
      }
      if (item.is(Cue::not_)) {
        not_next = true;
        no_at = i;
        continue;
      }
      if (item.is(Cue::but) || item.is(Cue::except) || item.kind == ItemKind::semicolon) {
        denying = not_next = false;
        continue;
      }
      if (item.kind == ItemKind::comma) {
        comma_before = true;
        joined_or = affirmed = false;
        continue;
      }
      if (item.has(kOr) || item.kind == ItemKind::slash) {
        joined_or = true;
        affirmed = false;
        continue;
      }
      if (item.has(kAnd)) {
        joined_or = true;
        affirmed = false;
        continue;
      }
      if (item.has(kAffirms)) {
        affirmed = true;
        continue;
      }
      if (item.has(kWith) && !item.has(kAt)) with_before = true;
      if (item.has(kVerb) && denying && seen > 0 && verb_opens(i)) denying = false;
      Unit* unit = unit_at(i);
      if (unit != nullptr && i == unit->first) {
        const bool finding = unit->kind == Unit::Kind::finding;
        const Sense sense =
            unit->meaning != nullptr && unit->meaning->kind == ConceptKind::finding ? unit->meaning->sense : Sense::bad;
        if (finding || unit->kind == Unit::Kind::elsewhere) {
          bool denied = denying;
          if (denied && seen > 0) {
            const bool adjective = unit->meaning != nullptr && unit->meaning->adjective;
            if (affirmed && comma_before && !joined_or) denied = denying = false;
            if (affirmed && with_before) denied = denying = false;
            if (adjective && comma_before && !joined_or && !previous_adjective_) denied = denying = false;
            if (with_before && !joined_or && !comma_before) denied = denying = false;
          }
          if (finding) {
            if (sense == Sense::good) {
              // A list's denial does not reach good news: "no effusion, nontender".
              const bool direct = (denied && seen == 0 && i <= no_at + 2) || (not_next && i <= no_at + 3);
              unit->outcome = direct ? Outcome::abnormal : Outcome::normal;
              if (!direct) denied = denying = false;
            } else if (sense == Sense::not_done) {
              unit->outcome = denied || not_next ? Outcome::normal : Outcome::not_done;
            } else if (sense == Sense::stated) {
              unit->outcome = Outcome::stated;
            } else {
              const bool negated = denied || (not_next && i <= no_at + 4);
              unit->outcome = negated ? Outcome::normal : Outcome::abnormal;
              if (not_next && negated) {
                denying = true;  // "not swollen or tender"
                reach_clause = parts_.clause[i];
              }
              if (negated && no_at != kNone) unit->words.push_back(span(no_at, no_at + 1));
              unit->coordinated = negated && seen > 0;
            }
          }
          if (denied || not_next) ++seen;
          previous_adjective_ = unit->meaning != nullptr && unit->meaning->adjective;
          not_next = false;
        } else if (denied_component(*unit, denying, not_next, no_at, i)) {
          ++seen;
        } else if (denying && (unit->kind == Unit::Kind::component || unit->kind == Unit::Kind::test ||
                               unit->kind == Unit::Kind::motion || unit->kind == Unit::Kind::muscle)) {
          ++seen;
        }
        comma_before = joined_or = affirmed = with_before = false;
        // The second component of one phrase has the answer of the first.
        if (Unit* twin = unit + 1; twin < parts_.units.data() + parts_.units.size() && twin->first == unit->first)
          twin->outcome = unit->outcome;
        i = unit->last - 1;
        continue;
      }
      if (is_value(item)) {
        const bool good = item.is(Cue::good) || item.is(Cue::normal) || item.is(Cue::present) ||
                          item.is(Cue::positive) || item.is(Cue::brisk) || item.kind == ItemKind::figure ||
                          item.kind == ItemKind::plus;
        if (denying && good && seen > 0 && !item.is(Cue::present)) denying = false;
        if (denying && item.is(Cue::bad) && comma_before && !joined_or && seen > 0) denying = false;
        if (denying || not_next) negated_value_.push_back(i);
        if (not_next && !item.is(Cue::tested)) not_next = false;
      }
      if (item.is(Cue::absent) || item.is(Cue::none)) answer_absent(i);
      if (item.is(Cue::negative) && !negates_forward(i)) answer_absent(i);
      if (item.is(Cue::pain) && (denying || not_next)) negated_value_.push_back(i);
      if (item.kind == ItemKind::word && document_.tokens()[item.first].kind == TokenKind::word) {
        // Unknown words keep a denial alive for a few steps only.
        if (denying && seen == 0 && i > no_at + 8) denying = false;
      }
    }
  }

  bool denied_component(Unit& unit, bool denying, bool not_next, Index no_at, Index i) {
    // "no reflexes", "no sensation": nothing there. "no strength deficits" is decided by its judgement.
    if (!(denying || not_next)) return false;
    if (unit.kind == Unit::Kind::test) {
      unit.outcome = Outcome::normal;
      unit.words.push_back(span(no_at, no_at + 1));
      return true;
    }
    if (i <= no_at + 3 || denying)
      denied_components_.push_back({static_cast<Index>(&unit - parts_.units.data()), no_at, i});
    return true;
  }

  // "Negative Homans" belongs to what follows; "Homans negative" answers what stands before.
  bool negates_forward(Index i) const {
    if (i + 1 >= items_.size()) return false;
    Index j = i + 1;
    while (j < items_.size() &&
           (is_filler(items_[j]) || items_[j].is(ConceptKind::side) || items_[j].has(kAt) || items_[j].has(kWith)))
      ++j;
    if (j >= items_.size()) return false;
    const bool thing = items_[j].is(ConceptKind::test) || items_[j].is(ConceptKind::finding) || items_[j].places() ||
                       items_[j].is(Cue::pain);
    if (!thing) return false;
    // A thing right before it, not separated, takes it instead.
    Index k = i;
    while (k > 0 && (is_filler(items_[k - 1]) || items_[k - 1].has(kVerb) || items_[k - 1].is(Cue::testword) ||
                     items_[k - 1].is(ConceptKind::side) || items_[k - 1].kind == ItemKind::colon ||
                     items_[k - 1].kind == ItemKind::dash))
      --k;
    if (k > 0 && same_clause(k - 1, i) &&
        (items_[k - 1].is(ConceptKind::test) || items_[k - 1].is(ConceptKind::finding)) &&
        items_[i].kind != ItemKind::minus)
      return false;
    if (k > 0 && items_[i].kind == ItemKind::minus && items_[k - 1].is(ConceptKind::test)) return false;
    return true;
  }

  // Whether a verb after a denied list begins a new assertion: "no swelling and has tenderness".
  bool verb_opens(Index i) const {
    for (Index j = i + 1; j < items_.size() && j < i + 5 && same_clause(i, j); ++j) {
      if (items_[j].is(Cue::no) || items_[j].is(Cue::not_)) return false;
      if (items_[j].is(ConceptKind::finding) || items_[j].is(Cue::pain)) return true;
      if (is_value(items_[j])) return !items_[j].is(Cue::present) && !items_[j].is(Cue::tested);
      if (items_[j].places()) return false;
    }
    return false;
  }

  // "absent", "none", "negative" after findings: those in its clause, back to the last one with its own answer.
  void answer_absent(Index i) {
    for (auto unit = parts_.units.rbegin(); unit != parts_.units.rend(); ++unit) {
      if (unit->first > i || unit->clause != parts_.clause[i]) continue;
      if (unit->kind != Unit::Kind::finding) break;
      bool linked = true;
      const Index limit = last_answered_ == kNone ? 0 : last_answered_;
      if (unit->first < limit) linked = false;
      if (!linked) break;
      if (unit->outcome == Outcome::abnormal || !unit->outcome) {
        unit->outcome = Outcome::normal;
        unit->words.push_back(span(i, i + 1));
      }
    }
    last_answered_ = i;
  }

  static bool takes_value(const Unit& unit) {
    return unit.kind == Unit::Kind::component || unit.kind == Unit::Kind::motion || unit.kind == Unit::Kind::muscle ||
           unit.kind == Unit::Kind::test;
  }

  bool value_negated(Index i) const { return std::ranges::find(negated_value_, i) != negated_value_.end(); }

  struct Reading {
    std::optional<Outcome> outcome;
    std::optional<std::pair<Outcome, Outcome>> sides;  // right, left
  };

  static Outcome power(int tenths) { return tenths >= 50 ? Outcome::normal : Outcome::abnormal; }
  static Outcome reflex(int tenths) { return tenths >= 7 && tenths <= 24 ? Outcome::normal : Outcome::abnormal; }
  static Outcome pulse(int tenths) { return tenths >= 7 && tenths <= 34 ? Outcome::normal : Outcome::abnormal; }

  // What a value says of a component; nothing if it does not speak of it.
  Reading value_of(Index i, const Unit& unit) const {
    const Item& item = items_[i];
    const Component component = unit.component;
    Reading reading;
    const bool negated = value_negated(i);
    const auto say = [&](Outcome outcome) {
      if (negated && outcome == Outcome::abnormal)
        outcome = Outcome::normal;
      else if (negated && outcome == Outcome::normal)
        outcome = Outcome::abnormal;
      reading.outcome = outcome;
    };
    if (item.kind == ItemKind::plus) {
      say(Outcome::abnormal);
      return reading;
    }
    if (item.kind == ItemKind::minus) {
      reading.outcome = Outcome::normal;
      return reading;
    }
    if (item.kind == ItemKind::figure || item.kind == ItemKind::number) {
      const Figure& f = item.figure;
      if (item.kind == ItemKind::number) {
        if (unit.kind == Unit::Kind::motion && component == Component::range_of_motion && f.first <= 360) {
          reading.outcome = Outcome::stated;
        } else if (component == Component::strength && f.first <= 5 &&
                   (unit.kind != Unit::Kind::component || context_.component == Component::strength)) {
          reading.outcome = power(f.first * 10);
        } else if (component == Component::reflexes && f.first <= 4) {
          reading.outcome = reflex(f.first * 10);
        }
        return reading;
      }
      switch (f.kind) {
        case FigureKind::grade:
          if (component == Component::strength) reading.outcome = power(f.first);
          break;
        case FigureKind::plus_grade:
          if (component == Component::reflexes) {
            reading.outcome = rank(reflex(f.first)) > rank(reflex(f.second)) ? reflex(f.first) : reflex(f.second);
          } else if (component == Component::perfusion) {
            reading.outcome = pulse(f.first);
          } else if (component == Component::strength) {
            reading.outcome = power(f.first);
          }
          break;
        case FigureKind::pair:
          if (f.second == 40 && component == Component::reflexes) {
            reading.outcome = reflex(f.first);  // out of 4
          } else if ((f.second == 40 || f.second == 20) && component == Component::perfusion) {
            reading.outcome = pulse(f.first);
          } else if (component == Component::reflexes) {
            Outcome r = reflex(f.first), l = reflex(f.second);
            if (std::abs(f.first - f.second) >= 5) r = l = Outcome::abnormal;
            reading.sides = {r, l};
          } else if (component == Component::strength) {
            reading.sides = {power(f.first), power(f.second)};
          } else if (component == Component::perfusion) {
            reading.sides = {pulse(f.first), pulse(f.second)};
          }
          if (reading.sides)
            reading.outcome =
                rank(reading.sides->first) > rank(reading.sides->second) ? reading.sides->first : reading.sides->second;
          break;
        case FigureKind::ratio:
          if (component == Component::range_of_motion && unit.kind == Unit::Kind::motion && f.first <= 180 &&
              f.second <= 180) {
            reading.outcome = Outcome::stated;
            reading.sides = {Outcome::stated, Outcome::stated};
          }
          break;
        case FigureKind::range:
          if (component == Component::strength && f.second == 5 && f.first >= 0 && f.first <= 5)
            reading.outcome = power(f.first * 10);  // "4-5 strength"
          [[fallthrough]];
        case FigureKind::degrees:
          if (component == Component::range_of_motion) reading.outcome = Outcome::stated;
          break;
        case FigureKind::skip:
          break;
      }
      return reading;
    }
    switch (item.meaning->cue) {
      case Cue::normal:
      case Cue::good:
      case Cue::symmetric:
      case Cue::equal:
      case Cue::stable:
      case Cue::strong:
        say(Outcome::normal);
        break;
      case Cue::weak:
        say(Outcome::abnormal);
        break;
      case Cue::present:
        if (unit.kind == Unit::Kind::test) {
          say(Outcome::abnormal);
        } else if (component == Component::perfusion || component == Component::reflexes ||
                   component == Component::sensation) {
          say(Outcome::normal);
        }
        break;
      case Cue::brisk:
        if (component == Component::reflexes) say(Outcome::abnormal);
        if (component == Component::perfusion) say(Outcome::normal);
        break;
      case Cue::bad:
        say(Outcome::abnormal);
        break;
      case Cue::positive:
        say(component == Component::perfusion || component == Component::reflexes ? Outcome::normal
                                                                                  : Outcome::abnormal);
        break;
      case Cue::negative:
        reading.outcome = Outcome::normal;
        break;
      case Cue::absent:
        reading.outcome = unit.kind == Unit::Kind::test ? Outcome::normal : Outcome::abnormal;
        break;
      case Cue::equivocal:
        reading.outcome = Outcome::stated;
        break;
      case Cue::tested:
        if (!negated) reading.outcome = Outcome::stated;
        break;
      default:
        break;
    }
    return reading;
  }

  // Whether nothing stands between items a and b (exclusive) that would part a subject from its judgement.
  bool adjacent(Index a, Index b) const {
    int words = 0;
    for (Index j = a; j < b; ++j) {
      const Item& item = items_[j];
      if (parts_.consumed[j] != 0 && !item.is(Cue::testword)) return false;
      if (item.kind == ItemKind::comma || item.kind == ItemKind::semicolon || item.has(kAnd) || item.has(kOr))
        return false;
      if (is_value(item) || item.kind == ItemKind::number) return false;
      if (item.kind == ItemKind::word && ++words > 4) return false;
    }
    return true;
  }

  // Whether only list separators, places, sides and small words stand between items a and b.
  bool listed(Index a, Index b, bool allow_at) const {
    int words = 0;
    for (Index j = a; j < b; ++j) {
      const Item& item = items_[j];
      if (joins(item) || is_filler(item) || item.is(ConceptKind::side) || item.places() || item.is(Cue::testword) ||
          item.kind == ItemKind::level || item.kind == ItemKind::open || item.kind == ItemKind::close ||
          item.is(ConceptKind::elsewhere_finding) || (parts_.consumed[j] != 0 && is_value(item) && allow_at)) {
        continue;
      }
      if (allow_at && (item.has(kAt) || item.has(kWith))) continue;
      if (item.kind == ItemKind::word && ++words <= 3) continue;
      return false;
    }
    return true;
  }

  // Gives values to the components, motions, muscles and tests they judge.
  void judge() {
    struct Given {
      Index unit;
      Index item;
    };
    std::vector<Given> given;
    std::vector<std::uint8_t> forward(parts_.units.size(), 0);   // its value stands before it
    std::vector<std::uint8_t> backward(parts_.units.size(), 0);  // ... after it
    Index last_target = kNone;
    Index last_value = kNone;
    for (Index i = 0; i < items_.size(); ++i) {
      const Item& item = items_[i];
      const bool number = item.kind == ItemKind::number && !parts_.consumed[i];
      if (!(is_value(item) || number) || parts_.consumed[i] != 0) continue;
      Index before = kNone;
      Index after = kNone;
      for (Index u = 0; u < parts_.units.size(); ++u) {
        const Unit& unit = parts_.units[u];
        if (unit.clause != parts_.clause[i] || !takes_value(unit)) continue;
        if (unit.last <= i) before = u;
        if (unit.first > i && after == kNone) after = u;
      }
      // "1/1 quads and hamstrings, 0/0 distally": the second value is of another stretch of the limb.
      const bool further_along = i + 1 < items_.size() && items_[i + 1].is(Cue::extent) && before != kNone &&
                                 parts_.units[before].kind == Unit::Kind::muscle && last_value != kNone &&
                                 items_[i - 1].kind == ItemKind::comma;
      if (further_along) continue;
      const auto reads = [&](Index u) { return u != kNone && value_of(i, parts_.units[u]).outcome.has_value(); };
      const bool before_adjacent = before != kNone && adjacent(parts_.units[before].last, i);
      const bool after_adjacent = after != kNone && adjacent(i + 1, parts_.units[after].first);
      const bool touching_after = after != kNone && touching(i + 1, parts_.units[after].first);
      const bool last_same_clause = last_value != kNone && parts_.clause[last_value] == parts_.clause[i];
      Index target = kNone;
      bool is_forward = false;
      // "95 degrees of flexion": the motion behind "of" owns the figure.
      const bool of_motion = item.kind == ItemKind::figure &&
                             (item.figure.kind == FigureKind::degrees || item.figure.kind == FigureKind::range) &&
                             after != kNone && parts_.units[after].kind == Unit::Kind::motion &&
                             i + 1 < items_.size() && items_[i + 1].has(kAt) && parts_.units[after].first <= i + 3;
      if (of_motion && reads(after)) {
        target = after;
        is_forward = true;
      } else if (before_adjacent && reads(before) &&
                 !(touching_after && reads(after) && (backward[before] || forward[before]))) {
        target = before;
      } else if (after_adjacent && reads(after) && !number && !owned_by_finding(i)) {
        target = after;
        is_forward = true;
      } else if (last_target != kNone && last_same_clause && reads(last_target) && chained(last_value + 1, i)) {
        target = last_target;
      } else if (before != kNone && reads(before) && !number && no_value_yet(given, before) && !owned_by_finding(i)) {
        target = before;
      } else if (before != kNone && reads(before) && number && last_target == before && last_same_clause) {
        target = before;
      } else if (before != kNone && reads(before) && item.kind == ItemKind::figure) {
        target = before;
      } else if (after != kNone && reads(after) && !number && item.kind != ItemKind::figure &&
                 listed(i + 1, parts_.units[after].first, false) && !owned_by_finding(i)) {
        target = after;
        is_forward = true;
      }
      if (target == kNone) continue;
      given.push_back({target, i});
      (is_forward ? forward : backward)[target] = 1;
      parts_.consumed[i] = 1;
      last_target = target;
      last_value = i;
    }
    // "flexion is painful", "motion without pain"
    for (const Index i : pain_after_) {
      if (parts_.consumed[i] != 0) continue;
      Index before = kNone;
      Index after = kNone;
      for (Index u = 0; u < parts_.units.size(); ++u) {
        const Unit& unit = parts_.units[u];
        if (unit.clause != parts_.clause[i]) continue;
        const bool moves = (unit.kind == Unit::Kind::motion || unit.kind == Unit::Kind::component) &&
                           unit.component == Component::range_of_motion;
        const bool tests = unit.kind == Unit::Kind::test;
        const bool good_motion = unit.kind == Unit::Kind::finding && unit.component == Component::range_of_motion;
        const bool works = unit.component == Component::strength && takes_value(unit);
        if (!(moves || tests || good_motion || works)) continue;
        if (unit.last <= i) before = u;
        if (unit.first > i && after == kNone) after = u;
      }
      Index target = before != kNone ? before : after;
      if (target == kNone) target = in_clause_before(i);  // "full but painful"
      if (target == kNone) continue;
      Unit& unit = parts_.units[target];
      const bool negated = value_negated(i);
      const Outcome outcome = negated ? Outcome::normal : Outcome::abnormal;
      if (!unit.outcome || rank(outcome) > rank(*unit.outcome)) unit.outcome = outcome;
      unit.words.push_back(span(i, i + 1));
      parts_.consumed[i] = 1;
      backward[target] = 1;
    }
    for (std::size_t g = 0, known = given.size(); g < known; ++g) {
      const Index u = given[g].unit;
      if (u > 0 && parts_.units[u - 1].first == parts_.units[u].first) given.push_back({u - 1, given[g].item});
    }
    apply(given);
    lacking();
    // "no motor or sensory deficits": denied components whose judgement, if any, was turned round already.
    for (const auto& denied : denied_components_) {
      Unit& unit = parts_.units[denied.unit];
      if (unit.outcome || unit.kind == Unit::Kind::test) continue;
      pending_denied_.push_back(denied.unit);
    }
    forward_ = std::move(forward);
    backward_ = std::move(backward);
  }

  // The last unit of the clause before, where this clause has nothing else to say.
  Index in_clause_before(Index i) const {
    Index found = kNone;
    for (Index u = 0; u < parts_.units.size(); ++u) {
      const Unit& unit = parts_.units[u];
      if (unit.clause == parts_.clause[i]) return kNone;
      if (unit.last <= i && unit.clause + 1 == parts_.clause[i] && unit.component == Component::range_of_motion)
        found = u;
    }
    return found;
  }

  // A judgement right before a finding colours the finding, not some component further on.
  bool owned_by_finding(Index i) const {
    Index k = i;
    while (k > 0 && (is_filler(items_[k - 1]) || items_[k - 1].has(kVerb))) --k;
    if (k > 0 && k < i && items_[k - 1].is(ConceptKind::finding) && same_clause(k - 1, i)) return true;
    if (!(items_[i].is(Cue::good) || items_[i].is(Cue::bad) || items_[i].is(Cue::positive) ||
          items_[i].is(Cue::present)))
      return false;
    Index j = i + 1;
    while (j < items_.size() && is_filler(items_[j])) ++j;
    return j < items_.size() && same_clause(i, j) &&
           (items_[j].is(ConceptKind::finding) || items_[j].is(ConceptKind::elsewhere_finding) ||
            items_[j].is(ConceptKind::elsewhere_place));
  }

  bool touching(Index a, Index b) const {
    for (Index j = a; j < b; ++j) {
      if (!is_filler(items_[j]) && !items_[j].places() && !items_[j].is(ConceptKind::side)) return false;
    }
    return true;
  }

  // "normal and symmetric", "2+, equal": values strung together.
  bool chained(Index a, Index b) const {
    for (Index j = a; j < b; ++j) {
      const Item& item = items_[j];
      if (joins(item) || is_filler(item) || item.is(ConceptKind::side) || item.places() || item.has(kAt) ||
          item.has(kVerb) || item.is(Cue::extent) || item.kind == ItemKind::open || item.kind == ItemKind::close ||
          item.kind == ItemKind::level || item.kind == ItemKind::word) {
        continue;
      }
      return false;
    }
    return true;
  }

  // "lacks 10 degrees of full extension": short of full, whatever else is said.
  void lacking() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::lacking)) continue;
      for (Unit& unit : parts_.units) {
        if (unit.clause != parts_.clause[i] || unit.component != Component::range_of_motion || unit.last + 6 < i ||
            !(unit.first > i || unit.last <= i))
          continue;
        if (unit.first > i + 8) continue;
        unit.outcome = value_negated(i) ? Outcome::normal : Outcome::abnormal;
        for (Degrees& degrees : unit.degrees) degrees.lacking = true;
        unit.words.push_back(span(i, i + 1));
        break;
      }
    }
  }

  template <class List>
  static bool no_value_yet(const List& given, Index unit) {
    return std::ranges::none_of(given, [&](const auto& g) { return g.unit == unit; });
  }

  std::optional<Index> group_between(Index a, Index b) const {
    for (Index g = 0; g < parts_.groups.size(); ++g) {
      const PlaceGroup& group = parts_.groups[g];
      if (group.first >= a && group.first < b && !group.elsewhere) return g;
    }
    return std::nullopt;
  }

  std::optional<Side> side_between(Index a, Index b, bool last) const {
    std::optional<Side> found;
    for (Index j = a; j < b && j < items_.size(); ++j) {
      if (!items_[j].is(ConceptKind::side)) continue;
      const auto side = side_of(*items_[j].meaning->side);
      if (!side || *side == Side::midline) continue;
      if (last || !found) found = side;
    }
    return found;
  }

  static void measure(Unit& unit, const Item& item, Span words) {
    if (unit.component == Component::range_of_motion) {
      const bool figure = item.kind == ItemKind::figure &&
                          (item.figure.kind == FigureKind::range || item.figure.kind == FigureKind::degrees ||
                           item.figure.kind == FigureKind::ratio);
      const bool number = item.kind == ItemKind::number;
      if (!figure && !number) return;
      Degrees degrees;
      for (std::size_t m = 0; m < kMotionCount; ++m) {
        if (unit.motions.contains(static_cast<Motion>(m))) {
          degrees.motion = static_cast<Motion>(m);
          break;
        }
      }
      degrees.evidence = words;
      degrees.to = item.figure.second;
      if (figure && item.figure.kind == FigureKind::range) degrees.from = item.figure.first;
      if (figure && item.figure.kind == FigureKind::ratio) {
        degrees.side = Side::right;
        degrees.to = item.figure.first;
        unit.degrees.push_back(degrees);
        degrees.side = Side::left;
        degrees.to = item.figure.second;
      }
      unit.degrees.push_back(degrees);
      return;
    }
    Grade grade;
    grade.evidence = words;
    if (item.kind == ItemKind::number) {
      grade.tenths = item.figure.first * 10;
    } else if (item.kind == ItemKind::figure &&
               (item.figure.kind == FigureKind::grade || item.figure.kind == FigureKind::plus_grade ||
                item.figure.kind == FigureKind::pair)) {
      grade.tenths = item.figure.first;
    } else {
      return;
    }
    grade.scale = unit.component == Component::strength ? 5 : 4;
    if (item.kind == ItemKind::figure && item.figure.kind == FigureKind::pair) {
      Grade other = grade;
      grade.side = Side::right;
      other.side = Side::left;
      other.tenths = item.figure.second;
      unit.grades.push_back(grade);
      unit.grades.push_back(other);
      return;
    }
    unit.grades.push_back(grade);
  }

  // Puts values on their units; values with places or sides of their own split the unit.
  template <class List>
  void apply(const List& given) {
    const auto unit_count = static_cast<Index>(parts_.units.size());
    std::vector<Unit> clones;
    for (Index u = 0; u < unit_count; ++u) {
      std::vector<Index> values;
      for (const auto& g : given) {
        if (g.unit == u) values.push_back(g.item);
      }
      if (values.empty()) continue;
      Unit& unit = parts_.units[u];
      struct Located {
        Index item;
        std::optional<Side> side;
        std::optional<Index> group;
      };
      std::vector<Located> located;
      for (std::size_t v = 0; v < values.size(); ++v) {
        Located one{values[v], std::nullopt, std::nullopt};
        const Index next = v + 1 < values.size() ? values[v + 1] : next_unit_after(values[v], u);
        if (values.size() > 1 && values[v] >= unit.last) {
          // Places and sides before the first value ("right 4/5, left 5/5") or after each ("4/5 on the right, ...").
          const Index from = v == 0 ? unit.last : values[v - 1] + 1;
          const bool leading = sides_lead(unit, values);
          if (!leading && v > 0) {
            // "4/5 on the left, right side is 5/5"
            const auto before_it = side_between(from, values[v], true);
            if (before_it && before_it != located.back().side && !side_between(values[v] + 1, next, false)) {
              one.side = before_it;
              located.push_back(one);
              continue;
            }
          }
          if (leading) {
            one.side = side_between(from, values[v], true);
            one.group = group_between(from, values[v]);
          } else {
            one.side = side_between(values[v] + 1, next, false);
            one.group = group_between(values[v] + 1, next);
          }
          if (one.group) one.side.reset();
        }
        located.push_back(one);
      }
      // "5/5 and 5/5" for a pair, and the columns of a table headed "R L".
      if (values.size() == 2 && !located[0].side && !located[1].side && !located[0].group && !located[1].group &&
          values[0] >= unit.last && figures(values)) {
        const bool stands_apart =
            values[1] == values[0] + 1 || (values[1] == values[0] + 2 && items_[values[0] + 1].has(kAnd));
        if (context_.columns && stands_apart) {
          located[0].side = context_.columns->first;
          located[1].side = context_.columns->second;
        } else if (stands_apart && items_[values[0] + 1].has(kAnd) && unit.component == Component::strength) {
          unit.value_side = Side::both;
        }
      }
      std::size_t distinct = 0;
      for (const auto& one : located) distinct += (one.side || one.group) ? 1 : 0;
      if (values.size() > 1 && distinct > 0 && distinct + 1 >= values.size() && split_worth(located)) {
        const Unit base = unit;
        bool first = true;
        for (const auto& one : located) {
          Unit copy = base;
          copy.outcome.reset();
          copy.value_side = one.side;
          copy.value_group = one.group;
          put_value(copy, one.item);
          if (first) {
            parts_.units[u] = copy;
            first = false;
          } else {
            clones.push_back(copy);
          }
        }
        continue;
      }
      for (const Index item : values) put_value(unit, item);
    }
    for (Unit& clone : clones) parts_.units.push_back(std::move(clone));
  }

  template <class Values>
  bool figures(const Values& values) const {
    return std::ranges::all_of(
        values, [&](Index v) { return items_[v].kind == ItemKind::figure || items_[v].kind == ItemKind::number; });
  }

  template <class Located>
  static bool split_worth(const std::vector<Located>& located) {
    for (std::size_t i = 1; i < located.size(); ++i) {
      if (located[i].side != located[0].side || located[i].group != located[0].group) return true;
    }
    return false;
  }

  template <class Values>
  bool sides_lead(const Unit& unit, const Values& values) const {
    const bool before_first = side_between(unit.last, values.front(), true).has_value() ||
                              group_between(unit.last, values.front()).has_value();
    const bool after_last = side_between(values.back() + 1, next_unit_after(values.back(), kNone), false).has_value() ||
                            group_between(values.back() + 1, next_unit_after(values.back(), kNone)).has_value();
    return before_first && !after_last;
  }

  Index next_unit_after(Index item, Index) const {
    Index end = static_cast<Index>(items_.size());
    for (const Unit& unit : parts_.units) {
      if (unit.first <= item) continue;
      end = std::min(end, unit.first);
      for (const PlaceGroup& group : parts_.groups) {
        if (group.last == unit.first && group.first > item) end = std::min(end, group.first);
      }
    }
    for (Index j = item; j < end; ++j) {
      if (!same_clause(item, j)) return j;
    }
    return end;
  }

  void put_value(Unit& unit, Index item) {
    const Reading reading = value_of(item, unit);
    if (reading.outcome && (!unit.outcome || rank(*reading.outcome) > rank(*unit.outcome)))
      unit.outcome = reading.outcome;
    const Span words = span(item, item + 1);
    unit.words.push_back(words);
    measure(unit, items_[item], words);
    if (reading.sides && reading.sides->first != reading.sides->second) split_sides_.push_back({words, *reading.sides});
  }

  // Judgements reach along lists: "motor and sensory are intact", "normal strength, tone and bulk".
  void share_judgements() {
    const auto count = static_cast<Index>(parts_.units.size());
    forward_.resize(count, 0);
    backward_.resize(count, 0);
    std::vector<Index> order(count);
    for (Index u = 0; u < count; ++u) order[u] = u;
    std::ranges::stable_sort(order, [&](Index a, Index b) { return parts_.units[a].first < parts_.units[b].first; });
    const auto wants = [&](const Unit& unit) { return takes_value(unit) && !unit.outcome; };
    // From right to left: what stands before takes the answer of what it is listed with.
    for (Index k = count; k-- > 0;) {
      Unit& unit = parts_.units[order[k]];
      if (!wants(unit) || k + 1 >= count) continue;
      Index after = k + 1;
      while (after + 1 < count && parts_.units[order[after]].kind == Unit::Kind::elsewhere) ++after;
      const Unit& next = parts_.units[order[after]];
      if (next.clause != unit.clause || !next.outcome || !takes_value(next) || !backward_[order[after]]) continue;
      if (!compatible(unit, next) || !listed(unit.last, next.first, false)) continue;
      // "MMT shoulder flexion 4/5": a title, not a second answer.
      if (unit.kind == Unit::Kind::component && unit.component == next.component && !separated(unit.last, next.first))
        continue;
      copy_answer(unit, next);
      backward_[order[k]] = 1;
    }
    for (Index k = 1; k < count; ++k) {
      Unit& unit = parts_.units[order[k]];
      if (!wants(unit)) continue;
      Index before = k - 1;
      while (before > 0 && parts_.units[order[before]].kind == Unit::Kind::elsewhere) --before;
      const Unit& previous = parts_.units[order[before]];
      if (previous.clause != unit.clause || !previous.outcome) continue;
      const bool source = takes_value(previous) ||
                          (previous.kind == Unit::Kind::finding && previous.component == Component::range_of_motion &&
                           unit.kind == Unit::Kind::motion);
      if (!source || !compatible(unit, previous)) continue;
      const bool motion_of_range =
          unit.component == Component::range_of_motion && previous.component == Component::range_of_motion;
      const bool denied = std::ranges::find(pending_denied_, order[k]) != pending_denied_.end();
      if (denied) continue;
      const bool muscles_of_power = unit.kind == Unit::Kind::muscle && previous.component == Component::strength;
      if (!(forward_[order[before]] || motion_of_range || muscles_of_power || previous.kind == Unit::Kind::test))
        continue;
      if (!listed(previous.last, unit.first, motion_of_range || muscles_of_power)) continue;
      if (muscles_of_power && previous.kind == Unit::Kind::component) spelled_out_.push_back(order[before]);
      copy_answer(unit, previous);
      forward_[order[k]] = 1;
    }
    // "no focal motor or sensory deficits": a component listed with what is denied is denied trouble, not itself.
    for (Index k = count; k-- > 0;) {
      Unit& unit = parts_.units[order[k]];
      if (!wants(unit) || k + 1 >= count) continue;
      const Unit& next = parts_.units[order[k + 1]];
      const bool denied = std::ranges::find(pending_denied_, order[k]) != pending_denied_.end();
      const bool denied_finding = next.kind == Unit::Kind::finding && next.outcome == Outcome::normal &&
                                  next.meaning != nullptr && next.meaning->sense == Sense::bad;
      const bool relayed = takes_value(next) && next.outcome == Outcome::normal && next.coordinated;
      if (denied && next.clause == unit.clause && (denied_finding || relayed) && listed(unit.last, next.first, false)) {
        unit.outcome = Outcome::normal;
        unit.coordinated = true;
        for (std::size_t w = 1; w < next.words.size(); ++w) unit.words.push_back(next.words[w]);
      }
    }
    // "Strength 5/5: deltoids, biceps, triceps" is the power of those muscles.
    for (const Index u : spelled_out_) {
      const bool own_place = std::ranges::any_of(parts_.groups, [&](const PlaceGroup& g) {
        return g.last <= parts_.units[u].first && g.clause == parts_.units[u].clause;
      });
      if (!own_place) parts_.units[u].outcome.reset();
    }
    for (const Index u : pending_denied_) {
      Unit& unit = parts_.units[u];
      if (unit.outcome || !directly_denied(unit)) continue;
      switch (unit.component) {
        case Component::reflexes:
        case Component::perfusion:
        case Component::sensation:
          unit.outcome = Outcome::abnormal;
          break;
        case Component::range_of_motion:
          unit.outcome = Outcome::abnormal;
          break;
        case Component::strength:
          // "no drift": a sign, not a faculty.
          unit.outcome = unit.meaning != nullptr && unit.meaning->region == Region::upper_extremity ? Outcome::normal
                                                                                                    : Outcome::abnormal;
          break;
        default:
          break;
      }
    }
  }

  bool separated(Index a, Index b) const {
    for (Index j = a; j < b; ++j) {
      if (joins(items_[j])) return true;
    }
    return false;
  }

  // "no", small words, then the unit.
  bool directly_denied(const Unit& unit) const {
    Index j = unit.first;
    while (j > 0 && (is_filler(items_[j - 1]) || items_[j - 1].is(ConceptKind::side) || items_[j - 1].places() ||
                     items_[j - 1].has(kOr)))
      --j;
    return j > 0 && (items_[j - 1].is(Cue::no) || items_[j - 1].is(Cue::not_));
  }

  bool compatible(const Unit& unit, const Unit& source) const {
    if (source.kind == Unit::Kind::test) return unit.kind == Unit::Kind::test;
    if (unit.kind == Unit::Kind::test) return false;
    for (const Grade& grade : source.grades) {
      (void)grade;
      return unit.component == source.component;  // a grade speaks of its own kind only
    }
    if (!source.degrees.empty()) return false;
    return true;
  }

  static void copy_answer(Unit& unit, const Unit& source) {
    unit.outcome = source.outcome;
    unit.judged = source.judged;
    if (unit.component == source.component) {
      unit.grades = source.grades;
      unit.value_side = source.value_side;
      unit.value_group = source.value_group;
    }
    unit.coordinated = true;
    for (std::size_t w = 1; w < source.words.size(); ++w) unit.words.push_back(source.words[w]);
  }

  // "full except for external rotation": what follows has the opposite outcome.
  void exceptions() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::except)) continue;
      const Unit* before = nullptr;
      for (const Unit& unit : parts_.units) {
        if (unit.last <= i && unit.outcome && unit.kind != Unit::Kind::elsewhere) before = &unit;
      }
      for (Unit& unit : parts_.units) {
        if (unit.first < i) continue;
        unit.after_except = true;
        if (!unit.outcome && takes_value(unit) && before != nullptr) {
          unit.outcome = *before->outcome == Outcome::normal ? Outcome::abnormal : Outcome::normal;
        }
      }
    }
  }

  // A finding that is elicited rather than met with: Babinski, Romberg, clonus.
  static bool is_sign(const Unit& unit) {
    return unit.meaning != nullptr && unit.meaning->kind == ConceptKind::finding && unit.meaning->sense == Sense::bad &&
           !unit.meaning->adjective &&
           (unit.component == Component::reflexes || (unit.component == Component::gait && unit.meaning->id == "sign"));
  }

  // "Questionable fasciculations", "Babinski equivocal": looked for, without a result.
  // "Babinski downgoing": the sign and its result are one remark.
  void signs_with_results() {
    for (Unit& unit : parts_.units) {
      if (!is_sign(unit) || unit.component != Component::reflexes) continue;
      const bool answered = std::ranges::any_of(parts_.units, [&](const Unit& other) {
        return &other != &unit && other.clause == unit.clause && other.kind == Unit::Kind::finding &&
               other.component == Component::reflexes && other.meaning != nullptr && other.meaning->adjective &&
               other.meaning->region == unit.meaning->region;
      });
      if (answered) unit.outcome.reset();
    }
    // "Romberg, finger-to-nose and heel-to-shin are all normal"
    for (Unit& unit : parts_.units) {
      if (!is_sign(unit) || unit.outcome != Outcome::abnormal) continue;
      for (Index i = unit.last; i < items_.size() && same_clause(unit.first, i); ++i) {
        if (items_[i].is(ConceptKind::component) || items_[i].is(ConceptKind::test)) break;
        if (!items_[i].is(Cue::normal) && !items_[i].is(Cue::negative) && !items_[i].is(Cue::good)) continue;
        unit.outcome = Outcome::normal;
        unit.words.push_back(span(i, i + 1));
        break;
      }
    }
  }

  void doubts() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::equivocal) || parts_.consumed[i] != 0) continue;
      Unit* nearest = nullptr;
      Index distance = 8;
      for (Unit& unit : parts_.units) {
        if (unit.clause != parts_.clause[i] || unit.kind != Unit::Kind::finding) continue;
        const Index gap = unit.first > i ? unit.first - i : i - unit.last;
        if (gap < distance) {
          distance = gap;
          nearest = &unit;
        }
      }
      if (nearest == nullptr) continue;
      // "upward on the right, equivocal on the left": the doubt is of its own side.
      const auto own_side = i + 3 <= items_.size()
                                ? side_between(i + 1, std::min<Index>(i + 5, static_cast<Index>(items_.size())), false)
                                : std::nullopt;
      const auto first_side = nearest->last <= i ? side_between(nearest->last, i, true) : std::nullopt;
      if (own_side && first_side && *own_side != *first_side) {
        Unit doubtful = *nearest;
        nearest->value_side = first_side;
        doubtful.value_side = own_side;
        doubtful.outcome = Outcome::stated;
        doubtful.words.push_back(span(i, i + 1));
        parts_.consumed[i] = 1;
        parts_.units.push_back(doubtful);
        continue;
      }
      nearest->outcome = Outcome::stated;
      nearest->words.push_back(span(i, i + 1));
      parts_.consumed[i] = 1;
    }
  }

  void deferrals() {
    for (Index i = 0; i < items_.size(); ++i) {
      if (!items_[i].is(Cue::deferred)) continue;
      for (Unit& unit : parts_.units) {
        if (unit.clause != parts_.clause[i] || unit.kind == Unit::Kind::elsewhere) continue;
        if (unit.kind == Unit::Kind::finding && is_sign(unit)) {
          unit.outcome = Outcome::not_done;
          unit.words.push_back(span(i, i + 1));
          continue;
        }
        if (unit.kind == Unit::Kind::finding) {
          if (unit.last <= i) continue;
          unit.outcome.reset();  // the reason, not a finding: "deferred due to pain with motion"
          continue;
        }
        // "McMurray not done because of pain": the reason is no result.
        if (unit.last <= i && adjacent(unit.last, i)) unit.outcome = Outcome::not_done;
        if (!unit.outcome || unit.outcome == Outcome::stated || unit.outcome == Outcome::not_done ||
            (unit.first > i && unit.outcome == Outcome::abnormal)) {
          unit.outcome = Outcome::not_done;
          unit.words.push_back(span(i, i + 1));
        }
      }
      const bool any = std::ranges::any_of(
          parts_.units, [&](const Unit& u) { return u.clause == parts_.clause[i] && u.outcome == Outcome::not_done; });
      if (!any) {
        Unit& unit = add(Unit::Kind::judgement, context_.component.value_or(Component::unspecified), nullptr, i, i + 1);
        unit.outcome = Outcome::not_done;
      }
    }
  }

  // Values that no unit took: a grade is strength by itself, and under a part heading a judgement is of that part.
  void bare_values() {
    for (Index i = 0; i < items_.size(); ++i) {
      const Item& item = items_[i];
      if (parts_.consumed[i] != 0 || !(is_value(item) || item.kind == ItemKind::number)) continue;
      std::optional<Component> component = context_.component;
      const bool power_grade = item.kind == ItemKind::figure && item.figure.kind == FigureKind::grade;
      if (!component && power_grade) component = Component::strength;
      if (!component && item.kind == ItemKind::figure && item.figure.kind == FigureKind::pair) continue;
      if (item.kind == ItemKind::number && !component) continue;
      if (!component && item.kind == ItemKind::figure && item.figure.kind == FigureKind::range && motion_place(i))
        component = Component::range_of_motion;
      if (!component && (item.is(Cue::strong) || item.is(Cue::weak)) && place_in_clause(i))
        component = Component::strength;
      if (!component && item.is(Cue::weak) && side_in_clause(i)) component = Component::strength;
      if (!component && item.is(Cue::stable) && (lone_verdict(i) || (place_in_clause(i) && only_findings(i))))
        component = Component::stability;
      if (!component && item.is(Cue::symmetric) && symmetric_look(i)) {
        Unit& unit = add(Unit::Kind::judgement, Component::inspection, nullptr, i, i + 1);
        unit.outcome = value_negated(i) ? Outcome::abnormal : Outcome::normal;
        continue;
      }
      if (!component) {
        const bool verdict = item.is(Cue::normal) || item.is(Cue::bad) || item.is(Cue::good) || item.is(Cue::negative);
        if (!verdict || !lone_verdict(i)) continue;
        Unit& unit = add(Unit::Kind::judgement, Component::unspecified, nullptr, i, i + 1);
        unit.outcome = value_of(i, unit).outcome;
        continue;
      }
      Unit probe;
      probe.kind = Unit::Kind::muscle;
      if (*component == Component::range_of_motion) probe.kind = Unit::Kind::motion;
      if (*component == Component::special_test || *component == Component::stability) probe.kind = Unit::Kind::test;
      probe.component = *component;
      const Reading reading = value_of(i, probe);
      if (!reading.outcome) continue;
      if (*component == Component::inspection || *component == Component::palpation) {
        if (!lone_verdict(i)) continue;
      }
      // A bare value beside units that have their answers says nothing new ("strong and symmetric").
      const bool beside_place = context_.component &&
                                (*component == Component::reflexes || *component == Component::strength ||
                                 *component == Component::sensation) &&
                                place_beside(i);
      const bool own_sense = item.is(Cue::stable) || item.is(Cue::strong) || item.is(Cue::weak);
      const bool answers_heading = context_.component && opens_sentence(i);
      if (!power_grade && item.kind != ItemKind::figure && !lone_verdict(i) && !beside_place && !own_sense &&
          !answers_heading)
        continue;
      Unit& unit = add(Unit::Kind::judgement, *component, nullptr, i, i + 1);
      put_value(unit, i);
    }
  }

  // "Absent in BLE", "knees absent": a place right after or before.
  bool place_beside(Index i) const {
    for (Index j = i + 1; j < items_.size() && j <= i + 3; ++j) {
      if (items_[j].kind == ItemKind::comma) break;
      if (items_[j].places()) return true;
    }
    return i > 0 && items_[i - 1].places();
  }

  bool place_in_clause(Index i) const {
    for (Index j = 0; j < items_.size(); ++j) {
      if (same_clause(i, j) && items_[j].places()) return true;
    }
    return false;
  }

  // "Sensory: unremarkable except ..."
  bool opens_sentence(Index i) const {
    for (Index j = 0; j < i; ++j) {
      if (!is_filler(items_[j]) && !items_[j].has(kVerb) && items_[j].kind != ItemKind::comma) return false;
    }
    return true;
  }

  bool side_in_clause(Index i) const {
    for (Index j = 0; j < items_.size(); ++j) {
      if (same_clause(i, j) && items_[j].is(ConceptKind::side)) return true;
    }
    return false;
  }

  bool only_findings(Index i) const {
    return std::ranges::all_of(parts_.units, [&](const Unit& unit) {
      return unit.clause != parts_.clause[i] || unit.kind == Unit::Kind::finding;
    });
  }

  // "Neck: supple and symmetric": how it looks, where no component in the clause is meant.
  bool symmetric_look(Index i) const {
    for (const Unit& unit : parts_.units) {
      if (unit.clause != parts_.clause[i]) continue;
      if (takes_value(unit) || (unit.kind == Unit::Kind::elsewhere && unit.first <= i + 2 && unit.last + 2 >= i))
        return false;
    }
    for (Index j = 0; j < i; ++j) {
      if (same_clause(i, j) && items_[j].is(ConceptKind::elsewhere_place)) return false;
    }
    return true;
  }

  bool motion_place(Index i) const {
    return items_[i].figure.second <= 180 &&
           std::ranges::any_of(items_, [](const Item& item) { return item.is(ConceptKind::region); }) &&
           document_.text(items_[i].last > items_[i].first ? items_[i].last - 1 : items_[i].first).starts_with("deg");
  }

  // A verdict with no unit in its clause.
  bool lone_verdict(Index i) const {
    for (const Unit& unit : parts_.units) {
      if (unit.clause == parts_.clause[i] && unit.kind != Unit::Kind::judgement) return false;
    }
    return true;
  }

  void drop_unjudged() {
    for (Unit& unit : parts_.units) {
      if (unit.outcome || unit.kind == Unit::Kind::elsewhere) continue;
      if (unit.kind == Unit::Kind::test && has_testword_after(unit)) {
        unit.outcome = Outcome::stated;
        unit.judged = false;
      }
    }
    std::erase_if(parts_.units, [](const Unit& unit) {
      return !unit.outcome || unit.kind == Unit::Kind::elsewhere ||
             (unit.kind == Unit::Kind::component && unit.meaning != nullptr && unit.meaning->weak &&
              unit.outcome == Outcome::stated);
    });
  }

  bool has_testword_after(const Unit& unit) const {
    return unit.last < items_.size() && items_[unit.last].is(Cue::tested);
  }

  const Document& document_;
  const Context& context_;
  SentenceParts& parts_;
  const std::vector<Item>& items_;
  bool grade_ = false;
  bool strength_ = false;
  bool reflexes_ = false;
  bool motion_ = false;
  bool palpation_ = false;
  bool perfusion_ = false;
  bool strong_ = false;
  bool previous_adjective_ = false;
  Index last_answered_ = kNone;
  std::vector<Index> pain_after_;
  std::vector<Index> negated_value_;
  struct Denied {
    Index unit;
    Index no_at;
    Index item;
  };
  std::vector<Denied> denied_components_;
  std::vector<Index> pending_denied_;
  std::vector<Index> spelled_out_;
  std::vector<std::uint8_t> forward_;
  std::vector<std::uint8_t> backward_;

 public:
  struct SplitSides {
    Span words;
    std::pair<Outcome, Outcome> sides;
  };
  std::vector<SplitSides> split_sides_;
};

}  // namespace

void find_units(const Document& document, const Context& context, SentenceParts& parts) {
  UnitFinder finder(document, context, parts);
  finder.run();
  // A pair of unlike values ("4/4-", right and left) is two units.
  const auto count = parts.units.size();
  for (const auto& split : finder.split_sides_) {
    for (std::size_t u = 0; u < count; ++u) {
      const bool has = std::ranges::find(parts.units[u].words, split.words) != parts.units[u].words.end();
      if (!has || parts.units[u].value_side) continue;
      Unit left = parts.units[u];
      left.value_side = Side::left;
      left.outcome = split.sides.second;
      parts.units[u].value_side = Side::right;
      parts.units[u].outcome = split.sides.first;
      parts.units.push_back(left);
    }
  }
}

}  // namespace jointledger
