// C-CDA (HL7 CDA R2; sections by LOINC code, the physical exam's is 29545-1 in the C-CDA implementation guide 2.1).
#include <gtest/gtest.h>

#include <string>

#include "taken.h"

namespace jointledger {
namespace {

using testing::take_as;
using testing::Taken;

constexpr std::string_view kExam = R"(<code code="29545-1" codeSystem="2.16.840.1.113883.6.1"/>)";

std::string document(const std::string& sections) {
  return R"(<?xml version="1.0" encoding="UTF-8"?>
<ClinicalDocument xmlns="urn:hl7-org:v3" xmlns:sdtc="urn:hl7-org:sdtc">
<id root="1.2.3" extension="77"/><title>Visit</title><effectiveTime value="203103041015+0000"/>
<recordTarget><patientRole><id root="9" extension="P1"/><id root="9.1"/><patient><name><given>A</given><given>B</given>
</name></patient></patientRole></recordTarget>
<author><assignedAuthor><id root="8.1"/></assignedAuthor></author>
<component><structuredBody>)" +
         sections + "</structuredBody></component></ClinicalDocument>";
}

std::string section(std::string_view code, const std::string& rest) {
  return "<component><section>" + std::string(code) + rest + "</section></component>";
}

TEST(Ccda, ReadsTheExamSectionAndTheHeader) {
  const Taken taken = take_as(
      "ccda", document(section(R"(<code code="10154-3" codeSystem="2.16.840.1.113883.6.1"/>)", "<text>pain</text>") +
                       section(kExam,
                               "<title>Physical Exam</title><text>"
                               "<paragraph>Right <content styleCode=\"Bold\">knee</content>:</paragraph>"
                               "<list><item>no swelling &lt;ok&gt;</item><item>full<br/>range</item></list>"
                               "<table><thead><tr><th>Motion</th><th>R</th></tr></thead><tbody><tr>"
                               "<td>flexion</td><td>130&#176;</td></tr></tbody></table></text>" +
                                   section(R"(<code code="11410-4"/>)", "<title>Gait:</title><text>normal</text>"))));
  ASSERT_TRUE(taken.faults.empty()) << taken.faults[0].reason;
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "1.2.3^77");
  EXPECT_EQ(taken.notes[0].text,
            "Physical Exam:\nRight knee:\nno swelling <ok>\nfull\nrange\nMotion | R\nflexion | 130\xC2\xB0\n"
            "Gait:\nnormal\n\n");
  EXPECT_EQ(taken.notes[0]["title"], R"("Visit")");
  EXPECT_EQ(taken.notes[0]["recordTarget/patientRole/id/@extension"], R"("P1")");
  EXPECT_EQ(taken.notes[0]["recordTarget/patientRole/id[2]/@root"], R"("9.1")");
  EXPECT_EQ(taken.notes[0]["recordTarget/patientRole/patient/name/given[2]"], R"("B")");
  EXPECT_EQ(taken.notes[0]["effectiveTime/@value"], R"("203103041015+0000")");
  EXPECT_EQ(taken.notes[0]["patient"], R"("P1")");
  EXPECT_EQ(taken.notes[0]["author"], R"("8.1")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031-03-04T10:15+00:00")");
}

TEST(Ccda, TheSectionsAreChosenByTheirLoincCodes) {
  const std::string other = document(section(R"(<code code="29545-1" codeSystem="1.2"/>)", "<text>x</text>") +
                                     section(R"(<code code="10154-3"/>)", "<text>left knee pain</text>"));
  const Taken none = take_as("ccda", other);
  EXPECT_EQ(none.faults.at(0).reason, "it has no section with the LOINC code 29545-1");
  EXPECT_EQ(none.faults.at(0).record, "in (id 1.2.3^77)");
  IntakeOptions options;
  options.sections = {"10154-3", "29545-1"};
  EXPECT_EQ(take_as("ccda", other, "in", options).notes.at(0).text, "left knee pain\n\n");
}

TEST(Ccda, FindsTheSectionWithinOthers) {
  EXPECT_EQ(
      take_as("ccda", document(section(R"(<code code="1"/>)", section(kExam, "<text>knee</text>")))).notes.at(0).text,
      "knee\n\n");
}

TEST(Ccda, ReadsTheEncodingThatTheDocumentNames) {
  std::string latin = document(section(kExam, "<text>120\xB0</text>"));
  latin.replace(latin.find("UTF-8"), 5, "ISO-8859-1");
  EXPECT_EQ(take_as("ccda", latin).notes.at(0).text, "120\xC2\xB0\n\n");
}

TEST(Ccda, RefusesDocumentTypesAndTheirEntities) {
  // A small "billion laughs" (CAPEC-197), and a file that is asked for (CAPEC-221).
  const std::string types[] = {R"(<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]>)",
                               R"(<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/hostname">]>)",
                               R"(<!DOCTYPE x SYSTEM "http://127.0.0.1/x.dtd">)", "<!DOCTYPE x>"};
  for (const std::string& type : types) {
    std::string xml = document(section(kExam, "<text>&b;&f;</text>"));
    xml.insert(xml.find("\n") + 1, type);
    const Taken taken = take_as("ccda", xml);
    EXPECT_TRUE(taken.notes.empty()) << type;
    EXPECT_EQ(taken.faults.at(0).reason, "it has a document type (DTD), which is refused") << type;
  }
}

TEST(Ccda, RefusesWhatIsBroken) {
  const std::string good = document(section(kExam, "<text>secret knee</text>"));
  const auto reason = [](const std::string& xml) {
    const Taken taken = take_as("ccda", xml);
    EXPECT_TRUE(taken.notes.empty());
    EXPECT_EQ(taken.faults.at(0).reason.find("secret"), std::string::npos);
    return taken.faults.at(0).reason;
  };
  EXPECT_EQ(reason("").substr(0, 7), "not XML");
  EXPECT_EQ(reason("secret knee").substr(0, 7), "not XML");
  for (std::size_t size = 1; size < good.size(); size += 37)
    EXPECT_EQ(reason(good.substr(0, size)).substr(0, 7), "not XML");
  EXPECT_EQ(reason("<html/>"), "not C-CDA: its root element is no ClinicalDocument of HL7 v3");
  EXPECT_EQ(reason("<ClinicalDocument/>"), "not C-CDA: its root element is no ClinicalDocument of HL7 v3");
  EXPECT_EQ(reason(R"(<ClinicalDocument xmlns="urn:hl7-org:v3"/>)"), "it has no id");
  EXPECT_EQ(reason(R"(<ClinicalDocument xmlns="urn:hl7-org:v3"><id root="1"/><component><nonXMLBody/></component>)"
                   "</ClinicalDocument>"),
            "its body is not XML (nonXMLBody)");
  EXPECT_EQ(reason(document(section(kExam, "<text> </text>"))), "the note has no text");
  EXPECT_EQ(reason(document(section(kExam, std::string("<text>secret\0knee</text>", 24)))).substr(0, 7), "not XML");
  EXPECT_EQ(reason(document(section(kExam, "<text>secret \xFF</text>"))).substr(0, 7), "not XML");
  EXPECT_EQ(reason(document(section(kExam, "<text>&secret;</text>"))),
            "not XML: it names an entity that is not one of XML's own");
  std::string deep;
  for (int i = 0; i < 100'000; ++i) deep += "<a>";
  EXPECT_EQ(reason(document(deep)), "not XML: it is nested too deeply, or a text in it is too long");
}

TEST(Ccda, AFaultNamesTheLine) {
  const Taken taken = take_as("ccda", "<ClinicalDocument xmlns=\"urn:hl7-org:v3\">\n\n<a></b>\n</ClinicalDocument>");
  EXPECT_EQ(taken.faults.at(0).reason.substr(0, 8), "not XML:");
  EXPECT_GE(taken.faults.at(0).place.line, 3U);
}

}  // namespace
}  // namespace jointledger
