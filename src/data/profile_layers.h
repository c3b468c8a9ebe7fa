// Profiles of several folders, laid over each other.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "audit/profile.h"
#include "lexicon/lexicon.h"

namespace jointledger {

/// A profile that a later folder replaces, whole, by one of the same name.
struct ProfileOverride {
  std::string name;      ///< of both profiles
  std::string file;      ///< the one that holds
  std::string replaced;  ///< the file of the one that does not
  // Ids of expectations, each in the order of its file.
  std::vector<std::string> changed;  ///< in both
  std::vector<std::string> dropped;  ///< only in the one replaced
  std::vector<std::string> added;    ///< only in the one that holds
};

struct LayeredShelf {
  ProfileShelf shelf;                      ///< profiles sorted by name; of those with the same name the last one
  std::vector<ProfileOverride> overrides;  ///< in the order of the layers, by name within one
};

/// Loads the profiles of `folders`, layered in that order. With a lexicon, the structures that profiles name are
/// checked against it. Never throws but for lack of memory. Thread-safe.
LayeredShelf load_profile_layers(std::span<const std::filesystem::path> folders, const Lexicon* lexicon);

/// The structures that profiles may name: those of the lexicon, if there is one. Borrows it.
struct KnownStructures {
  explicit KnownStructures(const Lexicon* lexicon);
  ProfileChecks checks() const;

 private:
  bool known_;
  std::vector<std::string_view> ids_;
};

}  // namespace jointledger
