// Formats told apart by their content.
#include "intake/recognise.h"

#include <gtest/gtest.h>

#include <string>

#include "taken.h"

namespace jointledger {
namespace {

using testing::take_as;
using testing::Taken;

Looks look(std::string_view content, std::string_view path = "-") { return looks_like(content, true, path, {}); }

TEST(Recognise, TellsFormatsByContent) {
  EXPECT_EQ(look("{\"id\":\"a\",\"text\":\"x\"}\n"), Looks::json);
  EXPECT_EQ(look("\xEF\xBB\xBF\n {\n  \"resourceType\": \"Bundle\","), Looks::json);
  EXPECT_EQ(look("{}"), Looks::json);
  EXPECT_EQ(look("id,author,text\n1,x,y\n"), Looks::csv);
  EXPECT_EQ(look("\xEF\xBB\xBF\"Text\",\"Id\"\r\n"), Looks::csv);
  EXPECT_EQ(look("id\ttext\n"), Looks::tsv);
  EXPECT_EQ(look("note_id,person_id,note_text\n"), Looks::omop);
  EXPECT_EQ(look("NOTE_ID\tNOTE_TEXT\n"), Looks::omop);
  EXPECT_EQ(look("MSH|^~\\&|A\r"), Looks::hl7);
  EXPECT_EQ(look("\vMSH|^~\\&|A\r"), Looks::hl7);
  EXPECT_EQ(look("FHS|^~\\&|A\rBHS|^~\\&|A\r"), Looks::hl7);
  EXPECT_EQ(look("<?xml version=\"1.0\"?>\n<!-- x -->\n<ClinicalDocument xmlns=\"urn:hl7-org:v3\">"), Looks::ccda);
  EXPECT_EQ(look("<cda:ClinicalDocument>"), Looks::ccda);
}

TEST(Recognise, AllElseIsText) {
  for (const char* text :
       {"Right knee: no swelling.\n", "EXAM", "{ left knee }", "{\\rtf1", "[x] swelling\n", "MSHELL, exam\n",
        "<5 degrees of flexion, id, text\n", "id: text\n", "FHS", "seen with id, text, plan"}) {
    EXPECT_EQ(look(text), Looks::text) << text;
  }
}

TEST(Recognise, TheExtensionTellsWhereTheContentDoesNot) {
  EXPECT_EQ(look("", "a/notes.ndjson"), Looks::json);
  EXPECT_EQ(look("", "notes.ndjson.gz"), Looks::json);
  EXPECT_EQ(look("\n", "notes.csv"), Looks::csv);
  EXPECT_EQ(look("key,body\n1,x\n", "notes.CSV"), Looks::csv);
  EXPECT_EQ(look("", "visit.txt"), Looks::text);
  EXPECT_EQ(look("{\"id\":1}", "visit.txt"), Looks::json);
  EXPECT_EQ(look("Right knee", "visit.json"), Looks::text);
}

TEST(Recognise, NamedColumnsMeanATable) {
  IntakeOptions options;
  options.text_column = "body";
  EXPECT_EQ(looks_like("id,body\n", true, "-", options), Looks::csv);
  EXPECT_EQ(looks_like("id\tother\n", true, "-", options), Looks::tsv);
}

TEST(Recognise, WaitsForNoMoreThanItNeeds) {
  EXPECT_EQ(looks_like("", false, "-", {}), Looks::unclear);
  EXPECT_EQ(looks_like("{", false, "-", {}), Looks::unclear);
  EXPECT_EQ(looks_like("{\"", false, "-", {}), Looks::json);
  EXPECT_EQ(looks_like("id,te", false, "-", {}), Looks::unclear);
  EXPECT_EQ(looks_like("Right knee\n", false, "-", {}), Looks::text);
}

TEST(Auto, ReadsEachFormatAndKeepsItsHead) {
  EXPECT_EQ(take_as("auto", "knee").notes.at(0).text, "knee");
  EXPECT_EQ(take_as("auto", "id,text,ward\n1,knee,A\n2,hip,B\n").notes.at(1)["ward"], R"("B")");
  EXPECT_EQ(take_as("auto", "note_id,note_text\n1,knee\n").notes.at(0).id_is_number, true);
  EXPECT_EQ(take_as("auto", "MSH|^~\\&|||||||MDM^T02|M1\rOBX|1|TX|||knee\r").notes.at(0).id, "M1");
}

TEST(Auto, TellsFhirFromNdjsonRecordByRecord) {
  const Taken taken =
      take_as("auto", R"({"id":"a","text":"the key \"resourceType\" in a text"})"
                      "\n"
                      R"({"id":"b","text":"x","resourceType":"Observation"})"
                      "\n"
                      R"({"id":"c","text":"x","more":{"resourceType":"Patient"}})"
                      "\n"
                      R"({"resourceType":"DocumentReference","id":"d","text":{"div":"<div/>"},"content":[{)"
                      R"("attachment":{"contentType":"text/plain","data":"a25lZQ=="}}]})"
                      "\n"
                      "{\"id\":\"broken\n"
                      R"({"id":"e","text":"x"})");
  ASSERT_EQ(taken.notes.size(), 5U);
  EXPECT_EQ(taken.notes[3].text, "knee");
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].place.line, 5U);
}

TEST(Auto, EmptyInputIsANoteWithoutTextUnlessItsNameSaysOtherwise) {
  EXPECT_EQ(take_as("auto", "").faults.at(0).reason, "the note has no text");
  EXPECT_TRUE(take_as("auto", "", "notes.ndjson").faults.empty());
  EXPECT_TRUE(take_as("auto", "", "notes.csv.gz").faults.empty());
  EXPECT_TRUE(take_as("auto", "", "notes.hl7").faults.empty());
}

TEST(Auto, AnInputThatFailsIsAFault) {
  const Taken taken =
      testing::take(NoteSource("in", *format_named("auto"), testing::stream_of("", 7, "Is a directory")));
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].reason, "cannot be read: Is a directory");
}

}  // namespace
}  // namespace jointledger
