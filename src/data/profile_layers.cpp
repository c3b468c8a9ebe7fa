#include "data/profile_layers.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace jointledger {
namespace {

namespace fs = std::filesystem;

/// Ids of the expectations of `these` that `those` has, or lacks.
std::vector<std::string> ids_of(const Profile& these, const Profile& those, bool in_both) {
  std::vector<std::string> ids;
  for (const Expectation& expectation : these.expectations) {
    const bool found =
        std::ranges::find(those.expectations, expectation.id, &Expectation::id) != those.expectations.end();
    if (found == in_both) ids.push_back(expectation.id);
  }
  return ids;
}

}  // namespace

LayeredShelf load_profile_layers(std::span<const fs::path> folders, const Lexicon* lexicon) {
  const KnownStructures structures(lexicon);
  LayeredShelf layered;
  std::vector<Profile>& profiles = layered.shelf.profiles;
  std::map<std::string, std::string> files;  // of the profiles so far, by name
  for (const fs::path& folder : folders) {
    ProfileShelf loaded = load_profiles(folder, structures.checks());
    std::ranges::move(loaded.faults, std::back_inserter(layered.shelf.faults));
    for (Profile& profile : loaded.profiles) {
      std::string file = (folder / (profile.name + ".toml")).string();
      const auto same = std::ranges::find(profiles, profile.name, &Profile::name);
      if (same == profiles.end()) {
        files[profile.name] = std::move(file);
        profiles.push_back(std::move(profile));
        continue;
      }
      layered.overrides.push_back({profile.name, file, std::exchange(files[profile.name], file),
                                   ids_of(profile, *same, true), ids_of(*same, profile, false),
                                   ids_of(profile, *same, false)});
      *same = std::move(profile);
    }
  }
  std::ranges::sort(profiles, {}, &Profile::name);
  return layered;
}

KnownStructures::KnownStructures(const Lexicon* lexicon) : known_(lexicon != nullptr) {
  if (lexicon != nullptr) ids_.assign(lexicon->structure_ids().begin(), lexicon->structure_ids().end());
}

ProfileChecks KnownStructures::checks() const {
  ProfileChecks checks;
  if (known_) checks.structures = ids_;
  return checks;
}

}  // namespace jointledger
