// Notes out of text and NDJSON, and every way in which a record can be refused while the rest is read.
#include "intake/note_source.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "streams.h"
#include "taken.h"

namespace jointledger {
namespace {

using testing::stream_of;
using testing::take;
using testing::Taken;

Taken take_ndjson(std::string bytes) {
  return take(NoteSource("notes.ndjson", *format_named("ndjson"), stream_of(std::move(bytes), 4096)));
}

Taken take_text(std::string bytes, std::string path = "visit.txt") {
  return take(NoteSource(std::move(path), *format_named("text"), stream_of(std::move(bytes), 4096)));
}

/// The one fault of a line between two good ones, which must still be read.
RecordFault fault_of(const std::string& line) {
  const Taken taken =
      take_ndjson("{\"id\":\"before\",\"text\":\"x\"}\n" + line + "\n{\"id\":\"after\",\"text\":\"y\"}\n");
  EXPECT_EQ(taken.notes.size(), 2U) << line.substr(0, 200);
  EXPECT_EQ(taken.faults.size(), 1U) << line.substr(0, 200);
  return taken.faults.empty() ? RecordFault{} : taken.faults.front();
}

TEST(Text, AFileIsANoteNamedByItsPath) {
  const Taken taken = take_text("Right knee: no effusion.\nGait normal.\n");
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "visit.txt");
  EXPECT_EQ(taken.notes[0].text, "Right knee: no effusion.\nGait normal.\n");
}

TEST(Text, TheTextStaysAsItCameIn) {
  const std::string odd = "\xEF\xBB\xBFKnee\r\nflexion 120\xC2\xB0\r\n";
  EXPECT_EQ(take_text(odd).notes.at(0).text, odd);
}

TEST(Text, RefusesWhatIsNotUtf8AndSaysWhere) {
  const Taken taken = take_text("line one\nbad \xFF here");
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].record, "visit.txt");
  EXPECT_EQ(taken.faults[0].place, (Place{2, 13}));
  EXPECT_EQ(taken.faults[0].reason, "not UTF-8 from byte 13 of the text");
}

TEST(Text, RefusesNulBytes) {
  const Taken taken = take_text(std::string("knee\0", 5) + "\xFF");
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].reason, "a NUL byte at byte 4 of the text");
}

TEST(Text, RefusesRtf) { EXPECT_EQ(take_text("{\\rtf1 knee}").faults.at(0).reason, "it is RTF, which is not read"); }

TEST(Text, RefusesEmptyNotes) {
  for (const char* empty : {"", " ", "\n\n\t\r\n"}) {
    const Taken taken = take_text(empty);
    ASSERT_EQ(taken.faults.size(), 1U);
    EXPECT_EQ(taken.faults[0].reason, "the note has no text");
  }
}

TEST(Text, CallsTheStandardInputByItsName) {
  EXPECT_EQ(take_text("knee", "-").notes.at(0).id, "-");
  EXPECT_EQ(take_text("", "-").faults.at(0).record, "standard input");
}

TEST(Text, RefusesAFileWhoseNameIsNotUtf8) {
  EXPECT_EQ(take_text("knee", "visit\xFF.txt").faults.at(0).reason, "its name is not UTF-8");
}

TEST(Ndjson, ReadsIdAndTextAndKeepsTheRestAsItIs) {
  const Taken taken = take_ndjson(R"({"author":"FW-01","id":"a","n":1.50,"big":123456789012345678901234567890,)"
                                  R"("text":"caf\u00e9\nknee","list":[1, {"x":null}], "flag" : true ,"o":{}})"
                                  "\n");
  ASSERT_TRUE(taken.faults.empty()) << taken.faults[0].reason;
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "a");
  EXPECT_FALSE(taken.notes[0].id_is_number);
  EXPECT_EQ(taken.notes[0].text, "caf\xC3\xA9\nknee");
  const std::vector<std::pair<std::string, std::string>> expected = {
      {"author", "\"FW-01\""},        {"n", "1.50"},    {"big", "123456789012345678901234567890"},
      {"list", R"([1, {"x":null}])"}, {"flag", "true"}, {"o", "{}"}};
  EXPECT_EQ(taken.notes[0].metadata, expected);
}

TEST(Ndjson, TakesNumbersForIds) {
  const Taken taken = take_ndjson("{\"id\": 12345678901234567890 , \"text\": \"knee\"}");
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "12345678901234567890");
  EXPECT_TRUE(taken.notes[0].id_is_number);
}

TEST(Ndjson, PassesOverEmptyLinesAndAByteOrderMark) {
  const Taken taken = take_ndjson("\xEF\xBB\xBF{\"id\":1,\"text\":\"a\"}\r\n\r\n  \n{\"id\":2,\"text\":\"b\"}");
  EXPECT_TRUE(taken.faults.empty());
  EXPECT_EQ(taken.notes.size(), 2U);
}

TEST(Ndjson, BrokenJsonNamesLineAndByte) {
  std::string lines;
  for (int i = 1; i <= 6; ++i) lines += R"({"id":"n)" + std::to_string(i) + R"(","text":"knee"})" + "\n";
  const std::size_t start = lines.size();
  lines += R"({"id":"n7","text":"knee" "author":"x"})";
  lines +=
      "\n"
      R"({"id":"n8","text":"knee"})"
      "\n";
  const Taken taken = take_ndjson(lines);
  EXPECT_EQ(taken.notes.size(), 7U);
  EXPECT_EQ(taken.notes.back().id, "n8");
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].record, "notes.ndjson:7 (id n7)");
  EXPECT_EQ(taken.faults[0].place.line, 7U);
  EXPECT_GT(taken.faults[0].place.offset, start);
  EXPECT_EQ(taken.faults[0].reason, "not JSON: a comma, colon, brace or value is missing or misplaced");
}

TEST(Ndjson, EveryPartOfALineMustBeJson) {
  const char* broken[] = {
      R"({"id":"a","text":"x")",
      R"({"id":"a","text":"x"}})",
      R"({"id":"a","text":"x"} {"id":"b","text":"y"})",
      R"({"id":"a","text":"x","m":tru})",
      R"({"id":"a","text":"x","m":nul})",
      R"({"id":"a","text":"x","m":{"n":tru}})",
      R"({"id":"a","text":"x","m":[1,2,]})",
      R"({"id":"a","text":"x","m":[1 2]})",
      R"({"id":"a","text":"x","m":01})",
      R"({"id":"a","text":"x","m":1.2.3})",
      R"({"id":"a","text":"x","m":"\q"})",
      R"({"id":"a","text":"x","m":{"\q":1}})",
      R"({"id":"a","text":"x",})",
      R"({"id":"a","text":"x)",
      R"({"id":"a",'text':"x"})",
      "{\"id\":\"a\",\"text\":\"tab\there\"}",
      "{",
  };
  for (const char* line : broken) {
    EXPECT_TRUE(fault_of(line).reason.starts_with("not JSON: ")) << line << "\n" << fault_of(line).reason;
  }
}

TEST(Ndjson, NestingIsBounded) {
  const auto nested = [](std::size_t depth) {
    return R"({"id":"a","text":"x","m":)" + std::string(depth, '[') + std::string(depth, ']') + "}";
  };
  EXPECT_EQ(take_ndjson(nested(50)).notes.size(), 1U);
  EXPECT_EQ(fault_of(nested(200)).reason, "not JSON: it is nested too deeply");
  EXPECT_EQ(fault_of(nested(1'000'000)).reason, "not JSON: it is nested too deeply");
  EXPECT_FALSE(fault_of(R"({"id":"a","text":"x","m":)" + std::string(1'000'000, '[')).reason.empty());
}

TEST(Ndjson, RefusesWhatIsNoObject) {
  for (const char* line : {"[1]", "\"text\"", "12", "null", "knee exam"}) {
    const RecordFault fault = fault_of(line);
    EXPECT_TRUE(fault.reason.starts_with("not ")) << line << ": " << fault.reason;
    EXPECT_EQ(fault.record, "notes.ndjson:2");
  }
  EXPECT_EQ(fault_of("[1]").reason, "not a JSON object");
}

TEST(Ndjson, RefusesMissingAndDoubleKeys) {
  EXPECT_EQ(fault_of(R"({"text":"x"})").reason, "it has no id");
  EXPECT_EQ(fault_of(R"({"id":"a"})").reason, "it has no text");
  EXPECT_EQ(fault_of(R"({"id":"a"})").record, "notes.ndjson:2 (id a)");
  EXPECT_EQ(fault_of(R"({"id":null,"text":"x"})").reason, "its id is neither a string nor a number");
  EXPECT_EQ(fault_of(R"({"id":"","text":"x"})").reason, "its id is empty");
  EXPECT_EQ(fault_of(R"({"id":"a","text":["x"]})").reason, "its text is not a string");
  EXPECT_EQ(fault_of(R"({"id":"a","text":""})").reason, "the note has no text");
  EXPECT_EQ(fault_of(R"({"id":"a","text":"x","id":"b"})").reason, "it has two of the key id");
  EXPECT_EQ(fault_of(R"({"id":"a","text":"x","te\u0078t":"y"})").reason, "it has two of the key text");
  EXPECT_EQ(fault_of(R"({"id":"a","text":"x","m":1,"m":1})").reason, "it has a key twice");
}

TEST(Ndjson, ALineOfAMillionKeysIsReadInGoodTime) {
  std::string line = R"({"id":"a","text":"x")";
  for (int i = 0; i < 1'000'000; ++i) line += ",\"" + std::to_string(i) + "\":0";
  EXPECT_EQ(take_ndjson(line + "}").notes.at(0).metadata.size(), 1'000'000U);
}

TEST(Ndjson, RefusesWhatIsNotUtf8) {
  const RecordFault fault = fault_of("{\"id\":\"a\",\"text\":\"\xC3(\"}");
  EXPECT_EQ(fault.reason, "not UTF-8 from byte 18 of the line");
  EXPECT_EQ(fault.place.line, 2U);
  EXPECT_EQ(fault.place.offset, 27U + 18U);
  EXPECT_FALSE(fault_of("{\"id\":\"a\",\"text\":\"x\",\"\xFF\":1}").reason.empty());
}

TEST(Ndjson, RefusesHalfASurrogatePair) {
  EXPECT_FALSE(fault_of(R"({"id":"a","text":"x \ud83d y"})").reason.empty());
  EXPECT_FALSE(fault_of(R"({"id":"a","text":"x \udc00 y"})").reason.empty());
  EXPECT_FALSE(fault_of(R"({"id":"\udc00","text":"x"})").reason.empty());
  EXPECT_FALSE(fault_of(R"({"id":"a","text":"x","\udc00":1})").reason.empty());
}

TEST(Ndjson, RefusesNulBytes) {
  EXPECT_EQ(fault_of(R"({"id":"a","text":"kn\u0000ee"})").reason, "a NUL byte at byte 2 of the text");
  EXPECT_FALSE(fault_of(std::string("{\"id\":\"a\",\"text\":\"kn\0ee\"}", 25)).reason.empty());
}

TEST(Ndjson, WhatMayBeANoteIsNotQuotedAsAnId) {
  EXPECT_EQ(fault_of(R"({"id":"secret knee","text":1})").record, "notes.ndjson:2");
  EXPECT_EQ(fault_of(R"({"id":")" + std::string(65, 'x') + R"(","text":1})").record, "notes.ndjson:2");
}

TEST(Ndjson, FaultsQuoteNothingOfTheText) {
  const char* lines[] = {R"({"id":"a","text":"secret" "m":1})", R"({"id":"a","text":"secret)", R"({"text":"secret"})",
                         "{\"id\":\"a\",\"text\":\"secret\xFF\"}",
                         R"({"id":"a","secret":1,"secret":2,"text":"secret"})"};
  for (const char* line : lines) {
    const RecordFault fault = fault_of(line);
    EXPECT_EQ((fault.record + fault.reason).find("secret"), std::string::npos) << fault.record << fault.reason;
  }
}

TEST(NoteSource, AnInputThatIsNotThereIsOneFault) {
  const Taken taken = take(NoteSource("/nowhere/visit.txt", *format_named("text")));
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].record, "/nowhere/visit.txt");
  EXPECT_EQ(taken.faults[0].reason, "cannot be opened: No such file or directory");
}

TEST(NoteSource, AFolderIsNoNote) {
  EXPECT_EQ(take(NoteSource("/", *format_named("text"))).faults.at(0).reason, "cannot be read: Is a directory");
  EXPECT_EQ(take(NoteSource("/", *format_named("ndjson"))).faults.at(0).reason, "cannot be read: Is a directory");
}

TEST(Formats, AreFoundByName) {
  EXPECT_EQ(formats().front().name, "auto");
  EXPECT_EQ(format_named("csv")->name, "csv");
  EXPECT_EQ(format_named("CSV"), nullptr);
  EXPECT_EQ(format_named(""), nullptr);
}

}  // namespace
}  // namespace jointledger
