#include "lexicon/layers.h"

#include <algorithm>
#include <tuple>

namespace jointledger {

LayerBook::Claim LayerBook::settle(const Row& earlier, std::string_view what, const TablePlace& place) {
  if (earlier.folder == folder_) return Claim::repeated;
  overrides_.push_back({std::string(what), earlier.place, place});
  return Claim::overridden;
}

LayerBook::Claim LayerBook::clash(const void* table, std::uint32_t value, std::string_view what,
                                  const TablePlace& place) {
  const auto at = places_.find({table, value});
  return at == places_.end() ? Claim::repeated : settle(at->second, what, place);
}

LayerBook::Claim LayerBook::claim(const std::string& key, std::string_view what, TablePlace place) {
  const auto [at, fresh] = claims_.try_emplace(key);
  if (!fresh) return settle(at->second, what, place);
  at->second = {folder_, std::move(place)};
  return Claim::fresh;
}

std::vector<LexiconOverride> LayerBook::take_overrides() {
  std::ranges::sort(overrides_, {},
                    [](const LexiconOverride& o) { return std::tie(o.replaced.file, o.replaced.line, o.what); });
  return std::move(overrides_);
}

}  // namespace jointledger
