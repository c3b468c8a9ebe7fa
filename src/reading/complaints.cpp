#include "reading/complaints.h"

#include <algorithm>
#include <utility>

#include "reading/clause.h"

namespace jointledger {
namespace {

using Use = ComplaintCue::Use;

/// A complaint word found at tokens [first, last).
struct Found {
  const ComplaintCue* cue = nullptr;
  std::uint32_t first = 0;
  std::uint32_t last = 0;
};

void find_cues(const Document& d, const Sentence& sentence, std::vector<Found>& out) {
  out.clear();
  for (std::uint32_t i = sentence.first; i < sentence.last;) {
    const auto match = d.lexicon().complaint_phrases().longest(d.keys(), i);
    if (match.length == 0) {
      ++i;
      continue;
    }
    out.push_back({&d.lexicon().complaint_cue(match.value), i, i + match.length});
    i += match.length;
  }
}

bool has(const std::vector<Found>& cues, Use use) {
  return std::ranges::any_of(cues, [&](const Found& f) { return f.cue->use == use; });
}

/// Whether trouble at `known` is often described as at `other`: neighbours, and the limb or spine that holds it.
bool next_door(Region known, Region other) {
  if (other == Region::spine && covers(other, known)) return true;
  if (covers(other, known) && (known == Region::thigh || known == Region::elbow || known == Region::shoulder))
    return true;
  static constexpr std::pair<Region, Region> kNeighbours[] = {
      {Region::ankle, Region::foot},          {Region::wrist, Region::hand},
      {Region::lumbar_spine, Region::pelvis}, {Region::lumbar_spine, Region::thoracic_spine},
      {Region::shoulder, Region::upper_arm},  {Region::elbow, Region::forearm},
      {Region::hip, Region::pelvis},          {Region::knee, Region::lower_leg},
      {Region::ankle, Region::lower_leg},     {Region::wrist, Region::forearm},
  };
  return std::ranges::any_of(kNeighbours, [&](const auto& pair) {
    return (pair.first == known && pair.second == other) || (pair.second == known && pair.first == other);
  });
}

/// Collects complaints, one per region and side; a stated side replaces an unstated one.
class Collector {
 public:
  explicit Collector(std::vector<Complaint>& out) : out_(out) {}

  /// `reason`: told as the reason for the visit, whose side then holds.
  void add(Region region, Side side, Span evidence, bool injury, bool reason) {
    if (is_group(region) && !is_paired(region) && region != Region::spine) return;
    if (region == Region::extremities) return;
    for (Complaint& known : out_) {
      if (known.region != region) continue;
      known.injury = known.injury || injury;
      if (known.side == side || side == Side::unstated || (side == Side::midline && known.side != Side::unstated))
        return;
      if (known.side == Side::unstated || known.side == Side::midline) {
        known.side = side;
        return;
      }
      if (known.side == Side::both || settled(region)) return;
      known.side = Side::both;
      return;
    }
    // The joint next door, or the limb as a whole, is told of to describe the same trouble.
    if (!reason && std::ranges::any_of(out_, [&](const Complaint& known) { return next_door(known.region, region); }))
      return;
    out_.push_back({region, side, evidence, injury});
    if (reason && (side == Side::left || side == Side::right)) settled_.push_back(region);
  }

  bool empty() const { return out_.empty(); }

 private:
  bool settled(Region region) const { return std::ranges::find(settled_, region) != settled_.end(); }

  std::vector<Complaint>& out_;
  std::vector<Region> settled_;
};

class ComplaintFinder {
 public:
  ComplaintFinder(const Document& document, std::vector<Complaint>& out) : d_(document), collect_(out) {}

  /// `reason`: the sentence stands under the reason for the visit, where every place is a complaint.
  void read(const Sentence& sentence, bool reason) {
    find_cues(d_, sentence, cues_);
    const bool named = has(cues_, Use::named);
    const bool symptom = named || has(cues_, Use::symptom) || has(cues_, Use::injury) || has(cues_, Use::visit);
    if (!symptom && !reason) return;
    if (strict_ && !has(cues_, Use::visit) && !has(cues_, Use::tells)) return;
    itemize(d_, sentence, parts_.items);
    Context context;
    find_places(d_, context, parts_);
    for (const Found& found : cues_) {
      if (found.cue->use == Use::named && !excluded(found.first, reason)) {
        Side side = found.cue->side;
        if (const auto beside = side_beside(found)) {
          side = *beside;
        } else if (side == Side::unstated) {
          if (const auto before = side_before(found.first)) side = *before;
        }
        collect_.add(level(*found.cue->region, false), side, d_.span(found.first, found.last), injury_, reason);
      }
    }
    for (const PlaceGroup& group : parts_.groups) {
      if (group.elsewhere) continue;
      const std::uint32_t at = parts_.items[group.members.front().item].first;
      const std::uint32_t end = parts_.items[group.last - 1].last;
      if (inside_named(at)) continue;
      if (excluded(at, reason)) continue;
      if (!reason && !told(group, at, end)) continue;
      if (has_general(at, end)) continue;
      for (const auto& member : group.members) {
        const Item& item = parts_.items[member.item];
        if (item.is(ConceptKind::artery)) continue;
        PlaceRef place = member.place;
        if (place.joints) continue;
        if (place.side == Side::unstated && (member.plural || member.several)) place.side = Side::both;
        if (place.side == Side::unstated && reason) place.side = side_before(item.first).value_or(Side::unstated);
        if (!is_paired(place.region) && !member.sided) place.side = Side::midline;
        const Region region = level(place.region, place.back);
        collect_.add(region, place.side, d_.span(item.first, item.last), injury_, reason);
      }
    }
    if (reason && parts_.groups.empty()) read_half(reason);
  }

  /// Text that may be history or exam: only sentences that say why the visit is made count.
  void be_strict(bool strict) { strict_ = strict; }

  void know(bool low_back, bool injury) {
    low_back_ = low_back;
    injury_ = injury;
  }

 private:
  // "Right sided numbness": the limbs of that side.
  void read_half(bool reason) {
    if (!has(cues_, Use::symptom)) return;
    for (const Item& item : parts_.items) {
      if (!item.is(ConceptKind::side)) continue;
      const auto side = side_of(*item.meaning->side);
      if (side != Side::left && side != Side::right) continue;
      for (const Region limb : {Region::upper_extremity, Region::lower_extremity}) {
        collect_.add(limb, *side, d_.span(item.first, item.last), injury_, reason);
      }
      return;
    }
  }

  Region level(Region region, bool back) const { return back && low_back_ ? Region::lumbar_spine : region; }

  bool inside_named(std::uint32_t token) const {
    return std::ranges::any_of(
        cues_, [&](const Found& f) { return f.cue->use == Use::named && token >= f.first && token < f.last; });
  }

  // The side of a place named earlier in the sentence.
  std::optional<Side> side_before(std::uint32_t token) const {
    std::optional<Side> side;
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (parts_.items[member.item].first < token && member.sided && is_paired(member.place.region))
          side = member.place.side;
      }
    }
    return side;
  }

  std::optional<Side> side_beside(const Found& found) const {
    for (const Item& item : parts_.items) {
      if (!item.is(ConceptKind::side)) continue;
      const auto side = side_of(*item.meaning->side);
      if (!side || *side == Side::midline) continue;
      if (item.last <= found.first && found.first - item.last <= 2) return side;
      if (item.first >= found.last && item.first - found.last <= 3) return side;
    }
    return std::nullopt;
  }

  // Denied, past, gone, or where the symptom only spreads to.
  bool excluded(std::uint32_t at, bool reason) const {
    for (const Found& found : cues_) {
      switch (found.cue->use) {
        case Use::denial:
          if (found.last <= at && !separated(found.last, at)) return true;
          break;
        case Use::past:
          if (reason) break;
          if (found.last <= at ? !separated(found.last, at) : found.first <= at + 7) return true;
          break;
        case Use::gone:
          if (!reason && found.last >= at) return true;
          break;
        case Use::spread:
          if (found.last <= at) return true;
          break;
        default:
          break;
      }
    }
    return false;
  }

  // A denial or an earlier time reaches to the next "but", or to where the reason for the visit is told.
  bool separated(std::uint32_t from, std::uint32_t to) const {
    for (const Found& found : cues_) {
      if (found.cue->use == Use::visit && found.first >= from && found.last <= to) return true;
    }
    for (const Item& item : parts_.items) {
      if (item.first < from || item.first >= to) continue;
      if (item.is(Cue::but) || item.is(Cue::except) || item.kind == ItemKind::semicolon) return true;
    }
    return false;
  }

  bool has_general(std::uint32_t first, std::uint32_t last) const {
    return std::ranges::any_of(cues_, [&](const Found& f) {
      if (f.cue->use != Use::general) return false;
      if (f.last <= first && symptom_after(last)) return false;  // "body aches and right knee pain"
      for (const Found& other : cues_) {
        if (other.cue->use == Use::symptom && other.first >= f.last && other.last <= first) return false;
      }
      return (f.first >= last && f.first <= last + 1) || (f.last <= first && first - f.last <= 4) ||
             (f.first <= first && f.last >= last);
    });
  }

  bool symptom_after(std::uint32_t token) const {
    return std::ranges::any_of(cues_, [&](const Found& f) {
      return (f.cue->use == Use::symptom || f.cue->use == Use::injury) && f.first >= token && f.first <= token + 1;
    });
  }

  // Whether a symptom or injury is told of the place.
  bool told(const PlaceGroup& group, std::uint32_t at, std::uint32_t end) const {
    for (const Found& found : cues_) {
      const bool symptom = found.cue->use == Use::symptom || found.cue->use == Use::injury;
      const bool visit = found.cue->use == Use::visit;
      if (!symptom && !visit) continue;
      // Swelling of the legs is more often of the heart than of the joints.
      const PlaceRef& place = group.members.front().place;
      const bool one_side = place.side == Side::left || place.side == Side::right;
      if (symptom && !one_side && covers(place.region, Region::knee) && is_group(place.region) &&
          d_.text(found.first).starts_with("swell"))
        continue;
      if (found.first >= end) {
        // "knee pain", "the knee has been swollen"
        if (symptom && found.first - end <= 6 && !moved(end, found.first)) return true;
      } else if (found.last <= at) {
        const std::uint32_t gap = at - found.last;
        if (visit && gap <= 8) return true;
        if (symptom && (gap <= 4 || (group.at_before &&
                                     gap <= (d_.text(at - 1) == "over" || d_.text(at - 2) == "over" ? 9U : 20U))))
          return true;
      } else {
        return symptom;
      }
    }
    return false;
  }

  // "with flexion of the spine", "uses her arms": something done with the place stands between.
  bool moved(std::uint32_t from, std::uint32_t to) const {
    return std::ranges::any_of(parts_.items, [&](const Item& item) {
      return item.first >= from && item.last <= to &&
             (item.is(ConceptKind::motion) || item.kind == ItemKind::semicolon || item.is(Cue::but));
    });
  }

  const Document& d_;
  Collector collect_;
  bool strict_ = false;
  SentenceParts parts_;
  std::vector<Found> cues_;
  bool low_back_ = false;
  bool injury_ = false;
};

// Whether any sentence of the history speaks of the low back, or of an injury.
void survey(const Document& d, bool& low_back, bool& injury) {
  std::vector<Found> cues;
  for (const Stretch& stretch : d.stretches()) {
    const bool history = stretch.section == SectionKind::history || stretch.section == SectionKind::complaint ||
                         stretch.section == SectionKind::none;
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

// Whether a reason for the visit is given, and no word of it is a symptom, an injury or a follow-up.
bool other_reason(const Document& d) {
  std::vector<Found> cues;
  bool given = false;
  for (const Stretch& stretch : d.stretches()) {
    if (stretch.section != SectionKind::complaint || stretch.last <= stretch.first) continue;
    given = true;
    find_cues(d, {stretch.first, stretch.last}, cues);
    if (!cues.empty()) return false;
    for (std::uint32_t i = stretch.first; i < stretch.last; ++i) {
      const std::string_view word = d.text(i);
      if (word.size() > 1 && (word.substr(1).starts_with("ollow") || word.substr(1).starts_with("OLLOW") ||
                              word.substr(1).starts_with("oint")))
        return false;
    }
  }
  return given;
}

}  // namespace

void find_complaints(const Document& d, std::vector<Sentence>& sentences, std::vector<Complaint>& out) {
  out.clear();
  bool low_back = false;
  bool injury = false;
  survey(d, low_back, injury);
  ComplaintFinder finder(d, out);
  finder.know(low_back, injury);
  const auto read = [&](SectionKind kind, bool reason) {
    for (const Stretch& stretch : d.stretches()) {
      if (stretch.section != kind) continue;
      d.sentences(stretch, sentences);
      for (const Sentence& sentence : sentences) finder.read(sentence, reason);
    }
  };
  read(SectionKind::complaint, true);
  // A reason for the visit that is of no joint and no general complaint: the history then names joints in passing.
  finder.be_strict(out.empty() && other_reason(d));
  read(SectionKind::history, false);
  finder.be_strict(true);
  read(SectionKind::none, false);
  finder.be_strict(false);
  // A note without a history may tell its complaints in the review of systems.
  const bool history = std::ranges::any_of(
      d.stretches(), [](const Stretch& s) { return s.section == SectionKind::history && s.last - s.first > 20; });
  if (out.empty() && !history) read(SectionKind::ros, false);
}

}  // namespace jointledger
