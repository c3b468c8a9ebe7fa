// Folders of tables laid over each other: what holds, and what is told of the rest.
#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "folder.h"
#include "lexicon/lexicon.h"

namespace jointledger {
namespace {

using Strings = std::vector<std::string>;

class LayersTest : public testing::FolderTest {
 protected:
  /// Loads base/ and site/ over it; what was overridden, as "site/x.tsv:2 'what' base/x.tsv:3".
  Strings overrides() {
    const std::array folders = {path("base"), path("site")};
    std::vector<LexiconOverride> found;
    auto loaded = Lexicon::load(folders, &warnings_, &found);
    lexicon_ = std::holds_alternative<std::unique_ptr<const Lexicon>>(loaded)
                   ? std::get<std::unique_ptr<const Lexicon>>(std::move(loaded))
                   : nullptr;
    Strings shown;
    for (const LexiconOverride& o : found)
      shown.push_back(in_words(o.holds) + " '" + o.what + "' " + in_words(o.replaced));
    return shown;
  }
  std::string in_words(const TablePlace& place) const {
    const std::filesystem::path file = place.file;
    return (file.parent_path().filename() / file.filename()).string() + ":" + std::to_string(place.line);
  }
  std::unique_ptr<const Lexicon> lexicon_;
  std::vector<LexiconFault> warnings_;
};

TEST_F(LayersTest, NamePhrasesWithBothTheirRows) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\njoint | joint line\tone\tknee\n");
  write("site/regions.tsv", "phrase\tnumber\tregion\nhock\tone\tankle\njoint\tone\thip\n");
  EXPECT_EQ(overrides(), Strings{"site/regions.tsv:3 'joint' base/regions.tsv:3"});
  ASSERT_NE(lexicon_, nullptr);
  EXPECT_TRUE(warnings_.empty());           // to override is meant
  EXPECT_EQ(lexicon_->phrase_count(), 4U);  // knee, joint line, hock, joint
}

TEST_F(LayersTest, NamePhrasesOfOtherTables) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  write("site/set_phrases.tsv", "phrase\twhy\nknee\tfor the test\n");
  EXPECT_EQ(overrides(), Strings{"site/set_phrases.tsv:2 'knee' base/regions.tsv:2"});
}

TEST_F(LayersTest, HeadingsOverrideHeadingsOnly) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  write("base/headings.tsv", "phrase\tsection\tscope\tadmits\nexam\texam\t-\tall\n");
  write("site/headings.tsv", "phrase\tsection\tscope\tadmits\nexam\tplan\t-\tall\nknee\tsystem\tknee\tall\n");
  EXPECT_EQ(overrides(), Strings{"site/headings.tsv:2 'exam' base/headings.tsv:2"});
}

TEST_F(LayersTest, ALaterRangeHolds) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  const std::string columns = "region\tmotion\tnormal\timplausible_above\tsource\n";
  write("base/ranges.tsv", columns + "knee\tflexion\t140\t160\tx\nhip\tflexion\t125\t150\tx\n");
  write("site/ranges.tsv", columns + "knee\tflexion\t150\t170\ty\n");
  EXPECT_EQ(overrides(), Strings{"site/ranges.tsv:2 'knee flexion' base/ranges.tsv:2"});
  ASSERT_NE(lexicon_, nullptr);
  ASSERT_EQ(lexicon_->motion_limits().size(), 2U);
  EXPECT_EQ(lexicon_->motion_limits()[0].normal, 150);
}

TEST_F(LayersTest, ALaterWeightHolds) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  write("base/certainty.tsv", "feature\tvalue\tweight\nbase\t-\t0.5\nplace\town\t1\n");
  write("site/certainty.tsv", "feature\tvalue\tweight\nbase\t-\t0.25\n");
  EXPECT_EQ(overrides(), Strings{"site/certainty.tsv:2 'base' base/certainty.tsv:2"});
  ASSERT_NE(lexicon_, nullptr);
  EXPECT_EQ(lexicon_->certainty_weights().base, 0.25F);
  EXPECT_EQ(lexicon_->certainty_weights().place[0], 1.0F);
}

TEST_F(LayersTest, ALaterPatternIsTriedFirst) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  write("base/measures.tsv", "kind\tpattern\ndegrees\t\\d+\n");
  write("site/measures.tsv", "kind\tpattern\nskip\t\\d{5}\n");
  EXPECT_EQ(overrides(), Strings{});
  ASSERT_NE(lexicon_, nullptr);
  EXPECT_EQ(lexicon_->measures().read("12345")->kind, FigureKind::skip);
  EXPECT_EQ(lexicon_->measures().read("90")->kind, FigureKind::degrees);
  write("site/measures.tsv", "kind\tpattern\nskip\t\\d+\n");
  EXPECT_EQ(overrides(), Strings{"site/measures.tsv:2 '\\d+' base/measures.tsv:2"});
}

TEST_F(LayersTest, ARowTwiceInAFolderIsStillAWarning) {
  write("base/regions.tsv", "phrase\tnumber\tregion\nknee\tone\tknee\n");
  write("site/regions.tsv", "phrase\tnumber\tregion\nhock\tone\tankle\nhock\tone\tfoot\n");
  EXPECT_EQ(overrides(), Strings{});
  ASSERT_EQ(warnings_.size(), 1U);
  EXPECT_EQ(warnings_[0].message, "'hock' is unreachable: an earlier row has it");
}

}  // namespace
}  // namespace jointledger
