// HL7 version 2.5.1: chapter 2 (messages, escapes, batches), 7 (OBX), 9 (MDM), and MLLP framing (appendix C). The
// standard is quoted from memory; tests/outside/ compares with messages that a published library makes.
#include <gtest/gtest.h>

#include <string>

#include "intake/hl7_date.h"
#include "intake/hl7_splitter.h"
#include "taken.h"

namespace jointledger {
namespace {

using testing::stream_of;
using testing::take_as;
using testing::Taken;

std::string header(const std::string& type, const std::string& control = "M1", const std::string& charset = "") {
  return "MSH|^~\\&|A|B|C|D|20310304101500+0100||" + type + "|" + control + "|P|2.5.1||||||" + charset + "\r";
}

std::string mdm(const std::string& obx, const std::string& charset = "") {
  return header("MDM^T02^MDM_T02", "M1", charset) +
         "EVN|T02|20310304\rPID|1||P7^^^X~P8||DOE^J\rTXA|1|PN|TX|20310304|||||FW-9^S|||DOC1^S\r" + obx;
}

std::string text_of(const std::string& obx) {
  const Taken taken = take_as("hl7", mdm(obx));
  EXPECT_TRUE(taken.faults.empty()) << taken.faults[0].reason;
  return taken.notes.size() == 1 ? taken.notes[0].text : "";
}

RecordFault fault_of(const std::string& message) {
  const std::string good = mdm("OBX|1|TX|1||knee\r");
  const Taken taken = take_as("hl7", good + message + good);
  EXPECT_EQ(taken.notes.size(), 2U) << message;
  EXPECT_EQ(taken.faults.size(), 1U) << message;
  return taken.faults.empty() ? RecordFault{} : taken.faults.front();
}

TEST(Hl7, ADocumentIsANote) {
  const Taken taken = take_as("hl7", mdm("OBX|1|TX|1^Exam||Right knee:\rOBX|2|TX|1^Exam||no swelling\r"));
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "DOC1");
  EXPECT_EQ(taken.notes[0].text, "Right knee:\nno swelling");
  EXPECT_EQ(taken.notes[0]["PID-3"], R"("P7^^^X~P8")");
  EXPECT_EQ(taken.notes[0]["MSH-10"], R"("M1")");
  EXPECT_EQ(taken.notes[0]["TXA-12"], R"("DOC1^S")");
  EXPECT_EQ(taken.notes[0]["patient"], R"("P7")");
  EXPECT_EQ(taken.notes[0]["author"], R"("FW-9")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031-03-04")");
}

TEST(Hl7, AReportIsANote) {
  const Taken taken = take_as("hl7", header("ORU^R01") +
                                         "PID|1||P7\r"
                                         "OBR|1||F1^L|1^XR|||20310304\rNTE|1||no\rOBX|1|ST|1||knee\r"
                                         "OBR|2||F2\rOBX|1|NM|1||12\r"
                                         "OBR|3|PL3\rOBX|1|NM|1||12\rOBX|2|FT|1||hip\r"
                                         "OBR|4\rOBX|1|TX|1||gait\r");
  EXPECT_TRUE(taken.faults.empty());
  ASSERT_EQ(taken.notes.size(), 3U);
  EXPECT_EQ(taken.notes[0].id, "F1");
  EXPECT_EQ(taken.notes[0].text, "knee");
  EXPECT_EQ(taken.notes[0]["OBR-4"], R"("1^XR")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031-03-04")");
  EXPECT_EQ(taken.notes[0]["NTE-3"], "");
  EXPECT_EQ(taken.notes[1].id, "PL3");
  EXPECT_EQ(taken.notes[1].text, "hip");
  EXPECT_EQ(taken.notes[1]["OBR-4"], "");
  EXPECT_EQ(taken.notes[1]["patient"], R"("P7")");
  EXPECT_EQ(taken.notes[1]["date"], R"("2031-03-04T10:15:00+01:00")");
  EXPECT_EQ(taken.notes[2].id, "M1-4");
}

TEST(Hl7, OtherMessagesAreNoNotes) {
  const Taken taken = take_as("hl7", header("ADT^A01") + "PID|1\r" + header("MDM^T01") + "TXA|1\r");
  EXPECT_TRUE(taken.faults.empty());
  EXPECT_TRUE(taken.notes.empty());
}

TEST(Hl7, EscapeSequences) {
  // Section 2.7.1 (separators), 2.7.2 (highlighting), 2.7.5 (hexadecimal), 2.7.6 (formatted text), 2.7.7 (local).
  EXPECT_EQ(text_of(R"(OBX|1|FT|1||a\F\b\S\c\T\d\R\e\E\f)"), R"(a|b^c&d~e\f)");
  EXPECT_EQ(text_of(R"(OBX|1|FT|1||one\.br\two\.sp2\three\.sk3\x\.in+4\y\.ce\z)"), "one\ntwo\n\nthree   xy\nz");
  EXPECT_EQ(text_of(R"(OBX|1|TX|1||\H\bold\N\ \Z1\ok\X0D0A\next\XC2B0\)"), "bold ok\nnext\xC2\xB0");
  EXPECT_EQ(text_of(R"(OBX|1|FT|1||\.sp4000000000\x)"), std::string(100, '\n') + "x");
}

TEST(Hl7, WhatIsNoEscapeStandsForItself) {
  EXPECT_EQ(text_of(R"(OBX|1|TX|1||L5\S1 fine \ and \q\ and C:\x)"), R"(L5\S1 fine \ and \q\ and C:\x)");
}

TEST(Hl7, RepeatsAreLinesAndOtherSeparatorsText) {
  EXPECT_EQ(text_of("OBX|1|TX|1||one~two~~three^& four"), "one\ntwo\n\nthree^& four");
}

TEST(Hl7, ValuesOfDifferentNamesStandUnderThem) {
  EXPECT_EQ(text_of("OBX|1|TX|1^Exam||knee\rOBX|2|TX|1^Exam||full\rOBX|3|TX|2^Plan \\T\\ goals||rest"),
            "Exam:\nknee\nfull\nPlan & goals:\nrest");
}

TEST(Hl7, EncapsulatedData) {
  // "knee: no swelling" in base64.
  EXPECT_EQ(text_of("OBX|1|ED|1||APP^text^plain^Base64^a25lZTogbm8gc3dlbGxpbmc="), "knee: no swelling");
  EXPECT_EQ(text_of("OBX|1|ED|1||^TEXT^^Hex^6B6E6565"), "knee");
  EXPECT_EQ(text_of(R"(OBX|1|ED|1||^TEXT^^A^a\T\b^c)"), "a&b^c");
  EXPECT_EQ(text_of("OBX|1|ED|1||^text^HTML^Base64^PHA+a25lZTwvcD4="), "knee\n");
  // A picture beside the text is passed over, alone it is a fault.
  EXPECT_EQ(text_of("OBX|1|ED|1||^application^pdf^Base64^JVBERg==\rOBX|2|TX|1||knee"), "knee");
  EXPECT_EQ(fault_of(mdm("OBX|1|ED|1||^application^pdf^Base64^JVBERg==\r")).reason,
            "its encapsulated data is neither text/plain nor text/html");
  EXPECT_EQ(fault_of(mdm("OBX|1|ED|1||^text^rtf^Base64^e1xydGYx\r")).reason,
            "its attachment is RTF, which is not read; text/plain and text/html are");
  EXPECT_EQ(fault_of(mdm("OBX|1|ED|1||^text^plain^Base64^a*\r")).reason, "its encapsulated data is not base64");
  EXPECT_EQ(fault_of(mdm("OBX|1|ED|1||^text^plain^Hex^6\r")).reason, "its encapsulated data is not hexadecimal");
  EXPECT_EQ(fault_of(mdm("OBX|1|ED|1||^text^plain^zip^6\r")).reason,
            "the encoding of its encapsulated data (ED-4) is none of A, Hex and Base64");
}

TEST(Hl7, CharacterSets) {
  // MSH-18, table 0211: "120°" in ISO 8859-1.
  const Taken taken = take_as("hl7", mdm("OBX|1|TX|1||120\xB0\\XB0\\\r", "8859/1"));
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].text, "120\xC2\xB0\xC2\xB0");
  EXPECT_EQ(take_as("hl7", mdm("OBX|1|TX|1||120\xC2\xB0\r", "UNICODE UTF-8")).notes.at(0).text, "120\xC2\xB0");
  EXPECT_NE(fault_of(mdm("OBX|1|TX|1||120\xB0\r")).reason.find("MSH-18 names no character set"), std::string::npos);
  EXPECT_EQ(fault_of(mdm("OBX|1|TX|1||x\r", "UNICODE UTF-16")).reason,
            "its character set (MSH-18) is not one that is read");
  EXPECT_EQ(fault_of(mdm("OBX|1|TX|1||x\\C2842\\\r")).reason,
            "its text switches to another character set, which is not read");
}

TEST(Hl7, BatchFilesFramingAndLineEnds) {
  const std::string one = mdm("OBX|1|TX|1||one\r");
  const std::string two = mdm("OBX|1|TX|1||two\r");
  std::string lf = one + two;
  for (char& c : lf) c = c == '\r' ? '\n' : c;
  std::string crlf;
  for (const char c : one + two) crlf += c == '\r' ? "\r\n" : std::string(1, c);
  const std::string inputs[] = {
      one + two,
      "FHS|^~\\&|A\rBHS|^~\\&|A\r" + one + two + "BTS|2\rFTS|1\r",
      "\v" + one + "\x1c\r\v" + two + "\x1c\r",
      "\v" + one + "\x1c\v" + two.substr(0, two.size() - 1) + "\x1c\r",
      lf,
      crlf,
      "\n\n" + one + "\r\n" + two,
  };
  for (const std::string& input : inputs) {
    const Taken taken = take_as("hl7", input);
    EXPECT_TRUE(taken.faults.empty()) << input << taken.faults[0].reason;
    ASSERT_EQ(taken.notes.size(), 2U) << input;
    EXPECT_EQ(taken.notes[0].text, "one") << input;
    EXPECT_EQ(taken.notes[1].text, "two") << input;
  }
}

TEST(Hl7, RawLineBreaksInTextAreKept) {
  EXPECT_EQ(text_of("OBX|1|TX|1||Right knee:\n- no swelling\n\n- full\r"), "Right knee:\n- no swelling\n\n- full");
}

TEST(Hl7, RefusesWhatIsBrokenAndGoesOn) {
  EXPECT_EQ(fault_of("MSH|\rOBX|1|TX|1||x\r").reason, "not HL7: MSH-2 does not hold the encoding characters");
  EXPECT_EQ(fault_of("MSH|^^\\&|A\r").reason, "not HL7: MSH-2 has an encoding character twice");
  EXPECT_EQ(fault_of(mdm("")).reason, "the note has no text");
  EXPECT_EQ(fault_of(mdm("OBX|1|TX|1||\"\"\r")).reason, "the note has no text");
  EXPECT_EQ(fault_of(mdm(std::string("OBX|1|TX|1||kn\0ee\r", 18))).reason, "a NUL byte at byte 2 of the text");
  EXPECT_EQ(fault_of(mdm("")).record, "in:6 (id DOC1)");
  const Taken taken = take_as("hl7", "Secret knee\n" + mdm("OBX|1|TX|1||knee\r"));
  EXPECT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.faults.at(0).reason, "not HL7: it does not start with MSH and a field separator");
  std::string reports = header("ORU^R01");
  for (int i = 0; i < 1001; ++i) reports += "OBR|1\r";
  EXPECT_EQ(fault_of(reports).reason, "it has more than 1000 reports (OBR)");
}

TEST(Hl7, AMessageThatIsTooLongIsPassedOver) {
  auto splitter = split_into_messages(stream_of("MSH|a\rOBX|1\rMSH|b\rOBX|0123456789\rMSH|c\r"), 14);
  Record record;
  record.input = "in";
  EXPECT_TRUE(std::holds_alternative<RecordReady>(splitter->next(record)));
  EXPECT_EQ(record.bytes, "MSH|a\rOBX|1\r");
  const Split second = splitter->next(record);
  ASSERT_TRUE(std::holds_alternative<RecordFault>(second));
  EXPECT_EQ(std::get<RecordFault>(second).place, (Place{3, 12}));
  EXPECT_EQ(std::get<RecordFault>(second).reason, "the message is longer than 14 bytes, the most that is read");
  EXPECT_TRUE(std::holds_alternative<RecordReady>(splitter->next(record)));
  EXPECT_EQ(record.bytes, "MSH|c\r");
  EXPECT_TRUE(std::holds_alternative<EndOfInput>(splitter->next(record)));
}

TEST(Hl7, TimeStamps) {
  EXPECT_EQ(iso_date("2031"), "2031");
  EXPECT_EQ(iso_date("203103"), "2031-03");
  EXPECT_EQ(iso_date("20310304"), "2031-03-04");
  EXPECT_EQ(iso_date("203103041015"), "2031-03-04T10:15");
  EXPECT_EQ(iso_date("20310304101530.25-0500"), "2031-03-04T10:15:30.25-05:00");
  for (const char* other : {"", "x", "2031030", "4 March 2031", "20310304+01", "2031.5"})
    EXPECT_EQ(iso_date(other), other);
}

}  // namespace
}  // namespace jointledger
