// jointledger profiles: what notes can be held against.
#include <algorithm>
#include <variant>

#include "app/data_folders.h"
#include "app/options.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger profiles",
    "[--check FILE]",
    "Lists the profiles, a line each, and which of them a folder of --rules replaces:\n"
    "a profile there stands for the one of the same name that ships, whole. With\n"
    "--check, says what is wrong with profile files: unknown keys, regions, motions\n"
    "and structures, values out of range, duplicates; each with file, line and a\n"
    "suggestion.\n"
    "\n"
    "Exit status: 0 all is well; 2 something is wrong with a profile.\n",
    "  jointledger profiles\n"
    "  jointledger profiles --rules ./our-rules\n"
    "  jointledger profiles --check our-rules/hand-clinic.toml\n",
};

int check(const Arguments& files, const po::variables_map& values, Console& console) {
  const auto lexicon = load_lexicon(values, console);
  if (!lexicon) return kTrouble;
  const KnownStructures structures(lexicon.get());
  int status = kComplete;
  for (const std::string& file : files) {
    const ProfileOrFaults loaded = load_profile(file, structures.checks());
    if (const auto* profile = std::get_if<Profile>(&loaded)) {
      console.out.write(file + ": " + std::to_string(profile->expectations.size()) + " expectations, no faults\n");
      continue;
    }
    status = kTrouble;
    for (const ProfileFault& fault : std::get<std::vector<ProfileFault>>(loaded)) {
      console.out.write(in_words(fault) + "\n");
    }
  }
  return status;
}

}  // namespace

int profiles_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  options.add_options()("check", po::value<Arguments>()->composing()->value_name("FILE"),
                        "check this file instead; may be given several times");
  add_rules_option(options);
  add_lexicon_option(options);
  int status = kComplete;
  const auto values = read_options(arguments, options, "", kHelp, console, status);
  if (!values) return status;
  if (values->count("check") > 0) return check(values_of(*values, "check"), *values, console);

  const auto layered = load_layered_shelf(*values, nullptr, console);
  if (!layered) return kTrouble;
  const ProfileShelf* shelf = &layered->shelf;
  std::size_t widest = 0;
  for (const Profile& profile : shelf->profiles) widest = std::max(widest, width_of(profile.name));
  for (const Profile& profile : shelf->profiles) {
    std::string label = profile.name;
    label.append(widest + 2 - width_of(label), ' ');
    append_wrapped(profile.title, label, std::string(widest + 2, ' '), console.out.buffer());
  }
  for (const ProfileOverride& override : layered->overrides) {
    console.out.write("\n");
    console.out.write(in_words(override));
  }
  for (const ProfileFault& fault : shelf->faults) console.log.error(in_words(fault));
  return shelf->faults.empty() ? kComplete : kTrouble;
}

}  // namespace jointledger
