#include "reading/named_places.h"

#include <algorithm>

namespace jointledger {
namespace {

bool one_side(Side side) { return side == Side::left || side == Side::right; }

Side opposite(Side side) { return side == Side::left ? Side::right : Side::left; }

Span words_of(const Document& document, const SentenceParts& parts, const PlaceGroup& group,
              const PlaceGroup::Member& member) {
  if (group.members.size() > 1) return document.span(parts.items[member.item].first, parts.items[member.item].last);
  const std::uint32_t last = std::max(group.last, member.item + 1);
  return document.span(parts.items[group.first].first, parts.items[last - 1].last);
}

// Whether the sentence speaks of one side to compare it with the other.
bool compares(const Document& document, const SentenceParts& parts) {
  for (const Item& item : parts.items) {
    if (item.is(Cue::compared) || item.is(Cue::comparing) || item.is(Cue::equalled) || item.is(Cue::same)) return true;
    if (!item.is(ConceptKind::side)) continue;
    const SideWord word = *item.meaning->side;
    if (word == SideWord::other || word == SideWord::both || word == SideWord::same) return true;
  }
  for (std::uint32_t i = parts.items.front().first; i < parts.items.back().last;) {
    const auto match = document.lexicon().remark_phrases().longest(document.keys(), i);
    if (match.length > 0 && document.lexicon().remark_word(match.value).use == RemarkWord::Use::compared) return true;
    i += std::max<std::uint32_t>(match.length, 1);
  }
  return false;
}

}  // namespace

void name_places(const Document& document, const SentenceParts& parts, std::vector<NamedPlace>& out) {
  for (const PlaceGroup& group : parts.groups) {
    if (group.elsewhere) continue;
    for (const auto& member : group.members) {
      if (!is_paired(member.place.region)) continue;
      const Side side = member.plural && !member.sided ? Side::both : member.place.side;
      out.push_back({member.place.region, side, words_of(document, parts, group, member)});
    }
  }
  for (std::uint32_t i = 0; i < parts.items.size(); ++i) {
    const Item& item = parts.items[i];
    if (!item.is(ConceptKind::side)) continue;
    const bool beside_place =
        std::ranges::any_of(parts.groups, [&](const PlaceGroup& g) { return i >= g.first && i < g.last; });
    if (beside_place) continue;
    const auto side = side_of(*item.meaning->side);
    if (side && *side != Side::midline)
      out.push_back({Region::whole_body, *side, document.span(item.first, item.last)});
  }
}

void name_label(const Stretch& stretch, std::vector<NamedPlace>& out) {
  if (!stretch.scope.label) return;
  for (const PlaceRef& place : stretch.scope.places) {
    if (is_paired(place.region)) out.push_back({place.region, place.side, stretch.heading});
  }
  if (stretch.scope.side) out.push_back({Region::whole_body, *stretch.scope.side, stretch.heading});
}

void find_assessed(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                   std::vector<NamedPlace>& out) {
  for (const Stretch& stretch : document.stretches()) {
    if (stretch.section != SectionKind::plan && stretch.section != SectionKind::diagnosis) continue;
    name_label(stretch, out);
    document.sentences(stretch, sentences);
    for (const Sentence& sentence : sentences) {
      itemize(document, sentence, parts.items);
      if (parts.items.empty()) continue;
      find_places(document, Context(), parts);
      name_places(document, parts, out);
    }
  }
}

void find_slips(const Document& document, const SentenceParts& parts, const Scope& label, Span heading,
                std::vector<SideSlip>& out) {
  if (!label.label || parts.groups.empty()) return;
  for (const PlaceRef& place : label.places) {
    if (!one_side(place.side)) continue;
    for (const PlaceGroup& group : parts.groups) {
      if (group.elsewhere || group.compared) continue;
      for (const auto& member : group.members) {
        if (member.place.region != place.region || !member.sided || member.place.side != opposite(place.side)) continue;
        if (compares(document, parts)) return;
        out.push_back({place.region, place.side, heading, words_of(document, parts, group, member)});
      }
    }
  }
}

}  // namespace jointledger
