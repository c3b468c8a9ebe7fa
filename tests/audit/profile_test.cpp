// Reading profile files: what a good one becomes, and what is said of a bad one.
#include "audit/profile.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <string>

#include "builders.h"

namespace jointledger {
namespace {

using namespace std::string_view_literals;

constexpr std::string_view kTop =
    "name = \"small\"\n"             // line 1
    "title = \"A small profile\"\n"  // line 2
    "purpose = \"Tests\"\n"          // line 3
    "caution = \"None\"\n";          // line 4

/// A profile whose one expectation begins on line 5 with `body` from line 6 on and its texts after that.
std::string with(std::string_view body) {
  return std::string(kTop) + "[[expectation]]\n" + std::string(body) +
         "asks = \"a\"\nwhy = \"w\"\nsource = \"common practice, no source\"\n";
}

std::vector<ProfileFault> faults_of(std::string_view text, const ProfileChecks& checks = {}) {
  ProfileOrFaults parsed = parse_profile(text, "small.toml", checks);
  if (std::holds_alternative<Profile>(parsed)) return {};
  return std::get<std::vector<ProfileFault>>(parsed);
}

TEST(ProfileParsing, ReadsEveryKey) {
  const ProfileOrFaults parsed = parse_profile(with("id = \"knee-motion\"\n"
                                                    "applies = \"if_complaint\"\n"
                                                    "regions = [\"knee\", \"ankle\"]\n"
                                                    "components = [\"range_of_motion\"]\n"
                                                    "motions = [\"flexion\", \"extension\"]\n"
                                                    "structures = [\"patella\"]\n"
                                                    "sides = \"other_side\"\n"
                                                    "specificity = \"limb\"\n"
                                                    "distally = true\n"
                                                    "needs_result = false\n"
                                                    "weight = 2.5\n"
                                                    "kind = \"advised\"\n"),
                                               "rules/small.toml");
  ASSERT_TRUE(std::holds_alternative<Profile>(parsed));
  const auto& profile = std::get<Profile>(parsed);
  EXPECT_EQ(profile.name, "small");
  EXPECT_EQ(profile.title, "A small profile");
  EXPECT_EQ(profile.purpose, "Tests");
  EXPECT_EQ(profile.caution, "None");
  ASSERT_EQ(profile.expectations.size(), 1U);
  const Expectation& e = profile.expectations.front();
  EXPECT_EQ(e.id, "knee-motion");
  EXPECT_EQ(e.applies, Applies::if_complaint);
  EXPECT_EQ(e.regions, (std::vector{Region::knee, Region::ankle}));
  EXPECT_EQ(e.components, std::vector{Component::range_of_motion});
  EXPECT_EQ(e.motions, testing::motions({Motion::flexion, Motion::extension}));
  EXPECT_EQ(e.structures, std::vector<std::string>{"patella"});
  EXPECT_EQ(e.sides, Sides::other_side);
  EXPECT_EQ(e.specificity, Specificity::limb);
  EXPECT_TRUE(e.distally);
  EXPECT_FALSE(e.needs_result);
  EXPECT_DOUBLE_EQ(e.weight, 2.5);
  EXPECT_EQ(e.kind, Kind::advised);
  EXPECT_EQ(e.asks, "a");
  EXPECT_EQ(e.why, "w");
  EXPECT_EQ(e.source, "common practice, no source");
}

TEST(ProfileParsing, HasDefaultsForAllThatCanBeLeftOut) {
  const ProfileOrFaults parsed =
      parse_profile(with("id = \"a\"\nregions = [\"knee\"]\ncomponents = [\"palpation\"]\n"), "small.toml");
  ASSERT_TRUE(std::holds_alternative<Profile>(parsed));
  const Expectation& e = std::get<Profile>(parsed).expectations.front();
  EXPECT_EQ(e.applies, Applies::always);
  EXPECT_EQ(e.sides, Sides::region_default);
  EXPECT_EQ(e.specificity, Specificity::region);
  EXPECT_FALSE(e.distally);
  EXPECT_TRUE(e.needs_result);
  EXPECT_DOUBLE_EQ(e.weight, 1.0);
  EXPECT_EQ(e.kind, Kind::required);
}

TEST(ProfileParsing, NamesOfEverySetAreTheirOwn) {
  for (const auto names : {applies_names(), sides_names(), specificity_names(), kind_names()}) {
    for (const std::string_view n : names) EXPECT_FALSE(n.empty());
  }
  EXPECT_EQ(name(Applies::if_neighbour), "if_neighbour");
  EXPECT_EQ(name(Sides::any), "any");
  EXPECT_EQ(name(Specificity::whole_body), "whole_body");
  EXPECT_EQ(name(Kind::advised), "advised");
}

/// One thing wrong with one expectation, the line it is on, and the words that must be in the message.
struct BadCase {
  std::string_view what;
  std::string_view body;  ///< from line 6 on
  std::uint32_t line;
  std::string_view says;
  std::string_view suggests;
};

constexpr std::string_view kGoodRest = "regions = [\"knee\"]\ncomponents = [\"palpation\"]\n";
constexpr std::string_view kMotionRest = "regions = [\"knee\"]\ncomponents = [\"range_of_motion\"]\n";

const BadCase kBadCases[] = {
    {"unknown key", "id = \"a\"\nsaides = \"both\"\n", 7, "'saides' is not a key", "did you mean 'sides'?"},
    {"unknown region", "id = \"a\"\nregions = [\"knee\", \"shoulders\"]\ncomponents = [\"palpation\"]\n", 7,
     "'shoulders' is not a region", "did you mean 'shoulder'?"},
    {"region on a line of its own", "id = \"a\"\nregions = [\n  \"knee\",\n  \"ancle\",\n]\ncomponents = [\"gait\"]\n",
     9, "'ancle' is not a region", "did you mean 'ankle'?"},
    {"unknown component", "id = \"a\"\nregions = [\"knee\"]\ncomponents = [\"palpitation\"]\n", 8,
     "'palpitation' is not a component", "did you mean 'palpation'?"},
    {"unknown motion",
     "id = \"a\"\nregions = [\"knee\"]\ncomponents = [\"range_of_motion\"]\nmotions = [\"flection\"]\n", 9,
     "'flection' is not a motion", "did you mean 'flexion'?"},
    {"unknown applies", "id = \"a\"\napplies = \"if_complained\"\n", 7, "no value of 'applies'",
     "did you mean 'if_complaint'?"},
    {"unknown sides", "id = \"a\"\nsides = \"bilateral\"\n", 7, "no value of 'sides'", "expected 'region_default', "},
    {"unknown specificity", "id = \"a\"\nspecificity = \"limbs\"\n", 7, "no value of 'specificity'",
     "did you mean 'limb'?"},
    {"unknown kind", "id = \"a\"\nkind = \"must\"\n", 7, "no value of 'kind'", "expected 'required' or 'advised'"},
    {"weight as text", "id = \"a\"\nweight = \"3\"\n", 7, "'weight' must be a number", ""},
    {"weight of nothing", "id = \"a\"\nweight = 0\n", 7, "more than 0 and at most 10", ""},
    {"negative weight", "id = \"a\"\nweight = -1.5\n", 7, "more than 0", ""},
    {"weight too heavy", "id = \"a\"\nweight = 10.5\n", 7, "at most 10", ""},
    {"weight that is no number", "id = \"a\"\nweight = nan\n", 7, "more than 0", ""},
    {"flag as text", "id = \"a\"\nneeds_result = \"yes\"\n", 7, "'needs_result' must be true or false", ""},
    {"distally as a number", "id = \"a\"\ndistally = 1\n", 7, "'distally' must be true or false", ""},
    {"regions as text", "id = \"a\"\nregions = \"knee\"\n", 7, "'regions' must be a list", ""},
    {"number among regions", "id = \"a\"\nregions = [\"knee\", 3]\n", 7, "'regions' must hold names only", ""},
    {"region twice", "id = \"a\"\nregions = [\"knee\", \"knee\"]\n", 7, "'knee' stands twice", ""},
    {"empty list", "id = \"a\"\nregions = []\n", 7, "'regions' is empty", ""},
    {"id as a number", "id = 7\n", 6, "'id' must be text", ""},
    {"id with a space", "id = \"knee motion\"\n", 6, "lower-case letters, digits and hyphens", ""},
    {"empty id", "id = \"\"\n", 6, "'id' is empty", ""},
    {"no id", "", 5, "'id' is missing", ""},
    {"no components", "id = \"a\"\nregions = [\"knee\"]\n", 5, "'components' is missing", ""},
    {"no regions", "id = \"a\"\ncomponents = [\"palpation\"]\n", 5, "'regions' is missing", ""},
    {"unspecified asked for", "id = \"a\"\nregions = [\"knee\"]\ncomponents = [\"unspecified\"]\n", 8,
     "'unspecified' cannot be asked for", ""},
    {"motions of palpation",
     "id = \"a\"\nregions = [\"knee\"]\ncomponents = [\"palpation\"]\nmotions = [\"flexion\"]\n", 9,
     "'motions' can be asked for only where", ""},
    {"complaint side without complaint", "id = \"a\"\nsides = \"complaint_side\"\n", 7,
     "'complaint_side' has no meaning where 'applies' is 'always'", ""},
};

TEST(ProfileFaults, NameTheLineAndSuggest) {
  for (const BadCase& bad : kBadCases) {
    SCOPED_TRACE(bad.what);
    const auto faults = faults_of(with(bad.body));
    const auto at = std::ranges::find_if(
        faults, [&](const ProfileFault& f) { return f.message.find(bad.says) != std::string::npos; });
    ASSERT_NE(at, faults.end());
    EXPECT_EQ(at->line, bad.line);
    EXPECT_EQ(at->file, "small.toml");
    EXPECT_NE(at->message.find(bad.suggests), std::string::npos) << at->message;
  }
}

TEST(ProfileFaults, OneSlipIsOneFault) {
  EXPECT_EQ(faults_of(with("id = \"a\"\nwieght = 2\n" + std::string(kGoodRest))).size(), 1U);
  EXPECT_EQ(faults_of(with("id = \"a\"\nmotions = [\"flexin\"]\n" + std::string(kMotionRest))).size(), 1U);
  EXPECT_EQ(faults_of(with("id = \"a\"\nregions = [\"kneee\"]\ncomponents = [\"palpation\"]\n")).size(), 1U);
}

TEST(ProfileFaults, AllAreReportedInTheOrderOfTheFile) {
  const auto faults =
      faults_of(with("id = \"a\"\nregions = [\"nee\"]\ncomponents = [\"palpation\"]\nweight = 99\nkind = \"maybe\"\n"));
  ASSERT_EQ(faults.size(), 3U);
  EXPECT_EQ(faults[0].line, 7U);
  EXPECT_EQ(faults[1].line, 9U);
  EXPECT_EQ(faults[2].line, 10U);
}

TEST(ProfileFaults, DuplicateIdsNameBothLines) {
  const std::string again =
      "[[expectation]]\nid = \"a\"\nregions = [\"hip\"]\ncomponents = [\"palpation\"]\nasks = \"a\"\nwhy = \"w\"\n"
      "source = \"s\"\n";
  const auto faults = faults_of(with("id = \"a\"\n" + std::string(kGoodRest)) + again);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 13U);
  EXPECT_EQ(faults[0].message, "the id 'a' is taken by the expectation at line 5");
}

TEST(ProfileFaults, TopKeysAreCheckedToo) {
  const auto faults = faults_of("name = \"small\"\ntitel = \"x\"\npurpose = \"p\"\ncaution = 3\n");
  ASSERT_EQ(faults.size(), 4U);
  EXPECT_EQ(faults[0].message, "'title' is missing");
  EXPECT_EQ(faults[1].message, "this profile has no [[expectation]]");
  EXPECT_EQ(faults[2].line, 2U);
  EXPECT_EQ(faults[2].message, "'titel' is not a key of a profile; did you mean 'title'?");
  EXPECT_EQ(faults[3].line, 4U);
}

TEST(ProfileFaults, ASingleBracketIsNoticed) {
  const auto faults = faults_of(std::string(kTop) + "[expectation]\nid = \"a\"\n");
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 5U);
  EXPECT_NE(faults[0].message.find("double brackets"), std::string::npos);
}

TEST(ProfileFaults, TheNameIsTheFilesOwn) {
  const ProfileOrFaults parsed = parse_profile(with("id = \"a\"\n" + std::string(kGoodRest)), "/somewhere/other.toml");
  ASSERT_TRUE(std::holds_alternative<std::vector<ProfileFault>>(parsed));
  const auto& faults = std::get<std::vector<ProfileFault>>(parsed);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 1U);
  EXPECT_EQ(faults[0].message, "the name 'small' must be the file's own: 'other'");
}

TEST(ProfileFaults, BrokenTomlNamesItsLine) {
  const auto faults = faults_of("name = \"small\"\ntitle = \n");
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 2U);
  EXPECT_EQ(faults[0].message.find("this is not TOML"), 0U);
}

TEST(ProfileFaults, StructuresAreCheckedOnlyAgainstWhatTheCallerKnows) {
  const std::string text = with("id = \"a\"\nstructures = [\"patela\"]\n" + std::string(kGoodRest));
  EXPECT_TRUE(faults_of(text).empty());
  constexpr std::array kKnown = {"acromion"sv, "patella"sv};
  ProfileChecks checks;
  checks.structures = kKnown;
  const auto faults = faults_of(text, checks);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 7U);
  EXPECT_EQ(faults[0].message, "'patela' is not a structure; did you mean 'patella'?");
}

TEST(ProfileFaults, EmptyAndHostileTextIsFaultedNotCrashedOn) {
  EXPECT_FALSE(faults_of("").empty());
  EXPECT_FALSE(faults_of("\xff\xfe\x00\x01"sv).empty());
  EXPECT_FALSE(faults_of("expectation = [1, 2]\n").empty());
  EXPECT_FALSE(faults_of("expectation = \"x\"\n").empty());
  EXPECT_FALSE(faults_of(std::string(100000, '[')).empty());
}

/// A folder that is gone at the end of the test.
class ProfileFiles : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(::testing::TempDir()) / ("profiles-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  void write(std::string_view name, std::string_view text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  std::string named(std::string_view name) const {
    std::string text = with("id = \"a\"\n" + std::string(kGoodRest));
    return text.replace(text.find("small"), 5, name);
  }
  std::filesystem::path folder_;
};

TEST_F(ProfileFiles, LoadFromDisk) {
  write("small.toml", named("small"));
  const ProfileOrFaults loaded = load_profile(folder_ / "small.toml");
  ASSERT_TRUE(std::holds_alternative<Profile>(loaded));
}

TEST_F(ProfileFiles, AMissingFileIsAFaultWithoutALine) {
  const ProfileOrFaults loaded = load_profile(folder_ / "absent.toml");
  ASSERT_TRUE(std::holds_alternative<std::vector<ProfileFault>>(loaded));
  const auto& faults = std::get<std::vector<ProfileFault>>(loaded);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].line, 0U);
  EXPECT_EQ(faults[0].file, (folder_ / "absent.toml").string());
  EXPECT_TRUE(std::holds_alternative<std::vector<ProfileFault>>(load_profile(folder_)));
}

TEST_F(ProfileFiles, AFolderIsReadInOrderAndAroundWhatIsBroken) {
  write("zeta.toml", named("zeta"));
  write("alpha.toml", named("alpha"));
  write("broken.toml", "name = ");
  write("README.md", "not a profile");
  const ProfileShelf shelf = load_profiles(folder_);
  ASSERT_EQ(shelf.profiles.size(), 2U);
  EXPECT_EQ(shelf.profiles[0].name, "alpha");
  EXPECT_EQ(shelf.profiles[1].name, "zeta");
  ASSERT_EQ(shelf.faults.size(), 1U);
  EXPECT_EQ(shelf.faults[0].file, (folder_ / "broken.toml").string());
}

TEST_F(ProfileFiles, AMissingFolderIsAFault) {
  const ProfileShelf shelf = load_profiles(folder_ / "absent");
  EXPECT_TRUE(shelf.profiles.empty());
  ASSERT_EQ(shelf.faults.size(), 1U);
}

}  // namespace
}  // namespace jointledger
