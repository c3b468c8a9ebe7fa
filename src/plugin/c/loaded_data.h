// The words and rules of an engine, loaded together and never changed afterwards.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "audit/profile.h"
#include "jointledger.h"
#include "lexicon/lexicon.h"

namespace jointledger::plugin {

/// jointledger_engine_options as values of our own, so that they outlive the call.
struct DataPlaces {
  std::filesystem::path data;  ///< empty: that in force for this library
  std::vector<std::filesystem::path> lexicon;
  std::vector<std::filesystem::path> rules;
  bool own_lexicon_only = false;
  bool own_rules_only = false;
};

/// Nothing where the options make no sense.
std::optional<DataPlaces> places_of(const jointledger_engine_options* options);

/// Immutable and shared by all threads. The listing borrows from the profiles.
struct LoadedData {
  std::unique_ptr<const Lexicon> lexicon;
  std::vector<Profile> profiles;  ///< sorted by name
  std::vector<std::vector<jointledger_expectation>> expectations;
  std::vector<jointledger_profile> listing;

  const Profile* profile_named(std::string_view name) const;
};

/// What came of loading. `faults` has a line for each fault, or for each warning where there is none.
struct Loading {
  int code = JOINTLEDGER_OK;
  std::shared_ptr<const LoadedData> data;  ///< null unless OK
  std::string faults;
};

/// Loads all there is at `places`; any fault fails the whole. Thread-safe. Throws for lack of memory.
Loading load(const DataPlaces& places);

}  // namespace jointledger::plugin
