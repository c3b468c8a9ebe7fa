// jointledger explain: what an expectation asks for, and why.
#include <algorithm>
#include <string>
#include <vector>

#include "app/data_folders.h"
#include "app/options.h"
#include "app/profile_choice.h"
#include "audit/prompt.h"
#include "report/plain_text.h"

namespace jointledger {
namespace {

constexpr Help kHelp = {
    "jointledger explain",
    "ID",
    "Says what an expectation asks for, why, and on whose authority. ID is the id of\n"
    "an expectation as it stands in an audit, in whatever profile; PROFILE/ID, for\n"
    "one profile; or the name of a profile, for the whole of it.\n",
    "  jointledger explain shoulder-motion\n"
    "  jointledger explain complaint/palpation\n"
    "  jointledger explain screening\n",
};

std::string number(double value) {
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

template <class List, class Words>
std::string joined(const List& list, std::string_view last, const Words& words) {
  std::string text;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i > 0) text.append(i + 1 == list.size() ? last : ", ");
    text.append(words(list[i]));
  }
  return text;
}

std::string_view in_words(Applies value) {
  switch (value) {
    case Applies::always:
      return "of every note";
    case Applies::if_examined:
      return "where the region was examined at all";
    case Applies::if_complaint:
      return "where the region is complained of";
    case Applies::if_injury:
      return "where the region is complained of after an injury";
    case Applies::if_neighbour:
      break;
  }
  return "where the joint above or below is complained of";
}

std::string_view in_words(Sides value) {
  switch (value) {
    case Sides::region_default:
      return "left and right of what comes in pairs";
    case Sides::both:
      return "left and right";
    case Sides::complaint_side:
      return "the side complained of";
    case Sides::other_side:
      return "the side not complained of";
    case Sides::any:
      break;
  }
  return "any";
}

std::string_view in_words(Specificity value) {
  switch (value) {
    case Specificity::region:
      return "it must name the region";
    case Specificity::limb:
      return "a remark on the limb or the spine as a whole is enough";
    case Specificity::whole_body:
      break;
  }
  return "a remark on the whole body is enough";
}

std::vector<Motion> list_of(MotionSet set) {
  std::vector<Motion> list;
  for (std::size_t i = 0; i < kMotionCount; ++i) {
    if (const auto motion = static_cast<Motion>(i); set.contains(motion)) list.push_back(motion);
  }
  return list;
}

void explain(const Profile& profile, const Expectation& expectation, std::string& out) {
  const auto line = [&](std::string_view label, std::string_view text) {
    if (text.empty()) return;
    std::string first = "  " + std::string(label);
    first.resize(std::max<std::size_t>(first.size() + 1, 13), ' ');
    append_wrapped(text, first, std::string(13, ' '), out);
  };
  out.append(profile.name).append("/").append(expectation.id).append("\n");
  line("Asks for", expectation.asks);
  line("Why", expectation.why);
  line("Source", expectation.source);
  line("Counts", std::string(name(expectation.kind)) + ", weight " + number(expectation.weight));
  line("When", in_words(expectation.applies));
  line("Region", joined(expectation.regions, ", ", [](Region r) { return place(r, Side::unstated); }));
  line("Component", joined(expectation.components, " or ", [](Component c) { return phrase(c); }));
  line("Motions", joined(list_of(expectation.motions), ", ", [](Motion m) { return phrase(m); }));
  line("Structures", joined(expectation.structures, ", ", [](const std::string& id) {
         std::string words = id;
         std::ranges::replace(words, '_', ' ');
         return words;
       }));
  line("Sides", in_words(expectation.sides));
  std::string how(in_words(expectation.specificity));
  if (expectation.distally) how.append("; one further down the limb counts as well");
  how.append(expectation.needs_result ? "; it must give a result" : "; it need not give a result");
  line("A remark", how);
}

/// A whole profile: what it is for, and a line for each expectation.
void explain(const Profile& profile, std::string& out) {
  out.append(profile.name).append("\n");
  append_wrapped(profile.title, "  ", "  ", out);
  append_wrapped(profile.purpose, "  ", "  ", out);
  append_wrapped(profile.caution, "  ", "  ", out);
  for (const Expectation& expectation : profile.expectations) {
    append_wrapped(expectation.asks, "  " + expectation.id + " (" + std::string(name(expectation.kind)) + "): ", "    ",
                   out);
  }
}

/// Appends all that `id` may mean; nothing if it means nothing.
std::string explanation(const ProfileShelf& shelf, std::string_view id) {
  std::string out;
  for (const Profile& profile : shelf.profiles) {
    const auto entry = [&](auto&&... arguments) {
      if (!out.empty()) out.append("\n");
      explain(arguments..., out);
    };
    if (profile.name == id) entry(profile);
    for (const Expectation& expectation : profile.expectations) {
      if (expectation.id == id || profile.name + "/" + expectation.id == id) entry(profile, expectation);
    }
  }
  return out;
}

}  // namespace

int explain_command(const Arguments& arguments, Console& console) {
  po::options_description options("Options");
  add_rules_option(options);
  int status = kComplete;
  const auto values = read_options(arguments, options, "id", kHelp, console, status);
  if (!values) return status;
  const Arguments ids = values_of(*values, "id");
  if (ids.empty()) {
    console.log.error("which expectation? its id stands in brackets under each gap; see: jointledger explain --help");
    return kTrouble;
  }
  const auto shelf = load_shelf(*values, nullptr, console);
  if (!shelf) return kTrouble;
  for (const ProfileFault& fault : shelf->faults) console.log.warn(in_words(fault));
  for (const std::string& id : ids) {
    const std::string text = explanation(*shelf, id);
    if (!text.empty()) {
      if (&id != &ids.front()) console.out.write("\n");
      console.out.write(text);
      continue;
    }
    std::vector<std::string_view> known = names_of(*shelf);
    std::vector<std::string> full;
    for (const Profile& profile : shelf->profiles) {
      for (const Expectation& expectation : profile.expectations) {
        known.push_back(expectation.id);
        full.push_back(profile.name + "/" + expectation.id);
      }
    }
    known.insert(known.end(), full.begin(), full.end());
    console.log.error("no expectation '{}'{}", on_one_line(id), did_you_mean(id, known));
    status = kTrouble;
  }
  return status;
}

}  // namespace jointledger
