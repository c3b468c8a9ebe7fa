// CSV and TSV by RFC 4180 (IETF, 2005); the numbers of its rules are named beside the checks.
#include <gtest/gtest.h>

#include <string>

#include "intake/csv_columns.h"
#include "intake/csv_splitter.h"
#include "streams.h"
#include "taken.h"

namespace jointledger {
namespace {

using testing::stream_of;
using testing::take_as;
using testing::Taken;

std::vector<std::string> texts_of(const Taken& taken) {
  std::vector<std::string> texts;
  for (const auto& note : taken.notes) texts.push_back(note.text);
  return texts;
}

using Strings = std::vector<std::string>;

TEST(Csv, QuotedFieldsHoldSeparatorsBreaksAndQuotes) {
  // RFC 4180, section 2: rules 5, 6 and 7.
  const Taken taken = take_as("csv", "id,text\r\n1,\"knee, \"\"left\"\"\r\nfull\r\n\"\r\n2,plain\r\n");
  EXPECT_TRUE(taken.faults.empty());
  EXPECT_EQ(texts_of(taken), (Strings{"knee, \"left\"\r\nfull\r\n", "plain"}));
}

TEST(Csv, TheLastLineMayLackItsBreakAndSpacesBelongToFields) {
  // Rules 2 and 4.
  EXPECT_EQ(texts_of(take_as("csv", "id,text\n1, knee \n2,\" a \"")), (Strings{" knee ", " a "}));
}

TEST(Csv, OtherColumnsAreCarriedThroughAsStrings) {
  const Taken taken = take_as("csv", "Ward,ID,Text,n,author\n\"A\"\"1\",7,knee,1.50,\n");
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "7");
  EXPECT_FALSE(taken.notes[0].id_is_number);
  using Members = std::vector<std::pair<std::string, std::string>>;
  EXPECT_EQ(taken.notes[0].metadata, (Members{{"Ward", R"("A\"1")"}, {"n", R"("1.50")"}, {"author", R"("")"}}));
}

TEST(Csv, ColumnsAreNamedByOption) {
  IntakeOptions options;
  options.id_column = "key";
  options.text_column = "body";
  options.author_column = "who";
  options.patient_column = "mrn";
  options.date_column = "when";
  const Taken taken = take_as("csv", "when,mrn,who,key,body,id\n2031,P1,FW-1,k,knee,9\n", "in", options);
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "k");
  EXPECT_EQ(taken.notes[0]["who"], R"("FW-1")");
  EXPECT_EQ(taken.notes[0]["author"], R"("FW-1")");
  EXPECT_EQ(taken.notes[0]["patient"], R"("P1")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031")");
}

TEST(Csv, BareQuotesStandForThemselves) {
  EXPECT_EQ(texts_of(take_as("csv", "id,text\n1,reach 5'2\" \"ok\"\n")), Strings{"reach 5'2\" \"ok\""});
  EXPECT_EQ(texts_of(take_as("tsv", "id\ttext\n1\treach 2\", \"ok\"\n")), Strings{"reach 2\", \"ok\""});
}

TEST(Csv, ABadRowIsSetAsideAndTheRestIsRead) {
  const Taken taken = take_as("csv",
                              "id,text\n"
                              "1,\"pain \"sharp\" now\nROM full, stable\"\n"  // its second line must be no note
                              "2,knee\n"
                              "3,a,b\n"
                              "4\n"
                              "\n"
                              "5,\n"
                              ",knee\n"
                              "6,\"\xFF\"\n"
                              "7,\"two\nlines\"\n"
                              "8,\"open\n9,x\n");
  EXPECT_EQ(texts_of(taken), (Strings{"knee", "two\nlines"}));
  Strings faults;
  for (const auto& fault : taken.faults) faults.push_back(fault.record + ": " + fault.reason);
  EXPECT_EQ(faults,
            (Strings{"in:2: a quoted field goes on after its closing quote",
                     "in:5: the row has 3 fields, the header row 2", "in:6: the row has 1 fields, the header row 2",
                     "in:8 (id 5): the note has no text", "in:9: its id is empty",
                     "in:10 (id 6): not UTF-8 from byte 0 of the text", "in:13: a quote in the row is never closed"}));
  EXPECT_EQ(taken.faults[0].place, (Place{2, 8}));
}

TEST(Csv, WithoutTheColumnsTheInputIsOneFault) {
  const Taken taken = take_as("csv", "1,Secret knee\n2,Secret hip\n");
  EXPECT_TRUE(taken.notes.empty());
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].reason, "the header row has no column named id");
  EXPECT_EQ(take_as("csv", "id,text,a,a\n1,x,y,z\n").faults.at(0).reason, "the header row has a name twice");
  EXPECT_EQ(take_as("csv", "id,text,\"a\n1,x,y\n").faults.at(0).reason,
            "the header row has a quote that is never closed, or closed too soon");
}

TEST(Csv, AByteOrderMarkIsPassedOver) {
  EXPECT_EQ(take_as("csv", "\xEF\xBB\xBF\"id\",text\n1,knee\n").notes.at(0).id, "1");
}

TEST(Csv, AnEmptyTableIsNoFault) {
  EXPECT_TRUE(take_as("csv", "").faults.empty());
  EXPECT_TRUE(take_as("csv", "id,text\n").faults.empty());
}

TEST(Csv, ARowThatIsTooLongEndsWhereItEnds) {
  // What stands in the quotes of a row that is passed over is no row, though it looks like one.
  for (const char* separator : {"", ",x"}) {
    const std::string row = "1,\"" + std::string(20, 'x') + "\n8,no note\n\"\"\n9,nor this\"" + separator + "\n";
    auto splitter = split_into_rows(stream_of("id,text\n" + row + "2,\"a\nb\"\n"), CsvSeparator::comma,
                                    csv_names(IntakeOptions()), 12);
    Record record;
    record.input = "in";
    const Split first = splitter->next(record);
    ASSERT_TRUE(std::holds_alternative<RecordFault>(first));
    EXPECT_EQ(std::get<RecordFault>(first).record, "in:2");
    EXPECT_EQ(std::get<RecordFault>(first).reason, "the row is longer than 12 bytes, the most that is read");
    EXPECT_TRUE(std::holds_alternative<RecordReady>(splitter->next(record)));
    EXPECT_EQ(record.bytes, "2,\"a\nb\"\n");
    EXPECT_EQ(record.place.line, 6U);
    EXPECT_TRUE(std::holds_alternative<EndOfInput>(splitter->next(record)));
  }
}

TEST(Csv, AnInputThatFailsIsAFault) {
  const Taken taken = testing::take(
      NoteSource("in", *format_named("csv"), stream_of("id,text\n1,knee\n2,hal", 7, "Input/output error")));
  EXPECT_EQ(taken.notes.size(), 1U);
  ASSERT_EQ(taken.faults.size(), 1U);
  EXPECT_EQ(taken.faults[0].reason, "cannot be read: Input/output error");
}

TEST(Omop, ReadsTheNoteTable) {
  // Columns of NOTE: https://ohdsi.github.io/CommonDataModel/cdm54.html#note; tests/outside/ compares them with a
  // published package.
  const Taken taken = take_as("omop",
                              "NOTE_ID\tPERSON_ID\tNOTE_DATE\tNOTE_DATETIME\tNOTE_TEXT\tPROVIDER_ID\n"
                              "12\t7\t2031-03-04\t\tknee\t3\n"
                              "x12\t7\t2031-03-04\t2031-03-04 10:15:00\thip\t\n");
  ASSERT_EQ(taken.notes.size(), 2U);
  EXPECT_EQ(taken.notes[0].id, "12");
  EXPECT_TRUE(taken.notes[0].id_is_number);
  EXPECT_EQ(taken.notes[0]["patient"], R"("7")");
  EXPECT_EQ(taken.notes[0]["author"], R"("3")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031-03-04")");
  EXPECT_EQ(taken.notes[0]["PERSON_ID"], R"("7")");
  EXPECT_FALSE(taken.notes[1].id_is_number);
  EXPECT_EQ(taken.notes[1]["date"], R"("2031-03-04 10:15:00")");
  EXPECT_EQ(taken.notes[1]["author"], "");
}

}  // namespace
}  // namespace jointledger
