#include "app/data_folders.h"

#include <system_error>
#include <utility>
#include <variant>

#include "app/options.h"
#include "data/shipped_data.h"

namespace jointledger {
namespace {

namespace fs = std::filesystem;

constexpr const char* kOwnLexiconOnly = "own-lexicon-only";
constexpr const char* kOwnRulesOnly = "own-rules-only";

/// The folder that holds the lexicon/ and rules/ that ship, if there is one.
std::optional<fs::path> data_folder(Console& console) {
  std::error_code error;
  auto data = data_in_force(fs::read_symlink("/proc/self/exe", error));
  if (auto* folder = std::get_if<fs::path>(&data)) return std::move(*folder);
  console.log.error(std::get<std::string>(data));
  return std::nullopt;
}

/// The folders named by `option` over what ships in `name`, which `alone` leaves out.
std::vector<fs::path> folders(const po::variables_map& options, const char* name, const char* alone, Console& console) {
  const Arguments own = values_of(options, name);
  std::vector<fs::path> result;
  if (options.count(alone) == 0) {
    const auto data = data_folder(console);
    if (!data) return {};
    result.push_back(*data / name);
  } else if (own.empty()) {
    console.log.error("--{} needs a folder: --{} DIR", alone, name);
    return {};
  }
  for (const std::string& folder : own) {
    if (!is_folder(folder)) {
      console.log.error("--{}: no folder {}", name, folder);
      return {};
    }
    result.emplace_back(folder);
  }
  return result;
}

template <class Fault>
std::string fault_in_words(const Fault& fault) {
  std::string words = fault.file;
  if (fault.line > 0) words.append(":").append(std::to_string(fault.line));
  return words.append(": ").append(fault.message);
}

std::string at(const TablePlace& place) { return place.file + ":" + std::to_string(place.line); }

}  // namespace

void add_lexicon_option(po::options_description& options) {
  options.add_options()("lexicon", po::value<Arguments>()->composing()->value_name("DIR"),
                        "folder of word tables over those that come with the program; several are layered, later over "
                        "earlier; see: jointledger lexicon check");
  options.add_options()(kOwnLexiconOnly, "use the folders of --lexicon alone");
}

void add_rules_option(po::options_description& options) {
  options.add_options()(
      "rules", po::value<Arguments>()->composing()->value_name("DIR"),
      "folder of profiles over those that come with the program, of the same name the last one holds; "
      "several are layered; see: jointledger profiles");
  options.add_options()(kOwnRulesOnly, "use the folders of --rules alone");
}

std::vector<fs::path> lexicon_folders(const po::variables_map& options, Console& console) {
  return folders(options, "lexicon", kOwnLexiconOnly, console);
}

std::vector<fs::path> rules_folders(const po::variables_map& options, Console& console) {
  return folders(options, "rules", kOwnRulesOnly, console);
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

std::optional<LayeredShelf> load_layered_shelf(const po::variables_map& options, const Lexicon* lexicon,
                                               Console& console) {
  const std::vector<fs::path> layers = rules_folders(options, console);
  if (layers.empty()) return std::nullopt;
  return load_profile_layers(layers, lexicon);
}

std::optional<ProfileShelf> load_shelf(const po::variables_map& options, const Lexicon* lexicon, Console& console) {
  auto layered = load_layered_shelf(options, lexicon, console);
  if (!layered) return std::nullopt;
  return std::move(layered->shelf);
}

std::string in_words(const ProfileFault& fault) { return fault_in_words(fault); }
std::string in_words(const LexiconFault& fault) { return fault_in_words(fault); }

std::string in_words(const LexiconOverride& override) {
  return at(override.holds) + " overrides '" + override.what + "' of " + at(override.replaced);
}

std::string in_words(const ProfileOverride& override) {
  std::string words = override.file + " replaces profile '" + override.name + "' of " + override.replaced + "\n";
  const auto list = [&](std::string_view what, const std::vector<std::string>& ids) {
    for (const std::string& id : ids) words.append("  ").append(what).append(" ").append(id).append("\n");
  };
  list("overrides", override.changed);
  list("leaves out", override.dropped);
  list("adds", override.added);
  return words;
}

}  // namespace jointledger
