#include "plugin/c/loaded_data.h"

#include <dlfcn.h>

#include <algorithm>
#include <system_error>
#include <utility>
#include <variant>

#include "data/profile_layers.h"
#include "data/shipped_data.h"
#include "plugin/c/boundary.h"

namespace jointledger::plugin {
namespace {

namespace fs = std::filesystem;

constexpr unsigned kKnownFlags = JOINTLEDGER_OWN_LEXICON_ONLY | JOINTLEDGER_OWN_RULES_ONLY;

std::optional<std::vector<fs::path>> folders_of(const char* const* folders, std::size_t count) {
  constexpr std::size_t kMostFolders = 1024;
  if ((folders == nullptr && count > 0) || count > kMostFolders) return std::nullopt;
  std::vector<fs::path> paths;
  for (std::size_t i = 0; i < count; ++i) {
    if (folders[i] == nullptr || *folders[i] == '\0') return std::nullopt;
    paths.emplace_back(folders[i]);
  }
  return paths;
}

/// The file of the library that holds this function, links followed.
fs::path this_library() {
  Dl_info info = {};
  static constexpr char kHere = 0;
  if (::dladdr(&kHere, &info) == 0 || info.dli_fname == nullptr) return {};
  std::error_code error;
  fs::path file = fs::canonical(info.dli_fname, error);
  return error ? fs::path() : file;
}

void add_line(std::string& faults, std::string_view file, std::uint32_t line, std::string_view message) {
  faults.append(file);
  if (line > 0) faults.append(":").append(std::to_string(line));
  faults.append(": ").append(message).append("\n");
}

void list(LoadedData& data) {
  data.expectations.reserve(data.profiles.size());
  data.listing.reserve(data.profiles.size());
  for (const Profile& profile : data.profiles) {
    std::vector<jointledger_expectation>& expectations = data.expectations.emplace_back();
    expectations.reserve(profile.expectations.size());
    for (const Expectation& e : profile.expectations) {
      expectations.push_back({.id = e.id.c_str(),
                              .kind = static_cast<std::int32_t>(e.kind),
                              .reserved = 0,
                              .weight = e.weight,
                              .asks = e.asks.c_str(),
                              .why = e.why.c_str(),
                              .source = e.source.c_str()});
    }
    data.listing.push_back({.name = profile.name.c_str(),
                            .title = profile.title.c_str(),
                            .purpose = profile.purpose.c_str(),
                            .caution = profile.caution.c_str(),
                            .expectations = expectations.data(),
                            .expectation_count = expectations.size()});
  }
}

}  // namespace

std::optional<DataPlaces> places_of(const jointledger_engine_options* options) {
  jointledger_engine_options given;
  if (!take_sized(options, given) || (given.flags & ~kKnownFlags) != 0) return std::nullopt;
  auto lexicon = folders_of(given.lexicon, given.lexicon_count);
  auto rules = folders_of(given.rules, given.rules_count);
  if (!lexicon || !rules) return std::nullopt;
  DataPlaces places;
  if (given.data != nullptr) places.data = given.data;
  if (given.data != nullptr && places.data.empty()) return std::nullopt;
  places.lexicon = *std::move(lexicon);
  places.rules = *std::move(rules);
  places.own_lexicon_only = (given.flags & JOINTLEDGER_OWN_LEXICON_ONLY) != 0;
  places.own_rules_only = (given.flags & JOINTLEDGER_OWN_RULES_ONLY) != 0;
  // Nothing over nothing.
  if ((places.own_lexicon_only && places.lexicon.empty()) || (places.own_rules_only && places.rules.empty())) {
    return std::nullopt;
  }
  return places;
}

const Profile* LoadedData::profile_named(std::string_view name) const {
  const auto at = std::ranges::find(profiles, name, &Profile::name);
  return at == profiles.end() ? nullptr : &*at;
}

Loading load(const DataPlaces& places) {
  Loading loading;
  const auto no_data = [&](std::string reason) {
    loading.code = JOINTLEDGER_NO_DATA;
    loading.faults = std::move(reason) + "\n";
    return loading;
  };
  std::vector<fs::path> lexicon = places.lexicon;
  std::vector<fs::path> rules = places.rules;
  if (!places.own_lexicon_only || !places.own_rules_only) {
    fs::path data = places.data;
    if (data.empty()) {
      auto found = data_in_force(this_library());
      if (auto* reason = std::get_if<std::string>(&found)) return no_data(std::move(*reason));
      data = std::get<fs::path>(std::move(found));
    }
    if (!places.own_lexicon_only) lexicon.insert(lexicon.begin(), data / "lexicon");
    if (!places.own_rules_only) rules.insert(rules.begin(), data / "rules");
  }
  for (const std::vector<fs::path>* folders : {&lexicon, &rules}) {
    for (const fs::path& folder : *folders) {
      if (!is_folder(folder)) return no_data("no folder " + folder.string());
    }
  }

  const auto data = std::make_shared<LoadedData>();
  std::vector<LexiconFault> warnings;
  auto loaded = Lexicon::load(lexicon, &warnings);
  if (auto* faults = std::get_if<std::vector<LexiconFault>>(&loaded)) {
    loading.code = JOINTLEDGER_BAD_DATA;
    for (const LexiconFault& fault : *faults) {
      if (fault.severity == LexiconFault::Severity::error) {
        add_line(loading.faults, fault.file, fault.line, fault.message);
      }
    }
    return loading;
  }
  data->lexicon = std::get<std::unique_ptr<const Lexicon>>(std::move(loaded));
  LayeredShelf layered = load_profile_layers(rules, data->lexicon.get());
  if (!layered.shelf.faults.empty()) {
    loading.code = JOINTLEDGER_BAD_DATA;
    for (const ProfileFault& fault : layered.shelf.faults) {
      add_line(loading.faults, fault.file, fault.line, fault.message);
    }
    return loading;
  }
  for (const LexiconFault& warning : warnings) {
    add_line(loading.faults, warning.file, warning.line, "warning: " + warning.message);
  }
  data->profiles = std::move(layered.shelf.profiles);
  list(*data);
  loading.data = data;
  return loading;
}

}  // namespace jointledger::plugin
