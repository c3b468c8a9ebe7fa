// Finding the lexicon and the profiles, and loading them.
//
// What ships is in the data folder, which holds lexicon/ and rules/: the one that the environment variable
// JOINTLEDGER_DATA names, else the one that came with the program (data/shipped_data.h). Folders named on the command
// line are layered over it, later ones over earlier ones; on request they stand alone.
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
#include "data/profile_layers.h"
#include "lexicon/lexicon.h"

namespace jointledger {

/// Adds --lexicon and --own-lexicon-only, --rules and --own-rules-only.
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
/// The same, with what the layers replace.
std::optional<LayeredShelf> load_layered_shelf(const boost::program_options::variables_map& options,
                                               const Lexicon* lexicon, Console& console);

/// "rules/screening.toml:12: unknown region ..."
std::string in_words(const ProfileFault& fault);
std::string in_words(const LexiconFault& fault);
/// "ours/cues.tsv:3 overrides 'brisk' of lexicon/cues.tsv:12"
std::string in_words(const LexiconOverride& override);
/// One line for the profile, then one for each of its expectations that is overridden, left out or added.
std::string in_words(const ProfileOverride& override);

}  // namespace jointledger
