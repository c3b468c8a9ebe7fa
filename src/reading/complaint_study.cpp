#include "reading/complaint_study.h"

#include <algorithm>

#include "reading/regions.h"

namespace jointledger {
namespace {

// The title: the first sentence of the note's first text, if it names a study. Left in `parts` and `cues`.
bool find_title(const Document& d, std::vector<Sentence>& sentences, SentenceParts& parts,
                std::vector<FoundCue>& cues) {
  const auto first = std::ranges::find_if(d.stretches(), [&](const Stretch& s) { return s.last > s.first; });
  if (first == d.stretches().end()) return false;
  if (first->section != SectionKind::exam && first->section != SectionKind::data) return false;
  d.sentences(*first, sentences);
  const auto title = std::ranges::find_if(sentences, [&](const Sentence& sentence) {
    itemize(d, sentence, parts.items);
    return !parts.items.empty();
  });
  if (title == sentences.end()) return false;
  find_cues(d, *title, cues);
  if (!has(cues, ComplaintCue::Use::study)) return false;
  find_places(d, Context(), parts);
  return true;
}

// Whether the text names a place that is no joint, limb or spine, or what is felt there: "facial mass".
bool names_other_place(const Document& d, const Stretch& stretch) {
  for (std::uint32_t i = stretch.first; i < stretch.last;) {
    const auto match = d.lexicon().phrases().longest(d.keys(), i);
    const ConceptKind kind = match.length > 0 ? d.lexicon().meaning(match.value).kind : ConceptKind::region;
    if (kind == ConceptKind::elsewhere_place || kind == ConceptKind::elsewhere_finding) return true;
    i += std::max<std::uint32_t>(match.length, 1);
  }
  return false;
}

// Whether the reason for the study tells of pain, an injury and the like.
bool is_for_symptom(const Document& d, std::vector<FoundCue>& cues) {
  return std::ranges::any_of(d.stretches(), [&](const Stretch& s) {
    if (s.section != SectionKind::complaint && s.section != SectionKind::history &&
        s.section != SectionKind::indication)
      return false;
    if (names_other_place(d, s)) return false;
    find_cues(d, {s.first, s.last}, cues);
    return std::ranges::any_of(cues, [](const FoundCue& f) { return f.is_symptom(); }) &&
           !has(cues, ComplaintCue::Use::denial);
  });
}

}  // namespace

void read_study_title(const Document& d, std::vector<Sentence>& sentences, SentenceParts& parts,
                      std::vector<FoundCue>& cues, std::vector<Complaint>& complaints) {
  if (!find_title(d, sentences, parts, cues)) return;
  const bool only_place = complaints.empty() && is_for_symptom(d, cues);
  for (const PlaceGroup& group : parts.groups) {
    if (group.elsewhere) continue;
    for (const auto& member : group.members) {
      const Item& item = parts.items[member.item];
      const PlaceRef& place = member.place;
      for (Complaint& complaint : complaints) {
        const bool fits = complaint.region == place.region || same_limb(complaint.region, place.region);
        if (fits && complaint.side == Side::unstated && is_one_side(place.side)) complaint.side = place.side;
      }
      const bool limb_or_spine = is_paired(place.region) || is_spine(place.region);
      const bool wide = place.region == Region::extremities || place.region == Region::spine || place.joints;
      if (!only_place || !limb_or_spine || wide) continue;
      const Side side = is_paired(place.region) ? place.side : Side::midline;
      complaints.push_back({place.region, side, d.span(item.first, item.last), false});
    }
  }
}

}  // namespace jointledger
