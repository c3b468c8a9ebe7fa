// The tables in lexicon/ as they ship.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "../reading/shipped.h"
#include "lexicon/lexicon.h"
#include "lexicon/table.h"
#include "text/tokens.h"

namespace jointledger {
namespace {

using testing::shipped_lexicon;

TEST(ShippedLexicon, LoadsWithoutErrorsOrWarnings) {
  const std::array folders = {std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "lexicon"};
  std::vector<LexiconFault> faults;
  auto loaded = Lexicon::load(folders, &faults);
  if (auto* errors = std::get_if<std::vector<LexiconFault>>(&loaded)) faults = *errors;
  for (const LexiconFault& f : faults) ADD_FAILURE() << f.file << ':' << f.line << ": " << f.message;
}

TEST(ShippedLexicon, HasAtLeastFifteenHundredPhrases) { EXPECT_GE(shipped_lexicon().phrase_count(), 1500U); }

/// What the whole of `text` means, if it is one phrase.
const Concept* meaning(std::string_view text) {
  std::vector<Token> tokens;
  tokenize(text, tokens);
  std::vector<TokenKey> keys;
  keys.reserve(tokens.size());
  std::string scratch;
  for (const Token& t : tokens) {
    keys.push_back(shipped_lexicon().key(text.substr(t.start, t.end - t.start), t, scratch));
  }
  const auto match = shipped_lexicon().phrases().longest(keys, 0);
  return match.length == keys.size() ? &shipped_lexicon().meaning(match.value) : nullptr;
}

struct Abbreviation {
  std::string_view text;
  std::optional<Region> region;
  Component component = Component::unspecified;
};

// The abbreviations that a reader of such notes cannot do without: a region, a part of the exam, or a finding of one.
constexpr std::array kAbbreviations = {
    Abbreviation{"ROM", std::nullopt, Component::range_of_motion},
    Abbreviation{"AROM", std::nullopt, Component::range_of_motion},
    Abbreviation{"PROM", std::nullopt, Component::range_of_motion},
    Abbreviation{"FROM", std::nullopt, Component::range_of_motion},
    Abbreviation{"TTP", std::nullopt, Component::palpation},
    Abbreviation{"DTR", std::nullopt, Component::reflexes},
    Abbreviation{"DTRs", std::nullopt, Component::reflexes},
    Abbreviation{"NVI", std::nullopt, Component::sensation},
    Abbreviation{"SLR", Region::lumbar_spine, Component::special_test},
    Abbreviation{"AC joint", Region::shoulder},
    Abbreviation{"SC joint", Region::shoulder},
    Abbreviation{"SI joint", Region::pelvis},
    Abbreviation{"MCP", Region::hand},
    Abbreviation{"MCPs", Region::hand},
    Abbreviation{"PIP", Region::hand},
    Abbreviation{"PIPs", Region::hand},
    Abbreviation{"DIP", Region::hand},
    Abbreviation{"DIPs", Region::hand},
    Abbreviation{"CMC", Region::hand},
    Abbreviation{"TMJ", Region::temporomandibular},
    Abbreviation{"TMJs", Region::temporomandibular},
    Abbreviation{"C-spine", Region::cervical_spine},
    Abbreviation{"T-spine", Region::thoracic_spine},
    Abbreviation{"L-spine", Region::lumbar_spine},
    Abbreviation{"C spine", Region::cervical_spine},
    Abbreviation{"LS spine", Region::lumbar_spine},
    Abbreviation{"RUE", Region::upper_extremity},
    Abbreviation{"LLE", Region::lower_extremity},
    Abbreviation{"EHL", Region::foot},
    Abbreviation{"MMT", std::nullopt, Component::strength},
};

TEST(ShippedLexicon, KnowsTheCommonAbbreviations) {
  for (const Abbreviation& a : kAbbreviations) {
    const Concept* found = meaning(a.text);
    ASSERT_NE(found, nullptr) << a.text;
    EXPECT_EQ(found->region, a.region) << a.text;
    if (a.component != Component::unspecified) {
      EXPECT_EQ(found->component, a.component) << a.text;
    }
  }
}

TEST(ShippedLexicon, KnowsAbbreviatedSidesAndJudgements) {
  for (const std::string_view both : {"BL", "B/L", "bilat", "R>L"}) {
    ASSERT_NE(meaning(both), nullptr) << both;
    EXPECT_EQ(meaning(both)->side, SideWord::both) << both;
  }
  for (const std::string_view normal : {"WNL", "WFL"}) {
    ASSERT_NE(meaning(normal), nullptr) << normal;
    EXPECT_EQ(meaning(normal)->kind, ConceptKind::cue) << normal;
  }
  ASSERT_NE(meaning("L"), nullptr);
  EXPECT_TRUE(meaning("L")->letter);
  EXPECT_TRUE(meaning("R")->letter);
}

TEST(ShippedLexicon, KnowsBothSpellings) {
  for (const auto& [british, american] : {std::pair{"oedema", "edema"},
                                          {"tumour", "tumor"},
                                          {"colour", "color"},
                                          {"anaesthesia", "anesthesia"},
                                          {"manoeuvre", "maneuver"}}) {
    EXPECT_EQ(meaning(british) == nullptr, meaning(american) == nullptr) << british;
  }
  for (const auto& [singular, plural] : {std::pair{"knee", "knees"},
                                         {"epicondyle", "epicondyles"},
                                         {"foot", "feet"},
                                         {"calf", "calves"},
                                         {"scapula", "scapulae"},
                                         {"pulse", "pulses"}}) {
    EXPECT_NE(meaning(singular), nullptr) << singular;
    EXPECT_NE(meaning(plural), nullptr) << plural;
  }
}

/// What stands in a column of a table, values in a list apart.
std::set<std::string> values(std::string_view file, std::string_view column) {
  const auto table = read_table(std::filesystem::path(JOINTLEDGER_SOURCE_DIR) / "lexicon" / file);
  if (!table) return {};
  const auto at = static_cast<std::size_t>(std::ranges::find(table->columns, column) - table->columns.begin());
  std::set<std::string> found;
  for (const TableRow& row : table->rows) {
    std::istringstream cell(row.cells.at(at));
    for (std::string value; std::getline(cell, value, ',');) found.insert(value);
  }
  return found;
}

// What a ledger can hold, some phrase can put into it.
TEST(ShippedLexicon, ReachesTheWholeVocabulary) {
  std::set<std::string> components = values("components.tsv", "component");
  components.merge(values("tests.tsv", "component"));
  for (const std::string_view name : component_names()) {
    EXPECT_TRUE(name == "unspecified" || components.contains(std::string(name))) << name;
  }
  const std::set<std::string> regions = values("regions.tsv", "region");
  for (const std::string_view name : region_names()) {
    EXPECT_TRUE(name == "whole_body" || regions.contains(std::string(name))) << name;
  }
  const std::set<std::string> motions = values("motions.tsv", "motion");
  for (const std::string_view name : motion_names()) {
    // Of the shoulder blade and the jaw; notes hardly name it, and "depression" means something else in them.
    EXPECT_TRUE(name == "depression" || motions.contains(std::string(name))) << name;
  }
}

}  // namespace
}  // namespace jointledger
