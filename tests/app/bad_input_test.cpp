// Hostile and broken input: each fault is named, the rest is read, and no text of a note gets into a message.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "program.h"

namespace jointledger {
namespace {

using nlohmann::json;
using testing::Outcome;
using testing::run_program;

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string line(const std::string& id, const std::string& text = "EXAM: Right knee: no swelling.") {
  return json{{"id", id}, {"text", text}}.dump() + "\n";
}

Outcome read_ndjson(const std::string& input) {
  return run_program({"read", "--from", "ndjson", "--to", "ndjson"}, {.input = input});
}

std::vector<std::string> ids_of(const Outcome& outcome) {
  std::vector<std::string> ids;
  std::istringstream lines(outcome.out);
  for (std::string l; std::getline(lines, l);) ids.push_back(json::parse(l)["id"]);
  return ids;
}

using Strings = std::vector<std::string>;

TEST(BadInput, BrokenJsonOnLineSeven) {
  std::string input;
  for (int i = 1; i <= 6; ++i) input += line(std::string("n").append(std::to_string(i)));
  input += std::string("{\"id\":\"n7\",\"text\":\"SECRET knee\"\n").append(line("n8"));
  const Outcome outcome = read_ndjson(input);
  EXPECT_EQ(outcome.status, 2);
  EXPECT_EQ(ids_of(outcome), (Strings{"n1", "n2", "n3", "n4", "n5", "n6", "n8"}));
  EXPECT_TRUE(contains(outcome.err, "standard input:7")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "not JSON")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "8 read, 7 written, 1 set aside")) << outcome.err;
  EXPECT_FALSE(contains(outcome.err, "SECRET"));
}

TEST(BadInput, NotUtf8) {
  const Outcome text = run_program({"read"}, {.input = "SECRET knee \xFF"});
  EXPECT_EQ(text.status, 2);
  EXPECT_TRUE(contains(text.err, "not UTF-8 from byte 12")) << text.err;
  EXPECT_FALSE(contains(text.err, "SECRET"));

  const Outcome ndjson = read_ndjson(line("a") + "{\"id\":\"b\",\"text\":\"SECRET \xFF\"}\n" + line("c"));
  EXPECT_EQ(ndjson.status, 2);
  EXPECT_EQ(ids_of(ndjson), (Strings{"a", "c"}));
  EXPECT_TRUE(contains(ndjson.err, "standard input:2")) << ndjson.err;
  EXPECT_FALSE(contains(ndjson.err, "SECRET"));
}

TEST(BadInput, Empty) {
  const Outcome text = run_program({"read"});
  EXPECT_EQ(text.status, 2);
  EXPECT_TRUE(contains(text.err, "the note has no text")) << text.err;

  const Outcome note = read_ndjson(line("a", "") + line("b"));
  EXPECT_EQ(note.status, 2);
  EXPECT_EQ(ids_of(note), Strings{"b"});
  EXPECT_TRUE(contains(note.err, "(id a)")) << note.err;

  // Nothing came in last night: not an error, but worth a word.
  const Outcome nothing = read_ndjson("");
  EXPECT_EQ(nothing.status, 0);
  EXPECT_EQ(nothing.out, "");
  EXPECT_TRUE(contains(nothing.err, "no notes")) << nothing.err;
}

TEST(BadInput, NulBytes) {
  const Outcome text = run_program({"read"}, {.input = std::string("knee\0", 5)});
  EXPECT_EQ(text.status, 2);
  EXPECT_TRUE(contains(text.err, "NUL")) << text.err;

  const Outcome ndjson = read_ndjson(line("a", std::string("kn\0ee", 5)) + line("b"));
  EXPECT_EQ(ndjson.status, 2);
  EXPECT_EQ(ids_of(ndjson), Strings{"b"});
  EXPECT_TRUE(contains(ndjson.err, "NUL")) << ndjson.err;
}

TEST(BadInput, ALineOfFiftyMegabytes) {
  std::string text = "EXAM: Right knee: no swelling. ";
  while (text.size() < 50'000'000) text += "Nothing else of note was seen on this day. ";
  const Outcome outcome = read_ndjson(line("before") + line("large", text) + line("after"));
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_EQ(ids_of(outcome), (Strings{"before", "large", "after"}));
}

TEST(BadInput, ALineThatIsTooLong) {
  const Outcome outcome = read_ndjson(line("before") + line("huge", std::string(70'000'000, 'x')) + line("after"));
  EXPECT_EQ(outcome.status, 2);
  EXPECT_EQ(ids_of(outcome), (Strings{"before", "after"}));
  EXPECT_TRUE(contains(outcome.err, "standard input:2")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "longer than 64 MiB")) << outcome.err;
}

TEST(BadInput, AMissingFileDoesNotStopTheOthers) {
  const std::string knee = JOINTLEDGER_FIXTURES "/notes/03-knee-focused-excellent.txt";
  const Outcome outcome = run_program({"read", "--to", "ndjson", "/nowhere/a.txt", knee, knee + "/b.txt"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_EQ(ids_of(outcome), Strings{knee});
  EXPECT_TRUE(contains(outcome.err, "/nowhere/a.txt: cannot be opened: No such file or directory")) << outcome.err;
  EXPECT_TRUE(contains(outcome.err, "Not a directory")) << outcome.err;
}

TEST(BadInput, AnIdCannotSteerTheTerminal) {
  const Outcome outcome = read_ndjson("{\"id\":\"\\u001b[31mred\\nline\"}\n");
  EXPECT_EQ(outcome.status, 2);
  EXPECT_FALSE(contains(outcome.err, "\x1b"));
  EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 2) << outcome.err;
}

TEST(BadInput, KeysThatTheOutputUsesStayItsOwn) {
  const Outcome outcome = read_ndjson(R"({"id":"a","text":"Right knee: no swelling.","entries":1,"author":"x"})"
                                      "\n");
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  const json ledger = json::parse(outcome.out);
  EXPECT_TRUE(ledger["entries"].is_array());
  EXPECT_EQ(ledger["author"], "x");
}

}  // namespace
}  // namespace jointledger
