// Figures that cannot be, and joints that are not there.
#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "audit/anatomy.h"
#include "audit/consistency_checks.h"
#include "audit/prompt.h"

namespace jointledger {
namespace {

/// The furthest that the motion can go; of a figure that names none, the furthest that any motion of the joint can. The
/// two ends of a hinge are told in one breath, so that the figure of one can stand beside the name of the other.
std::optional<int> limit_of(const MotionLimits& limits, Region region, std::optional<Motion> motion) {
  const bool hinge = motion && motions_of_unnamed_range(region).contains(*motion);
  std::optional<int> furthest;
  for (const MotionLimit& limit : limits) {
    const bool meant =
        !motion || limit.motion == *motion || (hinge && motions_of_unnamed_range(region).contains(limit.motion));
    if (limit.region == region && meant) furthest = std::max(furthest.value_or(0), limit.implausible_above);
  }
  return furthest;
}

// A strong muscle is often graded "5+/5", which is loose but no slip; past that the figure is off the scale of the
// Medical Research Council, 0 to 5. Reflexes and pulses end at 4+.
constexpr int kHighestPower = 53;
constexpr int kHighestReflex = 43;

std::optional<int> end_of_scale(const Entry& entry, const Grade& grade) {
  if (entry.component == Component::strength && grade.scale == 5 && grade.tenths > kHighestPower) return 5;
  const bool reflex_or_pulse = entry.component == Component::reflexes || entry.component == Component::perfusion;
  if (reflex_or_pulse && grade.scale == 4 && grade.tenths > kHighestReflex) return 4;
  return std::nullopt;
}

Inconsistency implausible(const Entry& entry, Span figure, const std::string& what) {
  Inconsistency found;
  found.check = Check::implausible_value;
  found.region = entry.region;
  found.side = entry.side;
  found.component = entry.component;
  found.first = {figure};
  found.message = place(entry.region, entry.side) + ", " + std::string(phrase(entry.component)) + ": " + what +
                  " What was measured?";
  if (found.message.front() >= 'a' && found.message.front() <= 'z')
    found.message.front() = static_cast<char>(found.message.front() - 'a' + 'A');
  return found;
}

/// Entries of left and right may share their figures.
void add_once(Inconsistency found, std::vector<Inconsistency>& out) {
  const bool known = std::ranges::any_of(out, [&](const Inconsistency& other) {
    return other.check == found.check && other.region == found.region && other.component == found.component &&
           other.first == found.first;
  });
  if (!known) out.push_back(std::move(found));
}

std::vector<Span> sorted_spans(std::vector<Span> spans) {
  std::ranges::sort(spans, {}, [](const Span& s) { return std::pair(s.start, s.end); });
  spans.erase(std::unique(spans.begin(), spans.end()), spans.end());
  return spans;
}

bool is_on(Side side, const Entry& entry) {
  return entry.side == side || entry.side == Side::both || (side == Side::both && entry.side != Side::midline);
}

bool goes_against(const JointState& state, const Entry& entry) {
  if (entry.outcome != Outcome::normal || !is_on(state.side, entry)) return false;
  if (state.kind == JointState::Kind::fused)
    return entry.region == state.region && entry.component == Component::range_of_motion;
  return entry.region == state.region || is_distal(entry.region, state.region);
}

}  // namespace

void find_implausible_values(const Ledger& ledger, const MotionLimits& limits, std::vector<Inconsistency>& out) {
  for (const Entry& entry : ledger.entries) {
    for (const Degrees& degrees : entry.degrees) {
      const auto limit = limit_of(limits, entry.region, degrees.motion);
      if (!limit || degrees.lacking) continue;
      const int furthest = std::max(degrees.to, degrees.from.value_or(0));
      if (furthest <= *limit) continue;
      const std::string motion(degrees.motion ? phrase(*degrees.motion) : "a range");
      add_once(implausible(entry, degrees.evidence,
                           motion + " of " + std::to_string(furthest) + " degrees is more than the joint can do."),
               out);
    }
    for (const Grade& grade : entry.grades) {
      const auto end = end_of_scale(entry, grade);
      if (end)
        add_once(implausible(entry, grade.evidence,
                             "the grade is beyond the end of its scale, which is " + std::to_string(*end) + "."),
                 out);
    }
  }
}

void find_missing_joints(const Ledger& ledger, std::vector<Inconsistency>& out) {
  for (const JointState& state : ledger.joint_states) {
    std::vector<Span> words;
    std::optional<Component> component;
    bool one_component = true;
    for (const Entry& entry : ledger.entries) {
      if (!goes_against(state, entry)) continue;
      words.insert(words.end(), entry.evidence.begin(), entry.evidence.end());
      one_component = one_component && (!component || component == entry.component);
      component = entry.component;
    }
    if (words.empty()) continue;
    Inconsistency found;
    found.check = Check::missing_joint;
    found.region = state.region;
    found.side = state.side;
    if (one_component) found.component = component;
    found.first = {state.words};
    found.second = sorted_spans(std::move(words));
    const std::string where = place(state.region, state.side);
    found.message =
        state.kind == JointState::Kind::fused
            ? "The note says that the " + where + " is fused, and reads as if it moved fully. Which one holds?"
            : "The note says that the limb ends above the " + where +
                  ", and reads as if it was examined there. Which one holds?";
    out.push_back(std::move(found));
  }
}

}  // namespace jointledger
