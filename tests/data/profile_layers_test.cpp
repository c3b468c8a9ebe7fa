// Profiles of several folders: the last one of a name holds, and what it replaces is told.
#include "data/profile_layers.h"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "../lexicon/folder.h"

namespace jointledger {
namespace {

using Strings = std::vector<std::string>;

/// A profile that asks for each of the components of every knee, under the component's name.
std::string asking(const std::string& name, const Strings& components) {
  std::string text = "name = \"" + name + "\"\ntitle = \"t\"\npurpose = \"p\"\ncaution = \"c\"\n";
  for (const std::string& c : components) {
    text += "[[expectation]]\nid = \"" + c + "\"\nregions = [\"knee\"]\ncomponents = [\"" + c +
            "\"]\nasks = \"a\"\nwhy = \"w\"\nsource = \"s\"\n";
  }
  return text;
}

class ProfileLayersTest : public testing::FolderTest {};

TEST_F(ProfileLayersTest, TheLastOfANameHoldsWhole) {
  write("base/a.toml", asking("a", {"strength", "palpation"}));
  write("base/c.toml", asking("c", {"reflexes"}));
  write("site/a.toml", asking("a", {"strength", "sensation"}));
  write("site/b.toml", asking("b", {"strength"}));
  const std::array folders = {path("base"), path("site")};
  const LayeredShelf layered = load_profile_layers(folders, nullptr);
  EXPECT_TRUE(layered.shelf.faults.empty());
  ASSERT_EQ(layered.shelf.profiles.size(), 3U);
  EXPECT_EQ(layered.shelf.profiles[0].name, "a");
  EXPECT_EQ(layered.shelf.profiles[1].name, "b");
  EXPECT_EQ(layered.shelf.profiles[2].name, "c");
  EXPECT_EQ(layered.shelf.profiles[0].expectations[1].id, "sensation");

  ASSERT_EQ(layered.overrides.size(), 1U);
  const ProfileOverride& only = layered.overrides[0];
  EXPECT_EQ(only.name, "a");
  EXPECT_EQ(only.file, path("site/a.toml").string());
  EXPECT_EQ(only.replaced, path("base/a.toml").string());
  EXPECT_EQ(only.changed, Strings{"strength"});
  EXPECT_EQ(only.dropped, Strings{"palpation"});
  EXPECT_EQ(only.added, Strings{"sensation"});
}

TEST_F(ProfileLayersTest, AThirdFolderReplacesTheSecondsNotTheFirsts) {
  for (const char* file : {"1/a.toml", "2/a.toml", "3/a.toml"}) write(file, asking("a", {"strength"}));
  const std::array folders = {path("1"), path("2"), path("3")};
  const LayeredShelf layered = load_profile_layers(folders, nullptr);
  ASSERT_EQ(layered.overrides.size(), 2U);
  EXPECT_EQ(layered.overrides[1].file, path("3/a.toml").string());
  EXPECT_EQ(layered.overrides[1].replaced, path("2/a.toml").string());
}

TEST_F(ProfileLayersTest, AFaultyProfileLeavesTheEarlierOneAndSaysSo) {
  write("base/a.toml", asking("a", {"strength"}));
  write("site/a.toml", asking("a", {"strenth"}));
  const std::array folders = {path("base"), path("site")};
  const LayeredShelf layered = load_profile_layers(folders, nullptr);
  ASSERT_EQ(layered.shelf.profiles.size(), 1U);
  EXPECT_TRUE(layered.overrides.empty());
  ASSERT_EQ(layered.shelf.faults.size(), 1U);
  EXPECT_EQ(layered.shelf.faults[0].file, path("site/a.toml").string());
}

}  // namespace
}  // namespace jointledger
