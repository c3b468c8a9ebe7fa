// What is wrong with a table is said with its file and line.
#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "folder.h"
#include "lexicon/lexicon.h"

namespace jointledger {
namespace {

constexpr std::string_view kGoodRegions = "phrase\tnumber\tregion\nknee\tone\tknee\n";

class FaultsTest : public testing::FolderTest {
 protected:
  /// Loads the folders named and gives "file:line: message" for each fault, warnings if there was no error.
  std::vector<std::string> faults(const std::vector<std::string>& folders = {""}) {
    std::vector<std::filesystem::path> paths;
    paths.reserve(folders.size());
    for (const std::string& folder : folders)
      paths.push_back(folder.empty() ? path("regions.tsv").parent_path() : path(folder));
    std::vector<LexiconFault> found;
    auto loaded = Lexicon::load(paths, &found);
    if (auto* errors = std::get_if<std::vector<LexiconFault>>(&loaded)) {
      found = *errors;
    } else {
      lexicon_ = std::get<std::unique_ptr<const Lexicon>>(std::move(loaded));
    }
    std::vector<std::string> shown;
    for (const LexiconFault& f : found) {
      const auto file = std::filesystem::path(f.file).filename().string();
      shown.push_back((f.severity == LexiconFault::Severity::warning ? "warning " : "") + file + ":" +
                      std::to_string(f.line) + ": " + f.message);
    }
    return shown;
  }
  /// The only fault there is.
  std::string fault() {
    const auto all = faults();
    EXPECT_EQ(all.size(), 1U);
    return all.empty() ? "" : all.front();
  }
  std::unique_ptr<const Lexicon> lexicon_;
};

struct BadTable {
  const char* file;
  const char* rows;   ///< header and one good row, then a bad one at line 3
  const char* fault;  ///< how the message begins
};

// Every table, with a concept in it that there is not.
constexpr BadTable kUnknown[] = {
    {"regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\nknie\tone\tkne\n", "regions.tsv:3: unknown region 'kne'"},
    {"regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\nhips\tfew\thip\n", "regions.tsv:3: unknown number 'few'"},
    {"structures.tsv",
     "phrase\tnumber\tkind\tregion\tid\treflex\tin_leg\nshin\tone\tpart\tlower_leg\tshin\t-\t-\n"
     "calf\tone\tmeat\tlower_leg\tcalf\t-\t-\n",
     "structures.tsv:3: unknown kind 'meat'"},
    {"structures.tsv",
     "phrase\tnumber\tkind\tregion\tid\treflex\tin_leg\nshin\tone\tpart\tlower_leg\tshin\t-\t-\n"
     "calf\tone\tpart\tlower_leg\t-\t-\t-\n",
     "structures.tsv:3: a structure needs an id"},
    {"findings.tsv",
     "phrase\tcomponent\tsense\tclass\tplace\tadmit\tnote\nswelling\tinspection\tbad\tnoun\t-\t-\t-\n"
     "itch\tskin\tbad\tnoun\t-\t-\t-\n",
     "findings.tsv:3: unknown component 'skin'"},
    {"findings.tsv",
     "phrase\tcomponent\tsense\tclass\tplace\tadmit\tnote\nswelling\tinspection\tbad\tnoun\t-\t-\t-\n"
     "itch\tinspection\tugly\tnoun\t-\t-\t-\n",
     "findings.tsv:3: unknown sense 'ugly'"},
    {"components.tsv",
     "phrase\tcomponent\tweight\tplace\tadmit\nstrength\tstrength\ttopic\t-\t-\nlooks\tinspection\theavy\t-\t-\n",
     "components.tsv:3: unknown weight 'heavy'"},
    {"motions.tsv", "phrase\tmotion\tas\tregion\nflexion\tflexion\tmotion\t-\nwiggle\twiggling\tmotion\t-\n",
     "motions.tsv:3: unknown motion 'wiggling'"},
    {"tests.tsv",
     "phrase\ttest\tcomponent\tregion\nLachman\tlachman\tstability\tknee\nNeer\tneer\tspecial_test\tshoulders\n",
     "tests.tsv:3: unknown region 'shoulders'"},
    {"sides.tsv", "phrase\tside\tuse\nleft\tleft\tword\nport\tport\tword\n", "sides.tsv:3: unknown side 'port'"},
    {"cues.tsv", "phrase\tcue\nno\tno\nmaybe\tmaybe\n", "cues.tsv:3: unknown cue 'maybe'"},
    {"grammar.tsv", "phrase\trole\nand\tand\nhowever\tadverb\n", "grammar.tsv:3: unknown role 'adverb'"},
    {"headings.tsv", "phrase\tsection\tscope\tadmits\nexam\texam\t-\tall\nfoo\tbar\t-\tall\n",
     "headings.tsv:3: unknown section 'bar'"},
    {"elsewhere.tsv", "phrase\tkind\nliver\tplace\nmoon\torbit\n", "elsewhere.tsv:3: unknown kind 'orbit'"},
    {"sided_regions.tsv", "phrase\tregion\tside\nRUE\tupper_extremity\tright\nLXE\tlower_extremity\tsinister\n",
     "sided_regions.tsv:3: unknown side 'sinister'"},
    {"complaints.tsv", "phrase\tuse\tregion\tside\npain\tsymptom\t-\t-\nfoo\tbar\t-\t-\n",
     "complaints.tsv:3: unknown use 'bar'"},
    {"measures.tsv", "kind\tpattern\nskip\t\\d+\nlength\t\\d+ cm\n", "measures.tsv:3: unknown kind 'length'"},
    {"measures.tsv", "kind\tpattern\nskip\t\\d+\ndegrees\t(\\d+\n", "measures.tsv:3: pattern: "},
    {"ranges.tsv",
     "region\tmotion\tnormal\timplausible_above\tsource\nknee\tflexion\t140\t160\tx\nknee\tbending\t140\t160\tx\n",
     "ranges.tsv:3: unknown motion 'bending'"},
};

TEST_F(FaultsTest, NameUnknownConcepts) {
  for (const BadTable& bad : kUnknown) {
    write("regions.tsv", kGoodRegions);  // a lexicon without phrases would be another error
    write(bad.file, bad.rows);
    const std::string found = fault();
    EXPECT_TRUE(found.starts_with(bad.fault)) << found << "\n  expected " << bad.fault;
    std::filesystem::remove(path(bad.file));
  }
}

TEST_F(FaultsTest, NameRowsOfTheWrongLength) {
  write("regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\nhip\tone\nelbow\tone\telbow\tx\n");
  EXPECT_EQ(faults(), (std::vector<std::string>{"regions.tsv:3: 2 cells where 3 are needed",
                                                "regions.tsv:4: 4 cells where 3 are needed"}));
}

TEST_F(FaultsTest, NameAWrongHeader) {
  write("regions.tsv", "phrase\tplace\nknee\tknee\n");
  EXPECT_EQ(faults().front(), "regions.tsv:0: the header must name the columns phrase, number, region");
}

TEST_F(FaultsTest, NameARowWithoutPhraseAndAPhraseWithoutWords) {
  write("regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n-\tone\thip\n| |\tone\thip\n");
  EXPECT_EQ(faults(), (std::vector<std::string>{"regions.tsv:3: a row without a phrase",
                                                "regions.tsv:4: a row without a phrase"}));
}

TEST_F(FaultsTest, NameEveryError) {
  write("regions.tsv", "phrase\tnumber\tregion\nknee\tone\tkne\nhip\tone\thipp\n");
  write("cues.tsv", "phrase\tcue\nno\tnope\n");
  EXPECT_GE(faults().size(), 3U);
}

TEST_F(FaultsTest, WarnOfPhrasesThatAnEarlierRowHas) {
  write("regions.tsv", "phrase\tnumber\tregion\nknee | Knee\tone\tknee\nhip\tone\thip\nhip joint | hip\tone\thip\n");
  EXPECT_EQ(faults(), (std::vector<std::string>{"warning regions.tsv:2: 'Knee' is unreachable: an earlier row has it",
                                                "warning regions.tsv:4: 'hip' is unreachable: an earlier row has it"}));
  ASSERT_NE(lexicon_, nullptr);  // a warning does not keep the lexicon from being used
}

TEST_F(FaultsTest, WarnAcrossTables) {
  write("regions.tsv", kGoodRegions);
  write("set_phrases.tsv", "phrase\twhy\nknee\tfor the test\n");
  EXPECT_EQ(fault(), "warning regions.tsv:2: 'knee' is unreachable: an earlier row has it");
}

TEST_F(FaultsTest, NameAMissingFolderAndOneWithoutPhrases) {
  const auto missing = faults({"nowhere"});
  ASSERT_FALSE(missing.empty());
  EXPECT_EQ(missing.front(), "nowhere:0: no such folder");
  write("empty/readme.txt", "nothing here");
  const auto empty = faults({"empty"});
  ASSERT_EQ(empty.size(), 1U);
  EXPECT_NE(empty.front().find("no phrases in any table"), std::string::npos);
}

TEST_F(FaultsTest, ALaterFolderAddsAndWins) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\njoint\tone\tknee\n");
  write("site/regions.tsv", "phrase\tnumber\tregion\njoint\tone\thip\nhock\tone\tankle\n");
  faults({"base", "site"});
  ASSERT_NE(lexicon_, nullptr);
  const auto region_of = [&](std::string_view word) -> std::optional<Region> {
    TokenKey key;
    key.word = lexicon_->vocabulary().find(word);
    const auto match = lexicon_->phrases().longest(std::span(&key, 1), 0);
    if (match.length == 0) return std::nullopt;
    return lexicon_->meaning(match.value).region;
  };
  EXPECT_EQ(region_of("knee"), Region::knee);
  EXPECT_EQ(region_of("joint"), Region::hip);
  EXPECT_EQ(region_of("hock"), Region::ankle);
}

}  // namespace
}  // namespace jointledger
