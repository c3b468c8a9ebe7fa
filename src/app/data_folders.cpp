#include "app/data_folders.h"

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <system_error>

#include "app/options.h"

namespace jointledger {
namespace {

namespace fs = std::filesystem;

bool is_folder(const fs::path& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

/// The folder that holds lexicon/ and rules/, if any of those that it may be is there.
std::optional<fs::path> data_folder(Console& console) {
  // Nothing else runs yet that could change the environment.
  if (const char* named = std::getenv("JOINTLEDGER_DATA");
      named != nullptr && *named != '\0') {  // NOLINT(concurrency-mt-unsafe)
    if (is_folder(named)) return named;
    console.log.error("JOINTLEDGER_DATA names no folder: {}", named);
    return std::nullopt;
  }
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  for (const fs::path& path : {fs::path(JOINTLEDGER_SOURCE_DATA), fs::path(JOINTLEDGER_INSTALL_DATA),
                               program.parent_path() / ".." / "share" / "jointledger"}) {
    if (is_folder(path / "lexicon") && is_folder(path / "rules")) return path.lexically_normal();
  }
  console.log.error(
      "cannot find the lexicon and the rules; name them with --lexicon and --rules, or set JOINTLEDGER_DATA");
  return std::nullopt;
}

std::vector<fs::path> folders(const po::variables_map& options, const char* name, Console& console) {
  std::vector<fs::path> result;
  for (const std::string& folder : values_of(options, name)) {
    if (!is_folder(folder)) {
      console.log.error("--{}: no folder {}", name, folder);
      return {};
    }
    result.emplace_back(folder);
  }
  if (!result.empty()) return result;
  if (const auto data = data_folder(console)) result.push_back(*data / name);
  return result;
}

template <class Fault>
std::string fault_in_words(const Fault& fault) {
  std::string words = fault.file;
  if (fault.line > 0) words.append(":").append(std::to_string(fault.line));
  return words.append(": ").append(fault.message);
}

}  // namespace

void add_lexicon_option(po::options_description& options) {
  options.add_options()("lexicon", po::value<Arguments>()->composing()->value_name("DIR"),
                        "folder of word tables instead of the one that comes with the program; several are layered, "
                        "later over earlier");
}

void add_rules_option(po::options_description& options) {
  options.add_options()("rules", po::value<Arguments>()->composing()->value_name("DIR"),
                        "folder of profiles instead of the one that comes with the program; several are layered");
}

std::vector<fs::path> lexicon_folders(const po::variables_map& options, Console& console) {
  return folders(options, "lexicon", console);
}

std::vector<fs::path> rules_folders(const po::variables_map& options, Console& console) {
  return folders(options, "rules", console);
}

std::unique_ptr<const Lexicon> load_lexicon(const po::variables_map& options, Console& console) {
  const std::vector<fs::path> layers = lexicon_folders(options, console);
  if (layers.empty()) return nullptr;
  auto loaded = Lexicon::load(layers);
  if (auto* lexicon = std::get_if<std::unique_ptr<const Lexicon>>(&loaded)) return std::move(*lexicon);
  for (const LexiconFault& fault : std::get<std::vector<LexiconFault>>(loaded)) {
    if (fault.severity == LexiconFault::Severity::error) console.log.error(in_words(fault));
  }
  return nullptr;
}

std::optional<ProfileShelf> load_shelf(const po::variables_map& options, const Lexicon* lexicon, Console& console) {
  const std::vector<fs::path> layers = rules_folders(options, console);
  if (layers.empty()) return std::nullopt;
  const KnownStructures structures(lexicon);
  ProfileShelf shelf;
  for (const fs::path& layer : layers) {
    ProfileShelf loaded = load_profiles(layer, structures.checks());
    std::ranges::move(loaded.faults, std::back_inserter(shelf.faults));
    for (Profile& profile : loaded.profiles) {
      const auto same = std::ranges::find(shelf.profiles, profile.name, &Profile::name);
      if (same == shelf.profiles.end()) {
        shelf.profiles.push_back(std::move(profile));
      } else {
        *same = std::move(profile);
      }
    }
  }
  std::ranges::sort(shelf.profiles, {}, &Profile::name);
  return shelf;
}

KnownStructures::KnownStructures(const Lexicon* lexicon) : known_(lexicon != nullptr) {
  if (lexicon != nullptr) ids_.assign(lexicon->structure_ids().begin(), lexicon->structure_ids().end());
}

ProfileChecks KnownStructures::checks() const {
  ProfileChecks checks;
  if (known_) checks.structures = ids_;
  return checks;
}

std::string in_words(const ProfileFault& fault) { return fault_in_words(fault); }
std::string in_words(const LexiconFault& fault) { return fault_in_words(fault); }

}  // namespace jointledger
