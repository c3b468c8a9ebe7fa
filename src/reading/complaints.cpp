#include "reading/complaints.h"

#include <algorithm>
#include <utility>

#include "reading/complaint_cues.h"
#include "reading/complaint_list.h"
#include "reading/complaint_sides.h"
#include "reading/complaint_study.h"

namespace jointledger {
namespace {

using Use = ComplaintCue::Use;

constexpr std::uint32_t kLong = 12;  // tokens of a sentence that is more than the name of a complaint

/// How much of a sentence counts.
enum class Manner : std::uint8_t {
  reason,     ///< it stands under the reason for the visit, where every place is a complaint
  diagnosis,  ///< ... where every place with a disease or injury is
  history,    ///< places that a symptom or injury is told of
};

class ComplaintFinder {
 public:
  ComplaintFinder(const Document& document, std::vector<Complaint>& out) : d_(document), list_(out) {}

  void read(const Sentence& sentence, Manner manner) {
    find_cues(d_, sentence, cues_);
    list_.begin_sentence();
    const bool reason = manner != Manner::history;
    const bool symptom = std::ranges::any_of(cues_, [&](const FoundCue& f) {
      return f.is_symptom() || (reason && f.is(Use::disease)) || f.is_visit() || f.is(Use::named) || f.is(Use::half) ||
             f.is(Use::general);
    });
    if (!symptom && manner != Manner::reason && !has(cues_, Use::ended)) return;
    itemize(d_, sentence, parts_.items);
    find_places(d_, Context(), parts_);
    const ToldSentence told{d_, parts_, cues_, reason};
    if (manner == Manner::history) take_back(told);
    if (!symptom && manner != Manner::reason) return;
    const bool why = std::ranges::any_of(cues_, [](const FoundCue& f) { return f.is_visit() || f.is(Use::tells); });
    if (strict_ && !why) return;
    for (const FoundCue& found : cues_) {
      if (found.is(Use::named) && !is_excluded(told, found.first) && !is_placed_elsewhere(*found.cue->region, reason))
        add(*found.cue->region, side_of_named(told, found), found.first, found.last, reason);
    }
    for (const PlaceGroup& group : parts_.groups) read_group(told, group);
    if (reason) read_levels(told);
    read_half(told);
  }

  /// Text that may be history or exam: only sentences that say why the visit is made count.
  void be_strict(bool strict) { strict_ = strict; }

  void know(bool low_back, bool injury) {
    low_back_ = low_back;
    injury_ = injury;
  }

 private:
  void add(Region region, Side side, std::uint32_t first, std::uint32_t last, bool reason) {
    list_.add({region, side, d_.span(first, last), injury_, reason, false});
  }

  void read_group(const ToldSentence& told, const PlaceGroup& group) {
    if (group.elsewhere) return;
    const std::uint32_t first = parts_.items[group.members.front().item].first;
    const std::uint32_t last = parts_.items[group.last - 1].last;
    if (is_excluded(told, first)) return;
    if (!told.reason && !is_told(told, group, first, last)) return;
    if (is_general(told, group, first, last)) return;
    // "Mid and low back pain": the low back was read as a complaint of its own, and is of this list.
    const bool shared = std::ranges::any_of(
        cues_, [&](const FoundCue& f) { return f.is(Use::named) && f.first > first && f.first < last; });
    if (!shared) list_.begin_list();
    for (const auto& member : group.members) {
      const Item& item = parts_.items[member.item];
      if (item.is(ConceptKind::artery) || member.place.joints || member.place.region == Region::extremities ||
          is_organ(told, item) || inside_named(item.first))
        continue;
      // "Fracture of the T8 vertebra": the spine that a level has been named of.
      if (member.place.region == Region::spine && !member.place.back && list_.has_level()) continue;
      list_.add({region_of(told, member), side_of_place(told, member), d_.span(item.first, item.last), injury_,
                 told.reason, member.several && !member.sided});
    }
  }

  // "Herniated disc L5-S1 with weakness of the foot": a level that is no place of its own.
  void read_levels(const ToldSentence& told) {
    for (Index i = 0; i < parts_.items.size(); ++i) {
      const Item& item = parts_.items[i];
      if (item.kind != ItemKind::level || is_excluded(told, item.first)) continue;
      const bool placed = std::ranges::any_of(parts_.groups, [&](const PlaceGroup& group) {
        return std::ranges::any_of(group.members, [&](const auto& member) { return member.item == i; });
      });
      if (!placed) add(item.level, Side::midline, item.first, item.last, true);
    }
  }

  Region region_of(const ToldSentence& told, const PlaceGroup::Member& member) const {
    const Item& item = parts_.items[member.item];
    // "Herniated disc L5-S1 with weakness": the level itself, not what its roots feed.
    if (told.reason && item.kind == ItemKind::level) return item.level;
    return member.place.back && low_back_ ? Region::lumbar_spine : member.place.region;
  }

  // "Left-sided weakness": the limbs of that side. As the reason for the visit "right sided pain" is enough.
  void read_half(const ToldSentence& told) {
    for (const FoundCue& found : cues_) {
      const bool half = found.is(Use::half) || (told.reason && parts_.groups.empty() && found.is(Use::symptom));
      if (!half || is_excluded(told, found.first)) continue;
      const auto side = side_of_half(told, found);
      if (!side) continue;
      list_.begin_list();
      for (const Region limb : {Region::upper_extremity, Region::lower_extremity})
        add(limb, *side, found.first, found.last, told.reason);
      return;
    }
  }

  // "Her neck stiffness resolved"; "This has since resolved", of the sentence before.
  void take_back(const ToldSentence& told) {
    const auto ended = std::ranges::find_if(cues_, [](const FoundCue& f) { return f.is(Use::ended); });
    if (ended == cues_.end()) return;
    const auto meant = [&](std::uint32_t token) {
      return token < ended->first && !is_separated(told, token, ended->first);
    };
    bool named = false;
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (!meant(parts_.items[member.item].first)) continue;
        named = true;
        list_.take_back(member.place.region);
      }
    }
    for (const FoundCue& found : cues_) {
      if (!found.is(Use::named) || !meant(found.first)) continue;
      named = true;
      list_.take_back(*found.cue->region);
    }
    const bool turns = std::ranges::any_of(parts_.items, [](const Item& item) { return item.is(Cue::but); });
    if (!named && !turns) list_.take_back_last_sentence();
  }

  // "Lumbar spinal stenosis"; as a reason for the visit, "carpal tunnel syndrome of the right hand" too: the note
  // places it itself.
  bool is_placed_elsewhere(Region region, bool reason) const {
    return std::ranges::any_of(parts_.groups, [&](const PlaceGroup& group) {
      return std::ranges::any_of(group.members, [&](const auto& member) {
        const std::uint32_t first = parts_.items[member.item].first;
        const bool nearer = (reason && next_door(member.place.region, region)) || covers(region, member.place.region);
        return !is_group(member.place.region) && member.place.region != region && nearer && !inside_named(first);
      });
    });
  }

  bool inside_named(std::uint32_t token) const {
    return std::ranges::any_of(
        cues_, [&](const FoundCue& f) { return f.is(Use::named) && token >= f.first && token < f.last; });
  }

  const Document& d_;
  ComplaintList list_;
  bool strict_ = false;
  SentenceParts parts_;
  std::vector<FoundCue> cues_;
  bool low_back_ = false;
  bool injury_ = false;
};

// Whether any sentence of the history speaks of the low back, or of an injury.
void survey(const Document& d, bool& low_back, bool& injury) {
  std::vector<FoundCue> cues;
  for (const Stretch& stretch : d.stretches()) {
    const bool history = stretch.section == SectionKind::history || stretch.section == SectionKind::complaint ||
                         stretch.section == SectionKind::course || stretch.section == SectionKind::none ||
                         stretch.section == SectionKind::diagnosis || stretch.section == SectionKind::indication;
    const bool plan = stretch.section == SectionKind::plan || stretch.section == SectionKind::ros ||
                      stretch.section == SectionKind::data;
    if (!history && !plan) continue;
    for (std::uint32_t i = stretch.first; i < stretch.last;) {
      const auto match = d.lexicon().phrases().longest(d.keys(), i);
      if (match.length > 0 && d.lexicon().meaning(match.value).region == Region::lumbar_spine &&
          d.lexicon().meaning(match.value).kind != ConceptKind::test) {
        low_back = true;
      }
      i += std::max<std::uint32_t>(match.length, 1);
    }
    if (!history) continue;
    find_cues(d, {stretch.first, stretch.last}, cues);
    if (has(cues, Use::injury)) injury = true;
  }
}

// Whether a reason for the visit is given, and no word of it tells of a symptom, an injury or a follow-up.
bool other_reason(const Document& d) {
  std::vector<FoundCue> cues;
  bool given = false;
  for (const Stretch& stretch : d.stretches()) {
    const bool reason = stretch.section == SectionKind::complaint || stretch.section == SectionKind::diagnosis;
    if (!reason || stretch.last <= stretch.first) continue;
    given = true;
    find_cues(d, {stretch.first, stretch.last}, cues);
    const bool open = std::ranges::any_of(cues, [](const FoundCue& f) {
      return (f.is_symptom() && !f.is(Use::vague)) || f.is(Use::disease) || f.is(Use::named) || f.is(Use::half) ||
             f.is(Use::general) || f.is(Use::again);
    });
    if (open) return false;
  }
  return given;
}

// A note that begins with its diagnosis ("Diagnosis: Left knee osteoarthritis"), before any history; nothing otherwise.
const Stretch* leading_diagnosis(const Document& d) {
  const auto first = std::ranges::find_if(d.stretches(), [](const Stretch& s) { return s.last > s.first; });
  return first != d.stretches().end() && first->section == SectionKind::plan ? &*first : nullptr;
}

}  // namespace

void find_complaints(const Document& d, std::vector<Sentence>& sentences, std::vector<Complaint>& out) {
  out.clear();
  bool low_back = false;
  bool injury = false;
  survey(d, low_back, injury);
  ComplaintFinder finder(d, out);
  finder.know(low_back, injury);
  const auto read = [&](SectionKind kind, Manner manner) {
    for (const Stretch& stretch : d.stretches()) {
      if (stretch.section != kind) continue;
      d.sentences(stretch, sentences);
      bool first = true;
      for (const Sentence& sentence : sentences) {
        // A reason that goes on in long sentences is a history.
        const bool long_winded = manner == Manner::reason && !first && sentence.last - sentence.first > kLong;
        finder.read(sentence, long_winded ? Manner::history : manner);
        first = false;
      }
    }
  };
  read(SectionKind::complaint, Manner::reason);
  read(SectionKind::diagnosis, Manner::diagnosis);
  // A reason for the visit that is of no joint and no general complaint: the history then names joints in passing.
  const bool in_passing = out.empty() && other_reason(d);
  finder.be_strict(in_passing);
  read(SectionKind::history, Manner::history);
  read(SectionKind::indication, Manner::history);
  finder.be_strict(true);
  read(SectionKind::none, Manner::history);
  finder.be_strict(in_passing);
  if (out.empty()) read(SectionKind::course, Manner::history);
  finder.be_strict(false);
  if (const Stretch* diagnosis = leading_diagnosis(d); out.empty() && diagnosis != nullptr) {
    d.sentences(*diagnosis, sentences);
    for (const Sentence& sentence : sentences) {
      finder.read(sentence, Manner::diagnosis);
      if (out.empty()) break;  // a list of other diseases names the joints among the rest
    }
  }
  // A note that gives its reason but no history may tell its complaints in the review of systems.
  const bool given =
      std::ranges::any_of(d.stretches(), [](const Stretch& s) { return s.section == SectionKind::complaint; });
  const bool history = std::ranges::any_of(
      d.stretches(), [](const Stretch& s) { return s.section == SectionKind::history && s.last - s.first > 20; });
  if (out.empty() && !history && given) read(SectionKind::ros, Manner::history);
  std::vector<FoundCue> cues;
  SentenceParts parts;
  read_study_title(d, sentences, parts, cues, out);
  find_missing_sides(d, sentences, parts, out);
}

}  // namespace jointledger
