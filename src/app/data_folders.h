// Finding the lexicon and the profiles, and loading them.
//
// A folder named on the command line wins; given several times, the folders are layered, later ones over earlier ones.
// Else the data folder, which holds lexicon/ and rules/: the one that the environment variable JOINTLEDGER_DATA names,
// else the source tree that the program was built from, else where it was to be installed, else next to the program
// (../share/jointledger).
#pragma once

#include <boost/program_options/options_description.hpp>
#include <boost/program_options/variables_map.hpp>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/command.h"
#include "audit/profile.h"
#include "lexicon/lexicon.h"

namespace jointledger {

/// Adds --lexicon and --rules.
void add_lexicon_option(boost::program_options::options_description& options);
void add_rules_option(boost::program_options::options_description& options);

/// The folders to load, in the order of their layers. Empty if there are none; that has been said then.
std::vector<std::filesystem::path> lexicon_folders(const boost::program_options::variables_map& options,
                                                   Console& console);
std::vector<std::filesystem::path> rules_folders(const boost::program_options::variables_map& options,
                                                 Console& console);

/// The lexicon, or null, with every fault said.
std::unique_ptr<const Lexicon> load_lexicon(const boost::program_options::variables_map& options, Console& console);

/// All profiles, sorted by name, and what is wrong with the rest; nothing if there is no folder to look in. With a
/// lexicon, the structures that profiles name are checked against it.
std::optional<ProfileShelf> load_shelf(const boost::program_options::variables_map& options, const Lexicon* lexicon,
                                       Console& console);

/// The structures that profiles may name: those of the lexicon, if there is one.
struct KnownStructures {
  explicit KnownStructures(const Lexicon* lexicon);
  ProfileChecks checks() const;

 private:
  bool known_;
  std::vector<std::string_view> ids_;
};

/// "rules/screening.toml:12: unknown region ..."
std::string in_words(const ProfileFault& fault);
std::string in_words(const LexiconFault& fault);

}  // namespace jointledger
