#include "app/profile_choice.h"

#include <algorithm>

#include "app/data_folders.h"
#include "app/options.h"
#include "report/plain_text.h"

namespace jointledger {

std::vector<std::string_view> names_of(const ProfileShelf& shelf) {
  std::vector<std::string_view> names;
  for (const Profile& profile : shelf.profiles) names.push_back(profile.name);
  return names;
}

const Profile* choose_profile(const ProfileShelf& shelf, std::string_view name, Console& console) {
  const auto found = std::ranges::find(shelf.profiles, name, &Profile::name);
  if (found != shelf.profiles.end()) return &*found;
  for (const ProfileFault& fault : shelf.faults) console.log.error(in_words(fault));
  const std::vector<std::string_view> names = names_of(shelf);
  if (name.empty()) {
    console.log.error("which profile? --profile NAME (there are: {})", listed(names));
  } else {
    console.log.error("no profile '{}'{} (there are: {})", on_one_line(name), did_you_mean(name, names), listed(names));
  }
  return nullptr;
}

}  // namespace jointledger
