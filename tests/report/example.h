// One note with a ledger, a profile and an audit, with something of everything that a report has to show.
#pragma once

#include <string_view>

#include "../audit/builders.h"
#include "audit/audit.h"
#include "intake/note.h"
#include "ledger/ledger.h"

namespace jointledger::testing {

inline constexpr std::string_view kText =
    "Right knee pain after a fall. Right knee: mild swelling, joint line tender, flexion 120\xC2\xB0, power 4+/5, "
    "Lachman negative. Left knee not examined. Neck\x1b[31m supple. Hips normal.";

inline Span words(std::string_view words) {
  const std::size_t at = kText.find(words);
  return {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + words.size())};
}

inline Ledger example_ledger() {
  Ledger ledger;
  const auto add = [&](Region region, Component component, Side side, Outcome outcome,
                       std::string_view said) -> Entry& {
    Entry& entry = ledger.entries.emplace_back();
    entry.region = region;
    entry.component = component;
    entry.side = side;
    entry.outcome = outcome;
    entry.evidence.push_back(words(said));
    return entry;
  };
  add(Region::cervical_spine, Component::range_of_motion, Side::midline, Outcome::normal, "Neck\x1b[31m supple");
  add(Region::hip, Component::unspecified, Side::both, Outcome::normal, "Hips normal");
  add(Region::knee, Component::inspection, Side::left, Outcome::not_done, "not examined");
  add(Region::knee, Component::inspection, Side::right, Outcome::abnormal, "swelling").certainty = 0.9F;
  add(Region::knee, Component::palpation, Side::right, Outcome::abnormal, "tender").structures.push_back("joint_line");
  Entry& motion = add(Region::knee, Component::range_of_motion, Side::right, Outcome::stated, "flexion 120\xC2\xB0");
  motion.motions.insert(Motion::flexion);
  motion.degrees.push_back({Motion::flexion, Side::right, 0, 120, false, words("120\xC2\xB0")});
  motion.degrees.push_back({std::nullopt, Side::right, std::nullopt, 5, true, words("120\xC2\xB0")});
  add(Region::knee, Component::strength, Side::right, Outcome::abnormal, "4+/5")
      .grades.push_back({Side::right, 43, 5, words("4+/5")});
  add(Region::knee, Component::stability, Side::right, Outcome::normal, "Lachman negative").tests.push_back("lachman");
  ledger.complaints.push_back({Region::knee, Side::right, words("Right knee pain"), true});
  return ledger;
}

inline Profile example_profile() {
  Expectation inspection = expectation("knee-inspection", Region::knee, Component::inspection);
  Expectation motion = expectation("knee-motion", Region::knee, Component::range_of_motion);
  motion.motions = motions({Motion::flexion, Motion::extension});
  motion.weight = 3;
  Expectation hip = expectation("hip-any", Region::hip, Component::strength);
  hip.components = {Component::inspection, Component::palpation};
  hip.kind = Kind::advised;
  Expectation neck = expectation("neck-motion", Region::cervical_spine, Component::range_of_motion);
  Expectation feel = expectation("ankle-palpation", Region::ankle, Component::palpation);
  feel.kind = Kind::advised;
  feel.structures = {"medial_malleolus"};
  Profile result = profile({inspection, motion, hip, neck, feel});
  result.title = "A profile to test with";
  result.caution = "Not for use.";
  return result;
}

/// What a report is given. Not to be moved: its parts borrow from each other.
struct Example {
  Ledger ledger = example_ledger();
  Profile profile = example_profile();
  Audit result = audit(profile, ledger);
  Member metadata[3] = {{"author", "\"FW-01\""}, {"entries", "\"theirs\""}, {"n", "[1, 2.50]"}};
  Note note{.id = "visit-1", .id_is_number = false, .text = kText, .metadata = metadata};

  Example() = default;
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;
};

}  // namespace jointledger::testing
