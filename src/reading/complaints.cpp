#include "reading/complaints.h"

#include <algorithm>

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

/// Collects complaints, one per region and side; a stated side replaces an unstated one.
class Collector {
 public:
  explicit Collector(std::vector<Complaint>& out) : out_(out) {}

  void add(Region region, Side side, Span evidence, bool injury) {
    if (is_group(region) && !is_paired(region) && region != Region::spine) return;
    if (region == Region::extremities) return;
    for (Complaint& known : out_) {
      if (known.region != region) continue;
      known.injury = known.injury || injury;
      if (known.side == side || side == Side::unstated || (side == Side::midline && known.side != Side::unstated)) return;
      if (known.side == Side::unstated || known.side == Side::midline) {
        known.side = side;
        return;
      }
      if (known.side == Side::both) return;
      known.side = Side::both;
      return;
    }
    out_.push_back({region, side, evidence, injury});
  }

  bool empty() const { return out_.empty(); }

 private:
  std::vector<Complaint>& out_;
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
    itemize(d_, sentence, parts_.items);
    Context context;
    find_places(d_, context, parts_);
    for (const Found& found : cues_) {
      if (found.cue->use == Use::named && !excluded(found.first, reason)) {
        Side side = found.cue->side;
        if (const auto beside = side_beside(found)) side = *beside;
        collect_.add(level(*found.cue->region, false), side, d_.span(found.first, found.last), injury_);
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
        if (!is_paired(place.region) && !member.sided) place.side = Side::midline;
        const Region region = level(place.region, place.back);
        collect_.add(region, place.side, d_.span(item.first, item.last), injury_);
      }
    }
  }

  void know(bool low_back, bool injury) {
    low_back_ = low_back;
    injury_ = injury;
  }

 private:
  Region level(Region region, bool back) const { return back && low_back_ ? Region::lumbar_spine : region; }

  bool inside_named(std::uint32_t token) const {
    return std::ranges::any_of(cues_, [&](const Found& f) { return f.cue->use == Use::named && token >= f.first && token < f.last; });
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
          if (!reason) return true;
          break;
        case Use::gone:
          if (!reason) return true;
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

  // A denial reaches to the next "but" or full clause.
  bool separated(std::uint32_t from, std::uint32_t to) const {
    for (const Item& item : parts_.items) {
      if (item.first < from || item.first >= to) continue;
      if (item.is(Cue::but) || item.is(Cue::except) || item.kind == ItemKind::semicolon) return true;
    }
    return false;
  }

  bool has_general(std::uint32_t first, std::uint32_t last) const {
    return std::ranges::any_of(cues_, [&](const Found& f) {
      if (f.cue->use != Use::general) return false;
      return (f.first >= last && f.first <= last + 1) || (f.last <= first && first - f.last <= 4) || (f.first <= first && f.last >= last);
    });
  }

  // Whether a symptom or injury is told of the place.
  bool told(const PlaceGroup& group, std::uint32_t at, std::uint32_t end) const {
    for (const Found& found : cues_) {
      const bool symptom = found.cue->use == Use::symptom || found.cue->use == Use::injury;
      const bool visit = found.cue->use == Use::visit;
      if (!symptom && !visit) continue;
      if (found.first >= end) {
        // "knee pain", "the knee has been swollen"
        if (symptom && found.first - end <= 6) return true;
      } else if (found.last <= at) {
        const std::uint32_t gap = at - found.last;
        if (visit && gap <= 8) return true;
        if (symptom && (gap <= 4 || (group.at_before && gap <= 9))) return true;
      } else {
        return symptom;
      }
    }
    return false;
  }

  const Document& d_;
  Collector collect_;
  SentenceParts parts_;
  std::vector<Found> cues_;
  bool low_back_ = false;
  bool injury_ = false;
};

// Whether any sentence of the history speaks of the low back, or of an injury.
void survey(const Document& d, bool& low_back, bool& injury) {
  std::vector<Found> cues;
  for (const Stretch& stretch : d.stretches()) {
    const bool history = stretch.section == SectionKind::history || stretch.section == SectionKind::complaint || stretch.section == SectionKind::none;
    const bool plan = stretch.section == SectionKind::plan || stretch.section == SectionKind::ros || stretch.section == SectionKind::data;
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
  read(SectionKind::history, false);
  read(SectionKind::none, false);
  if (out.empty()) read(SectionKind::ros, false);
}

}  // namespace jointledger
