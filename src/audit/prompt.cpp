#include "audit/prompt.h"

#include <algorithm>
#include <array>
#include <vector>

namespace jointledger {
namespace {

using namespace std::string_view_literals;

struct RegionWords {
  std::string_view one;
  std::string_view two;
};
constexpr std::array<RegionWords, kRegionCount> kRegions = {{
    {"jaw"sv, "jaw joints"sv},
    {"neck"sv, "sides of the neck"sv},
    {"thoracic spine"sv, "sides of the thoracic spine"sv},
    {"lumbar spine"sv, "sides of the lumbar spine"sv},
    {"pelvis"sv, "sides of the pelvis"sv},
    {"chest wall"sv, "sides of the chest wall"sv},
    {"shoulder"sv, "shoulders"sv},
    {"upper arm"sv, "upper arms"sv},
    {"elbow"sv, "elbows"sv},
    {"forearm"sv, "forearms"sv},
    {"wrist"sv, "wrists"sv},
    {"hand"sv, "hands"sv},
    {"hip"sv, "hips"sv},
    {"thigh"sv, "thighs"sv},
    {"knee"sv, "knees"sv},
    {"lower leg"sv, "lower legs"sv},
    {"ankle"sv, "ankles"sv},
    {"foot"sv, "feet"sv},
    {"spine"sv, "sides of the spine"sv},
    {"upper limb"sv, "upper limbs"sv},
    {"lower limb"sv, "lower limbs"sv},
    {"limbs"sv, "sides, all limbs"sv},
    {"whole body"sv, "sides of the body"sv},
}};

/// What a component is called, and what it is about: a reminder of what to write down, not of what is there.
/// Of the trunk other things are felt and looked for than of a joint in a limb.
struct ComponentWords {
  std::string_view name;
  std::string_view about;
  std::string_view about_trunk;
};
constexpr std::array<ComponentWords, kComponentCount> kComponents = {{
    {"inspection"sv, "contour, swelling, skin"sv, "contour, alignment, skin"sv},
    {"palpation"sv, "tenderness, warmth, effusion"sv, "tenderness, muscle tone"sv},
    {"range of motion"sv, "active, passive"sv, "active, passive"sv},
    {"strength"sv, "which muscles, grade out of 5"sv, "which muscles, grade out of 5"sv},
    {"stability"sv, "which direction or test"sv, "which direction or test"sv},
    {"named test"sv, "which, and its result"sv, "which, and its result"sv},
    {"sensation"sv, "where, how tested"sv, "where, how tested"sv},
    {"reflexes"sv, "which, grade"sv, "which, grade"sv},
    {"perfusion"sv, "which pulse, capillary refill"sv, "which pulse, capillary refill"sv},
    {"gait"sv, "walking, standing, aids"sv, "walking, standing, aids"sv},
    {"unspecified"sv, ""sv, ""sv},
}};

constexpr std::array<std::string_view, kMotionCount> kMotions = {
    "flexion"sv,           "extension"sv,       "abduction"sv,         "adduction"sv,      "internal rotation"sv,
    "external rotation"sv, "rotation"sv,        "lateral bending"sv,   "supination"sv,     "pronation"sv,
    "radial deviation"sv,  "ulnar deviation"sv, "dorsiflexion"sv,      "plantarflexion"sv, "inversion"sv,
    "eversion"sv,          "opening"sv,         "opposition"sv,        "circumduction"sv,  "elevation"sv,
    "depression"sv,        "protrusion"sv,      "lateral deviation"sv, "protraction"sv,    "retraction"sv,
};

constexpr std::string_view kBlank = "___"sv;

std::string capitalised(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 32);
  return text;
}

/// Where this many components would do, to list them asks for less than to leave the choice open.
constexpr std::size_t kTooManyToList = 4;

/// "strength, stability or named test".
std::string any_of(const std::vector<Component>& components) {
  if (components.size() >= kTooManyToList) return "any part of the exam";
  std::string text;
  for (std::size_t i = 0; i < components.size(); ++i) {
    if (i > 0) text += i + 1 == components.size() ? " or " : ", ";
    text += phrase(components[i]);
  }
  return text;
}

std::string_view about(Component component, Region region) {
  const ComponentWords& words = kComponents[static_cast<std::size_t>(component)];
  return is_paired(region) ? words.about : words.about_trunk;
}

/// Each thing that is missing with a blank behind it, or one blank where none is named.
std::string blanks(const Gap& gap) {
  std::string text;
  const auto add = [&](std::string_view what) {
    if (!text.empty()) text += ", ";
    text.append(what).append(" ").append(kBlank);
  };
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    if (gap.motions.contains(static_cast<Motion>(i))) add(kMotions[i]);
  }
  for (const std::string_view id : gap.structures) {
    std::string words(id);
    std::ranges::replace(words, '_', ' ');
    add(words);
  }
  return text.empty() ? std::string(kBlank) : text;
}

/// What the blanks are about: "left shoulder motion", "both knees, palpation (tenderness, warmth, effusion)".
std::string subject(const Gap& gap) {
  const bool one_component = gap.components.size() == 1;
  // Gait is of the whole person; to name the place would sound odd.
  if (one_component && gap.components.front() == Component::gait) {
    return std::string("gait (").append(about(Component::gait, gap.region)).append(")");
  }
  const bool side_unknown = gap.side == Side::unstated && gap.reason == Reason::one_side_only;
  std::string text = side_unknown ? "left and right " + place(gap.region, Side::unstated) : place(gap.region, gap.side);
  if (gap.expectation != nullptr && gap.expectation->distally) {
    text += is_paired(gap.region) ? " or further down the limb" : " or the limbs that it supplies";
  }
  if (!gap.motions.empty()) return text + (gap.side == Side::both ? ", motion" : " motion");
  text += ", " + any_of(gap.components);
  if (one_component && gap.structures.empty()) {
    if (const std::string_view words = about(gap.components.front(), gap.region); !words.empty()) {
      text.append(" (").append(words).append(")");
    }
  } else if (!one_component) {
    text += " (which, and its result)";
  }
  return text;
}

std::string_view ending(const Gap& gap) {
  switch (gap.reason) {
    case Reason::deferred_without_reason:
      return ", or the reason for not examining ___"sv;
    case Reason::one_side_only:
      if (gap.side == Side::unstated) return ", each side by name, or why not examined"sv;
      break;
    case Reason::no_result_stated:
      return ", the result in words or figures"sv;
    default:
      break;
  }
  return gap.motions.empty() ? ", or why not examined"sv : ", or why not tested"sv;
}

}  // namespace

std::string prompt_for(const Gap& gap) { return capitalised(subject(gap) + ": " + blanks(gap).append(ending(gap))); }

std::string place(Region region, Side side) {
  const RegionWords& words = kRegions[static_cast<std::size_t>(region)];
  switch (side) {
    case Side::left:
      return std::string("left ").append(words.one);
    case Side::right:
      return std::string("right ").append(words.one);
    case Side::both:
      return std::string("both ").append(words.two);
    case Side::midline:
    case Side::unstated:
      break;
  }
  return std::string(words.one);
}

std::string_view phrase(Component value) { return kComponents[static_cast<std::size_t>(value)].name; }
std::string_view phrase(Motion value) { return kMotions[static_cast<std::size_t>(value)]; }

}  // namespace jointledger
