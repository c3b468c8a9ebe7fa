// The text of a profile file to a Profile, or to the list of what is wrong with it.
//
// A file with faults is read to its end, so that whoever edits it sees all of them at once.
#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "audit/profile.h"
#include "audit/suggest.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::array kProfileKeys = {"name"sv, "title"sv, "purpose"sv, "caution"sv, "consistency"sv, "expectation"sv};
constexpr std::array kConsistencyKeys = {"off"sv};
constexpr std::array kExpectationKeys = {"id"sv,         "applies"sv, "regions"sv,     "components"sv, "motions"sv,
                                         "structures"sv, "sides"sv,   "specificity"sv, "distally"sv,   "needs_result"sv,
                                         "weight"sv,     "kind"sv,    "asks"sv,        "why"sv,        "source"sv};

/// A list of names longer than this is no help in a message.
constexpr std::size_t kListedNames = 6;

std::uint32_t line_of(const toml::source_region& source) { return static_cast<std::uint32_t>(source.begin.line); }

std::string in_quotes(std::string_view text) { return std::string("'").append(text).append("'"); }

/// "; did you mean 'shoulder'?", or what there is to choose from, or nothing.
std::string hint(std::string_view typed, std::span<const std::string_view> known) {
  if (const auto near = nearest_name(typed, known)) return "; did you mean " + in_quotes(*near) + "?";
  if (known.empty() || known.size() > kListedNames) return {};
  std::string text = "; expected ";
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (i > 0) text += i + 1 == known.size() ? " or " : ", ";
    text += in_quotes(known[i]);
  }
  return text;
}

bool is_id(std::string_view text) {
  return !text.empty() &&
         std::ranges::all_of(text, [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
}

class ProfileParser {
 public:
  ProfileParser(std::string_view file, const ProfileChecks& checks) : file_(file), checks_(checks) {}

  ProfileOrFaults parse(std::string_view text) {
    // The parser's exception is turned into a fault here and goes no further.
    try {
      const toml::table root = toml::parse(text, file_);
      Profile profile = read_profile(root);
      if (faults_.empty()) return profile;
    } catch (const toml::parse_error& error) {
      fault(line_of(error.source()), "this is not TOML: " + std::string(error.description()));
    }
    std::ranges::stable_sort(faults_, {}, &ProfileFault::line);
    return std::move(faults_);
  }

 private:
  void fault(std::uint32_t line, std::string message) { faults_.push_back({file_, line, std::move(message)}); }

  Profile read_profile(const toml::table& root) {
    Profile profile;
    check_keys(root, kProfileKeys, "a profile");
    read_text(root, "name", profile.name);
    read_text(root, "title", profile.title);
    read_text(root, "purpose", profile.purpose);
    read_text(root, "caution", profile.caution);
    const std::string stem = std::filesystem::path(file_).stem().string();
    if (const toml::node* node = root.get("name"); !profile.name.empty() && profile.name != stem) {
      fault(line_of(node->source()),
            "the name " + in_quotes(profile.name) + " must be the file's own: " + in_quotes(stem));
    }

    read_consistency(root, profile.checks_off);
    const toml::node* list = root.get("expectation");
    if (list == nullptr) {
      fault(1, "this profile has no [[expectation]]");
      return profile;
    }
    if (!list->is_array_of_tables()) {
      fault(line_of(list->source()), "an expectation begins with [[expectation]], in double brackets");
      return profile;
    }
    std::map<std::string, std::uint32_t, std::less<>> first_use;
    for (const toml::node& node : *list->as_array()) {
      const toml::table& table = *node.as_table();
      profile.expectations.push_back(read_expectation(table));
      const std::string& id = profile.expectations.back().id;
      const std::uint32_t line = line_of(table.source());
      if (id.empty()) continue;
      const auto [at, is_new] = first_use.try_emplace(id, line);
      if (!is_new) {
        fault(line_of(table.get("id")->source()),
              "the id " + in_quotes(id) + " is taken by the expectation at line " + std::to_string(at->second));
      }
    }
    return profile;
  }

  void read_consistency(const toml::table& root, CheckSet& off) {
    const toml::node* node = root.get("consistency");
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr) return fault(line_of(node->source()), "'consistency' is a table: [consistency]");
    check_keys(*table, kConsistencyKeys, "[consistency]");
    read_choices<Check>(*table, "off", "check", check_names(), [&](Check check) { off.insert(check); });
  }

  Expectation read_expectation(const toml::table& table) {
    Expectation e;
    check_keys(table, kExpectationKeys, "an expectation");
    read_text(table, "id", e.id);
    read_text(table, "asks", e.asks);
    read_text(table, "why", e.why);
    read_text(table, "source", e.source);
    read_choice(table, "applies", applies_names(), e.applies);
    read_choice(table, "sides", sides_names(), e.sides);
    read_choice(table, "specificity", specificity_names(), e.specificity);
    read_choice(table, "kind", kind_names(), e.kind);
    read_flag(table, "distally", e.distally);
    read_flag(table, "needs_result", e.needs_result);
    read_weight(table, e.weight);
    read_choices<Region>(table, "regions", "region", region_names(), [&](Region r) { e.regions.push_back(r); });
    read_choices<Component>(table, "components", "component", component_names(),
                            [&](Component c) { e.components.push_back(c); });
    read_choices<Motion>(table, "motions", "motion", motion_names(), [&](Motion m) { e.motions.insert(m); });
    read_structures(table, e.structures);
    check_sense(table, e);
    return e;
  }

  /// What each key alone cannot tell: keys that are missing, or that contradict each other.
  void check_sense(const toml::table& table, const Expectation& e) {
    const std::uint32_t line = line_of(table.source());
    const auto line_at = [&](std::string_view key) {
      const toml::node* node = table.get(key);
      return node != nullptr ? line_of(node->source()) : line;
    };
    if (!e.id.empty() && !is_id(e.id)) {
      fault(line_at("id"), "the id " + in_quotes(e.id) + " may hold lower-case letters, digits and hyphens only");
    }
    if (table.get("components") == nullptr) fault(line, "'components' is missing");
    if (std::ranges::count(e.components, Component::unspecified) > 0) {
      fault(line_at("components"), "'unspecified' cannot be asked for: a remark that names no component meets nothing");
    }
    if (e.applies == Applies::always && table.get("regions") == nullptr) {
      fault(line, "'regions' is missing: it may be left out only where 'applies' gives the regions");
    }
    if (!e.motions.empty() && e.components != std::vector{Component::range_of_motion}) {
      fault(line_at("motions"), "'motions' can be asked for only where 'components' is [\"range_of_motion\"]");
    }
    const bool by_complaint = e.applies != Applies::always && e.applies != Applies::if_examined;
    if ((e.sides == Sides::complaint_side || e.sides == Sides::other_side) && !by_complaint) {
      fault(line_at("sides"), in_quotes(name(e.sides)) + " has no meaning where 'applies' is " +
                                  in_quotes(name(e.applies)) + ": there need be no complaint");
    }
  }

  void check_keys(const toml::table& table, std::span<const std::string_view> known, std::string_view what) {
    for (const auto& [key, node] : table) {
      if (std::ranges::find(known, key.str()) != known.end()) continue;
      fault(line_of(key.source()),
            in_quotes(key.str()) + " is not a key of " + std::string(what) + hint(key.str(), known));
    }
  }

  void read_text(const toml::table& table, std::string_view key, std::string& out) {
    const toml::node* node = table.get(key);
    if (node == nullptr) {
      // A key missing from the file as a whole is reported at its top.
      const auto line = line_of(table.source());
      return fault(std::max<std::uint32_t>(1, line), in_quotes(key) + " is missing");
    }
    const auto* text = node->as_string();
    if (text == nullptr) return fault(line_of(node->source()), in_quotes(key) + " must be text");
    if (text->get().empty()) return fault(line_of(node->source()), in_quotes(key) + " is empty");
    out = text->get();
  }

  void read_flag(const toml::table& table, std::string_view key, bool& out) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return;
    const auto* flag = node->as_boolean();
    if (flag == nullptr) return fault(line_of(node->source()), in_quotes(key) + " must be true or false");
    out = flag->get();
  }

  void read_weight(const toml::table& table, double& out) {
    const toml::node* node = table.get("weight");
    if (node == nullptr) return;
    if (!node->is_number()) return fault(line_of(node->source()), "'weight' must be a number");
    const double weight = node->value<double>().value_or(std::numeric_limits<double>::quiet_NaN());
    // Written so that not-a-number fails too.
    if (!(weight > 0.0 && weight <= kHeaviest)) {
      return fault(line_of(node->source()),
                   "'weight' must be more than 0 and at most " + std::to_string(std::lround(kHeaviest)));
    }
    out = weight;
  }

  template <class Value>
  void read_choice(const toml::table& table, std::string_view key, std::span<const std::string_view> names,
                   Value& out) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return;
    const auto* text = node->as_string();
    if (text == nullptr) return fault(line_of(node->source()), in_quotes(key) + " must be text");
    const auto at = std::ranges::find(names, text->get());
    if (at == names.end()) {
      return fault(line_of(node->source()),
                   in_quotes(text->get()) + " is no value of " + in_quotes(key) + hint(text->get(), names));
    }
    out = static_cast<Value>(at - names.begin());
  }

  /// Hands on each name of the list at `key`, having faulted lists that are no lists, are empty, or repeat themselves.
  template <class Use>
  void read_names(const toml::table& table, std::string_view key, Use use) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return;
    const toml::array* list = node->as_array();
    if (list == nullptr) return fault(line_of(node->source()), in_quotes(key) + " must be a list of names in brackets");
    if (list->empty()) return fault(line_of(node->source()), in_quotes(key) + " is empty: leave it out instead");
    std::vector<std::string_view> seen;
    for (const toml::node& item : *list) {
      const std::uint32_t line = line_of(item.source());
      const auto* text = item.as_string();
      if (text == nullptr) {
        fault(line, in_quotes(key) + " must hold names only");
      } else if (std::ranges::find(seen, text->get()) != seen.end()) {
        fault(line, in_quotes(text->get()) + " stands twice in " + in_quotes(key));
      } else {
        seen.push_back(text->get());
        use(line, text->get());
      }
    }
  }

  template <class Value, class Use>
  void read_choices(const toml::table& table, std::string_view key, std::string_view what,
                    std::span<const std::string_view> names, Use use) {
    read_names(table, key, [&](std::uint32_t line, std::string_view text) {
      const auto at = std::ranges::find(names, text);
      if (at == names.end()) {
        return fault(line, in_quotes(text) + " is not a " + std::string(what) + hint(text, names));
      }
      use(static_cast<Value>(at - names.begin()));
    });
  }

  void read_structures(const toml::table& table, std::vector<std::string>& out) {
    read_names(table, "structures", [&](std::uint32_t line, std::string_view text) {
      if (checks_.structures && std::ranges::find(*checks_.structures, text) == checks_.structures->end()) {
        return fault(line, in_quotes(text) + " is not a structure" + hint(text, *checks_.structures));
      }
      out.emplace_back(text);
    });
  }

  std::string file_;
  const ProfileChecks& checks_;
  std::vector<ProfileFault> faults_;
};

}  // namespace

ProfileOrFaults parse_profile(std::string_view toml, std::string_view file, const ProfileChecks& checks) {
  return ProfileParser(file, checks).parse(toml);
}

}  // namespace jointledger
