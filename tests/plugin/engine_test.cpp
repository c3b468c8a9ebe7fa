// Where an engine finds its data, what it says of faults in it, and how it is reloaded while threads work with it.
#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "../lexicon/folder.h"
#include "handles.h"

namespace jointledger {
namespace {

const std::string kNote = "CC: left knee pain.\nEXAM: Left knee: no swelling. Twizzle test positive.";

/// A profile that asks for one thing of every note.
std::string profile_asking(const std::string& name, const std::string& component) {
  return "name = \"" + name + "\"\ntitle = \"t\"\npurpose = \"p\"\ncaution = \"c\"\n[[expectation]]\nid = \"knee-" +
         component + "\"\nregions = [\"knee\"]\ncomponents = [\"" + component +
         "\"]\nsides = \"any\"\nweight = 1\nkind = \"required\"\nasks = \"a\"\nwhy = \"w\"\nsource = \"s\"\n";
}

class EngineTest : public testing::FolderTest {
 protected:
  testing::Opened open(const std::vector<std::string>& rules, unsigned flags = 0, const char* data = nullptr) {
    std::vector<const char*> folders;
    for (const std::string& folder : rules) folders.push_back(folder.c_str());
    jointledger_engine_options options = {};
    options.size = sizeof options;
    options.data = data;
    options.rules = folders.data();
    options.rules_count = folders.size();
    options.flags = flags;
    return testing::open_engine(&options);
  }

  std::vector<std::string> profiles_of(const testing::Engine& engine) {
    const jointledger_profile* profiles = nullptr;
    std::size_t count = 0;
    jointledger_profiles(engine.get(), scratch_.get(), &profiles, &count);
    std::vector<std::string> names;
    for (std::size_t i = 0; i < count; ++i) names.emplace_back(profiles[i].name);
    return names;
  }

  testing::Scratch scratch_ = testing::new_scratch();
};

using Strings = std::vector<std::string>;

TEST_F(EngineTest, OwnRulesLieOverWhatShips) {
  write("ours/ours.toml", profile_asking("ours", "strength"));
  write("ours/screening.toml", profile_asking("screening", "strength"));
  const testing::Opened opened = open({path("ours").string()});
  ASSERT_EQ(opened.code, JOINTLEDGER_OK) << opened.faults;
  EXPECT_EQ(profiles_of(opened.engine), (Strings{"complaint", "ours", "screening"}));
  ASSERT_EQ(testing::read(opened.engine, scratch_, kNote), JOINTLEDGER_OK);
  const jointledger_audit* audit = nullptr;
  ASSERT_EQ(testing::audit(scratch_, "screening", &audit), JOINTLEDGER_OK);
  ASSERT_EQ(audit->gap_count, 1U);
  EXPECT_STREQ(audit->gaps[0].expectation, "knee-strength");
}

TEST_F(EngineTest, OwnRulesCanStandAlone) {
  write("ours/ours.toml", profile_asking("ours", "strength"));
  const testing::Opened opened = open({path("ours").string()}, JOINTLEDGER_OWN_RULES_ONLY);
  ASSERT_EQ(opened.code, JOINTLEDGER_OK) << opened.faults;
  EXPECT_EQ(profiles_of(opened.engine), Strings{"ours"});
}

TEST_F(EngineTest, OptionsThatMakeNoSense) {
  EXPECT_EQ(open({}, JOINTLEDGER_OWN_RULES_ONLY).code, JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(open({}, 1U << 31).code, JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(open({""}).code, JOINTLEDGER_BAD_ARGUMENT);
  EXPECT_EQ(open({}, 0, "").code, JOINTLEDGER_BAD_ARGUMENT);
  jointledger_engine_options options = {};
  EXPECT_EQ(testing::open_engine(&options).code, JOINTLEDGER_BAD_ARGUMENT);  // no size
  options.size = sizeof options;
  options.lexicon_count = 1;
  EXPECT_EQ(testing::open_engine(&options).code, JOINTLEDGER_BAD_ARGUMENT);  // a count of nothing
  const std::array<const char*, 1> none = {nullptr};
  options.lexicon = none.data();
  EXPECT_EQ(testing::open_engine(&options).code, JOINTLEDGER_BAD_ARGUMENT);
}

TEST_F(EngineTest, FoldersThatAreNotThere) {
  const testing::Opened rules = open({path("nowhere").string()});
  EXPECT_EQ(rules.code, JOINTLEDGER_NO_DATA);
  EXPECT_EQ(rules.engine, nullptr);
  EXPECT_EQ(rules.faults, "no folder " + path("nowhere").string() + "\n");
  EXPECT_EQ(open({}, 0, path("nowhere").c_str()).code, JOINTLEDGER_NO_DATA);
}

TEST_F(EngineTest, TheEnvironmentNamesTheDataUnlessTheCallerDoes) {
  ASSERT_EQ(::setenv("JOINTLEDGER_DATA", path("nowhere").c_str(), 1), 0);
  const testing::Opened from_environment = open({});
  const testing::Opened from_caller = open({}, 0, JOINTLEDGER_SOURCE_DIR);
  ASSERT_EQ(::unsetenv("JOINTLEDGER_DATA"), 0);
  EXPECT_EQ(from_environment.code, JOINTLEDGER_NO_DATA);
  EXPECT_EQ(from_environment.faults, "JOINTLEDGER_DATA names no folder: " + path("nowhere").string() + "\n");
  EXPECT_EQ(from_caller.code, JOINTLEDGER_OK);
}

TEST_F(EngineTest, EveryFaultIsToldWithFileAndLine) {
  write("ours/a.toml", profile_asking("a", "strenth"));
  write("ours/b.toml", profile_asking("b", "strength") + "colour = 1\n");
  const testing::Opened opened = open({path("ours").string()});
  EXPECT_EQ(opened.code, JOINTLEDGER_BAD_DATA);
  EXPECT_EQ(opened.engine, nullptr);
  EXPECT_NE(opened.faults.find(path("ours/a.toml").string() + ":8: "), std::string::npos) << opened.faults;
  EXPECT_NE(opened.faults.find(path("ours/b.toml").string() + ":15: "), std::string::npos) << opened.faults;
}

TEST_F(EngineTest, FaultsInTablesOfWordsAreTold) {
  write("words/sides.tsv", "form\tside\nleft\tsinister\n");
  const std::string folder = path("words").string();
  const std::array<const char*, 1> folders = {folder.c_str()};
  jointledger_engine_options options = {};
  options.size = sizeof options;
  options.lexicon = folders.data();
  options.lexicon_count = folders.size();
  const testing::Opened opened = testing::open_engine(&options);
  EXPECT_EQ(opened.code, JOINTLEDGER_BAD_DATA);
  EXPECT_NE(opened.faults.find("sides.tsv"), std::string::npos) << opened.faults;
}

TEST_F(EngineTest, AReloadThatFailsLeavesTheOldInForce) {
  write("ours/ours.toml", profile_asking("ours", "strength"));
  const testing::Opened opened = open({path("ours").string()});
  ASSERT_EQ(opened.code, JOINTLEDGER_OK);
  write("ours/ours.toml", profile_asking("ours", "strenth"));
  char* faults = nullptr;
  EXPECT_EQ(jointledger_engine_reload(opened.engine.get(), nullptr, &faults), JOINTLEDGER_BAD_DATA);
  EXPECT_NE(faults, nullptr);
  jointledger_text_free(faults);
  EXPECT_EQ(profiles_of(opened.engine), (Strings{"complaint", "ours", "screening"}));
  // Once the file is mended, the options of the opening still hold.
  write("ours/ours.toml", profile_asking("ours", "gait"));
  write("ours/more.toml", profile_asking("more", "gait"));
  EXPECT_EQ(jointledger_engine_reload(opened.engine.get(), nullptr, nullptr), JOINTLEDGER_OK);
  EXPECT_EQ(profiles_of(opened.engine), (Strings{"complaint", "more", "ours", "screening"}));
}

TEST_F(EngineTest, ResultsOutliveReloadAndEngine) {
  write("ours/ours.toml", profile_asking("ours", "strength"));
  testing::Opened opened = open({path("ours").string()});
  const jointledger_profile* profiles = nullptr;
  std::size_t count = 0;
  ASSERT_EQ(jointledger_profiles(opened.engine.get(), scratch_.get(), &profiles, &count), JOINTLEDGER_OK);
  const jointledger_ledger* ledger = nullptr;
  ASSERT_EQ(testing::read(opened.engine, scratch_, kNote, &ledger), JOINTLEDGER_OK);
  std::filesystem::remove(path("ours/ours.toml"));
  ASSERT_EQ(jointledger_engine_reload(opened.engine.get(), nullptr, nullptr), JOINTLEDGER_OK);
  opened.engine.reset();
  // The ledger is audited with the rules that were in force when it was read.
  const jointledger_audit* audit = nullptr;
  ASSERT_EQ(testing::audit(scratch_, "ours", &audit), JOINTLEDGER_OK);
  EXPECT_STREQ(audit->profile, "ours");
  EXPECT_STREQ(audit->gaps[0].expectation, "knee-strength");
  ASSERT_EQ(ledger->complaint_count, 1U);
  EXPECT_EQ(count, 3U);
  EXPECT_STREQ(profiles[1].name, "ours");
}

TEST_F(EngineTest, AnEngineLastsAsLongAsItsLastUser) {
  testing::Engine engine = testing::shipped_engine();
  const testing::Engine second(jointledger_engine_retain(engine.get()));
  engine.reset();
  EXPECT_EQ(testing::read(second, scratch_, kNote), JOINTLEDGER_OK);
}

TEST_F(EngineTest, AScratchGoesFromEngineToEngine) {
  write("ours/ours.toml", profile_asking("ours", "strength"));
  const testing::Engine one = testing::shipped_engine();
  const testing::Opened other = open({path("ours").string()});
  for (int i = 0; i < 2; ++i) {
    ASSERT_EQ(testing::read(one, scratch_, kNote), JOINTLEDGER_OK);
    EXPECT_EQ(testing::audit(scratch_, "ours"), JOINTLEDGER_NO_PROFILE);
    ASSERT_EQ(testing::read(other.engine, scratch_, kNote), JOINTLEDGER_OK);
    EXPECT_EQ(testing::audit(scratch_, "ours"), JOINTLEDGER_OK);
  }
}

TEST_F(EngineTest, IsReloadedWhileThreadsAudit) {
  // Two sets of rules that the same note tells apart: each audit is of the one or of the other.
  write("one/ours.toml", profile_asking("ours", "strength"));
  write("two/ours.toml", profile_asking("ours", "gait"));
  const std::array<std::string, 2> folders = {path("one").string(), path("two").string()};
  const testing::Opened opened = open({folders[0]});
  ASSERT_EQ(opened.code, JOINTLEDGER_OK) << opened.faults;

  constexpr int kThreads = 4;
  constexpr int kReloads = 6;
  std::atomic<bool> done = false;
  std::atomic<int> failures = 0;
  std::array<std::atomic<int>, 2> audits = {};
  std::vector<std::thread> threads;
  for (int t = 0; t < kThreads; ++t) {
    threads.emplace_back([&] {
      const testing::Scratch scratch = testing::new_scratch();
      while (!done) {
        const jointledger_audit* audit = nullptr;
        const bool made = testing::read(opened.engine, scratch, kNote) == JOINTLEDGER_OK &&
                          testing::audit(scratch, "ours", &audit) == JOINTLEDGER_OK && audit->gap_count == 1;
        const std::string gap = made ? audit->gaps[0].expectation : "";
        if (gap == "knee-strength") {
          ++audits[0];
        } else if (gap == "knee-gait") {
          ++audits[1];
        } else {
          ++failures;
        }
      }
    });
  }
  for (int i = 1; i <= kReloads; ++i) {
    const std::size_t now = static_cast<std::size_t>(i % 2);
    const std::array<const char*, 1> rules = {folders[now].c_str()};
    jointledger_engine_options options = {};
    options.size = sizeof options;
    options.rules = rules.data();
    options.rules_count = rules.size();
    EXPECT_EQ(jointledger_engine_reload(opened.engine.get(), &options, nullptr), JOINTLEDGER_OK);
    // Each set is seen at work before the next one takes its place.
    for (const int before = audits[now]; audits[now] <= before + kThreads && failures == 0;) std::this_thread::yield();
  }
  done = true;
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(failures, 0);
  EXPECT_GT(audits[0], 0);
  EXPECT_GT(audits[1], 0);
}

}  // namespace
}  // namespace jointledger
