#include "reading/complaint_list.h"

#include <algorithm>
#include <span>
#include <utility>

#include "reading/regions.h"

namespace jointledger {

bool next_door(Region known, Region other) {
  if (other == Region::spine && (known == Region::thoracic_spine || known == Region::lumbar_spine)) return true;
  if (covers(other, known) && (known == Region::thigh || known == Region::elbow || known == Region::shoulder))
    return true;
  static constexpr std::pair<Region, Region> kNeighbours[] = {
      {Region::ankle, Region::foot},          {Region::wrist, Region::hand},
      {Region::lumbar_spine, Region::pelvis}, {Region::lumbar_spine, Region::thoracic_spine},
      {Region::shoulder, Region::upper_arm},  {Region::elbow, Region::forearm},
      {Region::hip, Region::pelvis},          {Region::knee, Region::lower_leg},
      {Region::ankle, Region::lower_leg},     {Region::wrist, Region::forearm},
      {Region::elbow, Region::upper_arm},
  };
  return std::ranges::any_of(kNeighbours, [&](const auto& pair) {
    return (pair.first == known && pair.second == other) || (pair.second == known && pair.first == other);
  });
}

void ComplaintList::add(const ComplaintMention& mention) {
  const auto& [region, side, evidence, injury, reason, loose] = mention;
  if (is_group(region) && !is_paired(region) && region != Region::spine) return;
  for (Complaint& known : out_) {
    // "Back pain ... in the mid back": the level comes later.
    if (known.region == Region::spine && !reason && next_door(region, Region::spine)) known.region = region;
    if (known.region != region) continue;
    known.injury = known.injury || injury;
    if (known.side == side || side == Side::unstated || (side == Side::midline && known.side != Side::unstated)) return;
    if (known.side == Side::unstated || known.side == Side::midline) {
      known.side = side;
      return;
    }
    if (known.side == Side::both || loose || settled(region)) return;
    known.side = Side::both;
    return;
  }
  // The joint next door, or the limb as a whole, is told of to describe the same trouble.
  const std::span<const Complaint> earlier(out_.data(), std::min(before_list_, out_.size()));
  if (!reason && std::ranges::any_of(earlier, [&](const Complaint& known) { return next_door(known.region, region); }))
    return;
  out_.push_back({region, side, evidence, injury});
  if (!reason) return;
  of_reason_ = out_.size();
  if (side == Side::left || side == Side::right) settled_.push_back(region);
}

void ComplaintList::begin_sentence() {
  before_last_ = std::min(before_sentence_, out_.size());
  before_sentence_ = out_.size();
  begin_list();
}

void ComplaintList::take_back_last_sentence() {
  const std::size_t first = std::max(before_last_, of_reason_);
  if (first < before_sentence_) out_.erase(out_.begin() + static_cast<std::ptrdiff_t>(first), out_.end());
  before_sentence_ = before_list_ = out_.size();
}

void ComplaintList::take_back(Region region) {
  for (std::size_t i = of_reason_; i < out_.size(); ++i) {
    if (out_[i].region != region) continue;
    out_.erase(out_.begin() + static_cast<std::ptrdiff_t>(i));
    before_sentence_ = before_list_ = std::min(before_sentence_, out_.size());
    return;
  }
}

bool ComplaintList::has_level() const {
  return std::ranges::any_of(out_, [](const Complaint& known) { return jointledger::has_level(known.region); });
}

bool ComplaintList::settled(Region region) const { return std::ranges::find(settled_, region) != settled_.end(); }

}  // namespace jointledger
