#include "reading/joint_states.h"

#include <algorithm>
#include <optional>

namespace jointledger {
namespace {

using Use = JointStateWord::Use;

/// The first region that is gone where a limb ended within `region`; nothing for a part of a hand or foot.
std::optional<Region> gone_below(Region region) {
  using enum Region;
  switch (region) {
    case lower_extremity:
    case lower_leg:
    case ankle:
      return ankle;
    case knee:
      return lower_leg;
    case thigh:
      return knee;
    case hip:
      return hip;
    case foot:
      return foot;
    case upper_extremity:
    case forearm:
    case wrist:
      return wrist;
    case elbow:
      return forearm;
    case upper_arm:
      return elbow;
    case hand:
      return hand;
    default:
      return std::nullopt;
  }
}

class StateFinder {
 public:
  StateFinder(const Document& document, SentenceParts& parts, std::vector<JointState>& out)
      : d_(document), parts_(parts), out_(out) {}

  void read(const Sentence& sentence) {
    found_.reset();
    for (std::uint32_t i = sentence.first; i < sentence.last;) {
      const auto match = d_.lexicon().joint_state_phrases().longest(d_.keys(), i);
      if (match.length > 0) {
        const JointStateWord& word = d_.lexicon().joint_state_word(match.value);
        if (word.use == Use::excuse) return;
        if (!found_) found_ = Found{&word, i, i + match.length};
      }
      i += std::max<std::uint32_t>(match.length, 1);
    }
    if (found_) place(sentence);
  }

 private:
  struct Found {
    const JointStateWord* word = nullptr;
    std::uint32_t first = 0;  // tokens [first, last)
    std::uint32_t last = 0;
  };

  void place(const Sentence& sentence) {
    itemize(d_, sentence, parts_.items);
    find_places(d_, Context(), parts_);
    std::optional<Region> region = found_->word->from;
    Side side = Side::unstated;
    for (const Item& item : parts_.items) {
      if (!item.is(ConceptKind::side)) continue;
      const auto named = side_of(*item.meaning->side);
      if (!named || *named == Side::midline) continue;
      if (side != Side::unstated && side != *named) return;  // of each side something else is told
      side = *named;
    }
    if (const PlaceGroup::Member* near = nearest_place()) {
      if (!region && near->structure.empty() && !near->several) region = gone_below(near->place.region);
      if (side == Side::unstated && near->plural) side = Side::both;
    }
    if (!region || side == Side::unstated) return;
    const auto kind = found_->word->use == Use::absent ? JointState::Kind::absent : JointState::Kind::fused;
    const bool known = std::ranges::any_of(
        out_, [&](const JointState& s) { return s.kind == kind && s.region == *region && s.side == side; });
    if (!known) out_.push_back({kind, *region, side, d_.span(found_->first, found_->last)});
  }

  // The place that stands nearest to the words.
  const PlaceGroup::Member* nearest_place() const {
    const PlaceGroup::Member* nearest = nullptr;
    std::uint32_t least = 0;
    for (const PlaceGroup& group : parts_.groups) {
      for (const auto& member : group.members) {
        if (group.elsewhere || !is_paired(member.place.region)) continue;
        const Item& item = parts_.items[member.item];
        const std::uint32_t gap =
            item.last <= found_->first ? found_->first - item.last : item.first - std::min(item.first, found_->last);
        if (nearest != nullptr && gap >= least) continue;
        nearest = &member;
        least = gap;
      }
    }
    return nearest;
  }

  const Document& d_;
  SentenceParts& parts_;
  std::vector<JointState>& out_;
  std::optional<Found> found_;
};

}  // namespace

void find_joint_states(const Document& document, std::vector<Sentence>& sentences, SentenceParts& parts,
                       std::vector<JointState>& out) {
  StateFinder finder(document, parts, out);
  for (const Stretch& stretch : document.stretches()) {
    // What is only intended or being done stands under these; so does the exam before it was done.
    if (stretch.section == SectionKind::plan || stretch.section == SectionKind::procedure ||
        stretch.section == SectionKind::diagnosis || stretch.section == SectionKind::indication)
      continue;
    document.sentences(stretch, sentences);
    for (const Sentence& sentence : sentences) finder.read(sentence);
  }
}

}  // namespace jointledger
