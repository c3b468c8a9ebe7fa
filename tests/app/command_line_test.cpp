// The program as a user meets it: help, commands, formats, exit statuses, colour.
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "program.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Outcome;
using testing::run_program;

const std::string kNotes = JOINTLEDGER_FIXTURES "/notes";
const std::string kKnee = kNotes + "/03-knee-focused-excellent.txt";

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A folder of its own for each test, gone afterwards.
class CommandLine : public ::testing::Test {
 protected:
  CommandLine() {
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::path(::testing::TempDir()) /
              ("jointledger-" + std::string(info->name()) + "-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  ~CommandLine() override { std::filesystem::remove_all(folder_); }

  std::string file(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return (folder_ / name).string();
  }
  std::string path(const std::string& name) const { return (folder_ / name).string(); }

 private:
  std::filesystem::path folder_;
};

/// A profile that asks for one thing of every note.
std::string profile_asking(const std::string& name, const std::string& component, const std::string& kind) {
  return "name = \"" + name + "\"\ntitle = \"t\"\npurpose = \"p\"\ncaution = \"c\"\n[[expectation]]\nid = \"knee-" +
         component + "\"\nregions = [\"knee\"]\ncomponents = [\"" + component +
         "\"]\nsides = \"any\"\nweight = 1\nkind = \"" + kind + "\"\nasks = \"a\"\nwhy = \"w\"\nsource = \"s\"\n";
}

TEST_F(CommandLine, HelpIsEverywhereAndHasExamples) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{{"--help"},
                                                                                     {"-h"},
                                                                                     {"read", "--help"},
                                                                                     {"audit", "--help"},
                                                                                     {"profiles", "--help"},
                                                                                     {"explain", "--help"},
                                                                                     {"lexicon", "--help"},
                                                                                     {"lexicon", "check", "--help"},
                                                                                     {"set-aside", "--help"}}) {
    const Outcome outcome = run_program(words);
    EXPECT_EQ(outcome.status, 0);
    EXPECT_TRUE(contains(outcome.out, "Usage: jointledger")) << outcome.out;
    EXPECT_TRUE(contains(outcome.out, "Examples:")) << outcome.out;
    EXPECT_EQ(outcome.err, "");
  }
}

TEST_F(CommandLine, HelpSaysWhatItDoesNotDo) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{{"--help"}, {"audit", "--help"}}) {
    const std::string help = run_program(words).out;
    for (const char* part : {"audits documentation, not care", "no diagnosis", "blanks", "Local policy"}) {
      EXPECT_TRUE(contains(help, part)) << part;
    }
  }
}

TEST_F(CommandLine, SaysItsVersion) {
  const Outcome outcome = run_program({"--version"});
  EXPECT_EQ(outcome.status, 0);
  EXPECT_TRUE(outcome.out.starts_with("jointledger ")) << outcome.out;
}

TEST_F(CommandLine, BadUsageExitsWithTwoAndAHint) {
  EXPECT_EQ(run_program({}).status, 2);
  const Outcome command = run_program({"reed"});
  EXPECT_EQ(command.status, 2);
  EXPECT_TRUE(contains(command.err, "did you mean 'read'?")) << command.err;
  const Outcome option = run_program({"read", "--form", "text"});
  EXPECT_EQ(option.status, 2);
  EXPECT_TRUE(contains(option.err, "--form")) << option.err;
  const Outcome format = run_program({"read", "--to", "ndjsn", kKnee});
  EXPECT_EQ(format.status, 2);
  EXPECT_TRUE(contains(format.err, "did you mean 'ndjson'?")) << format.err;
  EXPECT_EQ(run_program({"read", "--from", "xml", kKnee}).status, 2);
  EXPECT_EQ(run_program({"read", "--lexicon", "/nowhere", kKnee}).status, 2);
  EXPECT_EQ(run_program({"read", kKnee}, {.environment = {"JOINTLEDGER_DATA=/nowhere"}}).status, 2);
  EXPECT_EQ(run_program({"lexicon"}).status, 2);
  EXPECT_EQ(run_program({"explain"}).status, 2);
  EXPECT_EQ(run_program({"audit", kKnee}).status, 2);
}

TEST_F(CommandLine, UnknownProfileListsTheNearOne) {
  const Outcome outcome = run_program({"audit", kKnee, "--profile", "screning"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_TRUE(contains(outcome.err, "did you mean 'screening'?")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "complaint, screening")) << outcome.err;
}

TEST_F(CommandLine, ReadsFilesAndTheStandardInputAlike) {
  const std::string note = contents(kKnee);
  const json from_file = json::parse(run_program({"read", "--to", "ndjson", kKnee}).out);
  const json from_pipe = json::parse(run_program({"read", "--to", "ndjson"}, {.input = note}).out);
  const json from_dash = json::parse(run_program({"read", "--to", "ndjson", "-"}, {.input = note}).out);
  EXPECT_EQ(from_file["id"], kKnee);
  EXPECT_EQ(from_pipe["id"], "-");
  EXPECT_EQ(from_pipe["entries"], from_file["entries"]);
  EXPECT_EQ(from_dash, from_pipe);
}

TEST_F(CommandLine, ReadsManyNotesInOrder) {
  const Outcome outcome = run_program({"read", "--to", "json", JOINTLEDGER_FIXTURES "/notes.ndjson", kKnee});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  const json notes = json::parse(outcome.out);
  ASSERT_EQ(notes.size(), 31U);
  EXPECT_EQ(notes[0]["id"], "01-complete-screening");
  EXPECT_EQ(notes[0]["author"], "FW-01");
  EXPECT_EQ(notes[30]["id"], kKnee);
}

TEST_F(CommandLine, SameNotesSameBytes) {
  for (const char* format : {"text", "json", "ndjson"}) {
    const std::vector<std::string> words = {
        "audit", JOINTLEDGER_FIXTURES "/notes.ndjson", "--profile", "screening", "--to", format};
    EXPECT_EQ(run_program(words).out, run_program(words).out);
  }
}

TEST_F(CommandLine, ExitStatusTellsOfRequiredGaps) {
  file("met.toml", profile_asking("met", "strength", "required"));
  file("lacking.toml", profile_asking("lacking", "reflexes", "required"));
  file("advised.toml", profile_asking("advised", "reflexes", "advised"));
  const std::string note = "EXAM: Right knee: strength 5/5.\n";
  const auto status = [&](const std::string& profile) {
    const Outcome outcome = run_program({"audit", "--profile", profile, "--rules", path("")}, {.input = note});
    EXPECT_EQ(outcome.err, "");
    return outcome.status;
  };
  EXPECT_EQ(status("met"), 0);
  EXPECT_EQ(status("lacking"), 1);
  EXPECT_EQ(status("advised"), 0);
}

TEST_F(CommandLine, AuditSaysWhatItDoesNotDo) {
  const Outcome outcome = run_program({"audit", "--profile", "screening", kKnee});
  EXPECT_EQ(outcome.status, 1);
  EXPECT_TRUE(contains(outcome.out, "audits documentation, not care")) << outcome.out;
  EXPECT_TRUE(contains(outcome.out, "___"));
}

TEST_F(CommandLine, WritesToAFile) {
  const std::string out = path("out.ndjson");
  const Outcome outcome = run_program({"read", kKnee, "--to", "ndjson", "-o", out});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(contents(out), run_program({"read", kKnee, "--to", "ndjson"}).out);
  EXPECT_EQ(run_program({"read", kKnee, "-o", "/nowhere/out"}).status, 2);
}

TEST_F(CommandLine, NeverWritesOverItsInput) {
  const std::string note = file("note.txt", "Right knee: no swelling.");
  EXPECT_EQ(run_program({"read", note, "-o", note}).status, 2);
  EXPECT_EQ(contents(note), "Right knee: no swelling.");
}

TEST_F(CommandLine, SaysSoWhenTheOutputIsFull) {
  if (!std::filesystem::exists("/dev/full")) GTEST_SKIP();
  const Outcome outcome = run_program({"read", kKnee, "-o", "/dev/full"});
  EXPECT_EQ(outcome.status, 3);
  EXPECT_TRUE(contains(outcome.err, "cannot write")) << outcome.err;
}

TEST_F(CommandLine, ColourOnlyOnATerminalThatWantsIt) {
  const std::vector<std::string> words = {"audit", "--profile", "screening", kKnee};
  const auto on_terminal = [&](std::vector<std::string> environment) {
    return run_program(words, {.environment = std::move(environment), .terminal = true}).out;
  };
  EXPECT_TRUE(contains(on_terminal({"TERM=xterm"}), "\x1b["));
  EXPECT_FALSE(contains(on_terminal({"TERM=xterm", "NO_COLOR=1"}), "\x1b["));
  EXPECT_FALSE(contains(on_terminal({"TERM=dumb"}), "\x1b["));
  EXPECT_FALSE(contains(run_program(words, {.environment = {"TERM=xterm"}}).out, "\x1b["));
}

TEST_F(CommandLine, ListsAndChecksProfiles) {
  const Outcome list = run_program({"profiles"});
  EXPECT_EQ(list.status, 0) << list.err;
  EXPECT_TRUE(contains(list.out, "complaint ")) << list.out;
  EXPECT_TRUE(contains(list.out, "screening ")) << list.out;

  const Outcome good =
      run_program({"profiles", "--check", file("ours.toml", profile_asking("ours", "gait", "advised"))});
  EXPECT_EQ(good.status, 0) << good.out;
  const Outcome bad =
      run_program({"profiles", "--check", file("bad.toml", profile_asking("bad", "strenth", "advised"))});
  EXPECT_EQ(bad.status, 2);
  EXPECT_TRUE(contains(bad.out, "bad.toml:8:")) << bad.out;
  EXPECT_TRUE(contains(bad.out, "strength")) << bad.out;
  EXPECT_EQ(run_program({"profiles", "--check", "/nowhere/x.toml"}).status, 2);
}

TEST_F(CommandLine, ALaterFolderOfRulesWins) {
  std::filesystem::create_directories(path("a"));
  std::filesystem::create_directories(path("b"));
  file("a/ours.toml", profile_asking("ours", "strength", "required"));
  file("b/ours.toml", profile_asking("ours", "reflexes", "required"));
  const Outcome outcome = run_program({"explain", "ours", "--rules", path("a"), "--rules", path("b")});
  EXPECT_TRUE(contains(outcome.out, "knee-reflexes")) << outcome.out;
  EXPECT_FALSE(contains(outcome.out, "knee-strength")) << outcome.out;
}

TEST_F(CommandLine, OwnFoldersAreLaidOverWhatShips) {
  std::filesystem::create_directories(path("words"));
  file("words/regions.tsv", "phrase\tnumber\tregion\nkneebone\tone\tknee\n");
  const std::string note = "EXAM: Left kneebone nontender. Right elbow nontender.\n";
  const auto regions = [&](std::vector<std::string> options) {
    options.insert(options.begin(), {"read", "--to", "ndjson"});
    const json ledger = json::parse(run_program(options, {.input = note}).out);
    std::string names;
    for (const json& entry : ledger["entries"]) names += entry["region"].get<std::string>() + " ";
    return names;
  };
  EXPECT_EQ(regions({}), "elbow ");
  EXPECT_EQ(regions({"--lexicon", path("words")}), "elbow knee ");
  EXPECT_EQ(regions({"--lexicon", path("words"), "--own-lexicon-only"}), "");

  std::filesystem::create_directories(path("rules"));
  file("rules/ours.toml", profile_asking("ours", "strength", "required"));
  const Outcome both = run_program({"profiles", "--rules", path("rules")});
  EXPECT_TRUE(contains(both.out, "ours ")) << both.out;
  EXPECT_TRUE(contains(both.out, "screening ")) << both.out;
  const Outcome own = run_program({"profiles", "--rules", path("rules"), "--own-rules-only"});
  EXPECT_TRUE(contains(own.out, "ours ")) << own.out;
  EXPECT_FALSE(contains(own.out, "screening ")) << own.out;

  EXPECT_EQ(run_program({"profiles", "--own-rules-only"}).status, 2);
  EXPECT_EQ(run_program({"lexicon", "check", "--own-lexicon-only"}).status, 2);
}

TEST_F(CommandLine, ListsWhatOwnFoldersOverride) {
  std::filesystem::create_directories(path("words"));
  file("words/cues.tsv", "phrase\tcue\nbrisk\tgood\n");
  const Outcome words = run_program({"lexicon", "check", "--lexicon", path("words")});
  EXPECT_EQ(words.status, 0) << words.out;
  EXPECT_TRUE(contains(words.out, path("words/cues.tsv") + ":2 overrides 'brisk' of ")) << words.out;
  EXPECT_TRUE(contains(words.out, "/lexicon/cues.tsv:")) << words.out;
  EXPECT_TRUE(contains(words.out, "1 overrides")) << words.out;

  std::filesystem::create_directories(path("rules"));
  file("rules/screening.toml", profile_asking("screening", "strength", "required"));
  const Outcome rules = run_program({"profiles", "--rules", path("rules")});
  EXPECT_EQ(rules.status, 0) << rules.err;
  EXPECT_TRUE(contains(rules.out, path("rules/screening.toml") + " replaces profile 'screening' of ")) << rules.out;
  EXPECT_TRUE(contains(rules.out, "  leaves out shoulder-motion\n")) << rules.out;
  EXPECT_TRUE(contains(rules.out, "  adds knee-strength\n")) << rules.out;
}

TEST_F(CommandLine, ExplainsExpectations) {
  const Outcome one = run_program({"explain", "screening/shoulder-motion"});
  EXPECT_EQ(one.status, 0) << one.err;
  for (const char* part : {"screening/shoulder-motion", "Asks for", "Why", "Source"}) {
    EXPECT_TRUE(contains(one.out, part)) << one.out;
  }
  const Outcome unknown = run_program({"explain", "shoulder-moton"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_TRUE(contains(unknown.err, "did you mean 'shoulder-motion'?")) << unknown.err;
}

TEST_F(CommandLine, ChecksTheLexicon) {
  const Outcome outcome = run_program({"lexicon", "check"});
  EXPECT_EQ(outcome.status, 0) << outcome.out << outcome.err;
  EXPECT_TRUE(contains(outcome.out, "0 errors")) << outcome.out;
}

}  // namespace
}  // namespace jointledger
