// FHIR R4 (HL7, 4.0.1): what becomes a note of DocumentReference, DiagnosticReport and Composition.
#include <gtest/gtest.h>

#include <string>

#include "taken.h"

namespace jointledger {
namespace {

using testing::take_as;
using testing::Taken;

// "knee: no swelling" in base64 (RFC 4648), by coreutils' base64.
constexpr std::string_view kKnee = "a25lZTogbm8gc3dlbGxpbmc=";

std::string document(const std::string& attachments, const std::string& more = "") {
  return R"({"resourceType":"DocumentReference","id":"d1","status":"current","content":[)" + attachments + "]" + more +
         "}\n";
}

std::string attachment(std::string_view type, std::string_view data) {
  return R"({"attachment":{"contentType":")" + std::string(type) + R"(","data":")" + std::string(data) + R"("}})";
}

RecordFault fault_of(const std::string& resource) {
  const Taken taken =
      take_as("fhir", document(attachment("text/plain", kKnee)) + resource + document(attachment("text/plain", kKnee)));
  EXPECT_EQ(taken.notes.size(), 2U) << resource;
  EXPECT_EQ(taken.faults.size(), 1U) << resource;
  return taken.faults.empty() ? RecordFault{} : taken.faults.front();
}

TEST(Fhir, ReadsADocumentReferenceAndCarriesTheRestThrough) {
  const Taken taken = take_as(
      "fhir", document(attachment("text/plain", kKnee),
                       R"(,"date":"2031-03-04T10:15:00Z","author":[{"reference":"Practitioner/FW-1"}],)"
                       R"("subject":{"reference" : "Patient/P1"},"docStatus":"final","text":{"div":"<div>x</div>"})"));
  ASSERT_TRUE(taken.faults.empty()) << taken.faults[0].reason;
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "d1");
  EXPECT_EQ(taken.notes[0].text, "knee: no swelling");
  using Members = std::vector<std::pair<std::string, std::string>>;
  EXPECT_EQ(taken.notes[0].metadata, (Members{{"resourceType", R"("DocumentReference")"},
                                              {"status", R"("current")"},
                                              {"date", R"("2031-03-04T10:15:00Z")"},
                                              {"author", R"([{"reference":"Practitioner/FW-1"}])"},
                                              {"subject", R"({"reference":"Patient/P1"})"},
                                              {"docStatus", R"("final")"},
                                              {"patient", R"("Patient/P1")"}}));
}

TEST(Fhir, DecodesTheCharacterSetThatTheAttachmentNames) {
  // "120°" in ISO 8859-1 and in UTF-16 with a byte order mark.
  EXPECT_EQ(take_as("fhir", document(attachment("text/plain; charset=ISO-8859-1", "MTIwsA=="))).notes.at(0).text,
            "120\xC2\xB0");
  EXPECT_EQ(
      take_as("fhir", document(attachment("text/plain;charset=\\\"utf-16\\\"", "//4xADIAMACwAA=="))).notes.at(0).text,
      "120\xC2\xB0");
  EXPECT_EQ(fault_of(document(attachment("text/plain", "MTIwsA=="))).reason, "not UTF-8 from byte 3 of the text");
  EXPECT_EQ(fault_of(document(attachment("text/plain; charset=x-none", kKnee))).reason,
            "its character set, x-none, is not known");
  EXPECT_EQ(fault_of(document(attachment("text/plain; charset=utf-8//TRANSLIT", kKnee))).reason,
            "its character set has no proper name");
}

TEST(Fhir, PrefersPlainTextToHtmlAndTakesTheTextOutOfHtml) {
  // <p>Knee:</p><ul><li>no&nbsp;swelling</li><li>full &lt;120</li></ul><script>x</script>
  const std::string html = attachment("text/html",
                                      "PHA+S25lZTo8L3A+PHVsPjxsaT5ubyZuYnNwO3N3ZWxsaW5nPC9saT48bGk+"
                                      "ZnVsbCAmbHQ7MTIwPC9saT48L3VsPjxzY3JpcHQ+eDwvc2NyaXB0Pg==");
  EXPECT_EQ(take_as("fhir", document(html)).notes.at(0).text, "Knee:\nno\xC2\xA0swelling\nfull <120\n");
  EXPECT_EQ(take_as("fhir", document(html + "," + attachment("text/plain", kKnee))).notes.at(0).text,
            "knee: no swelling");
}

TEST(Fhir, RefusesWhatIsNotText) {
  EXPECT_EQ(fault_of(document(attachment("application/rtf", "e1xydGYx"))).reason,
            "its attachment is RTF, which is not read; text/plain and text/html are");
  EXPECT_EQ(fault_of(document(attachment("text/plain", "e1xydGYx"))).reason,
            "its attachment is RTF, which is not read; text/plain and text/html are");
  EXPECT_EQ(fault_of(document(attachment("application/pdf", "JVBERg=="))).reason,
            "its attachment is neither text/plain nor text/html");
  EXPECT_EQ(fault_of(document(attachment("text/plain", "a25lZ*"))).reason, "its attachment is not base64");
  EXPECT_EQ(fault_of(document(attachment("text/plain", "a25lZT"))).reason, "its attachment is not base64");
  EXPECT_EQ(fault_of(document(R"({"attachment":{"contentType":"text/plain","url":"Binary/1"}})")).reason,
            "its attachment has no data, or only a link to it, which is not followed");
  EXPECT_EQ(fault_of(document("")).reason, "it has no attachment");
  EXPECT_EQ(fault_of(document(attachment("text/plain", "a25lZQBoaXA="))).reason, "a NUL byte at byte 4 of the text");
  EXPECT_EQ(fault_of(document("")).record, "in:2 (DocumentReference d1)");
}

TEST(Fhir, ReadsPresentedFormsAndPassesOverReportsWithout) {
  const Taken taken = take_as(
      "fhir", R"({"resourceType":"DiagnosticReport","id":"r1","subject":{"identifier":{"value":"P9"}},)"
              R"("performer":[{"display":"FW-2"}],"effectiveDateTime":"2031-03-04","issued":"2031-03-05T00:00:00Z",)"
              R"("presentedForm":[{"contentType":"text/plain","data":")" +
                  std::string(kKnee) +
                  R"("}]})"
                  "\n"
                  R"({"resourceType":"DiagnosticReport","id":"r2"})"
                  "\n"
                  R"({"resourceType":"Patient","id":"p"})"
                  "\n");
  EXPECT_TRUE(taken.faults.empty());
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].id, "r1");
  EXPECT_EQ(taken.notes[0]["patient"], R"("P9")");
  EXPECT_EQ(taken.notes[0]["author"], R"("FW-2")");
  EXPECT_EQ(taken.notes[0]["date"], R"("2031-03-04")");
}

TEST(Fhir, ReadsTheSectionsOfACompositionUnderTheirTitles) {
  const Taken taken = take_as(
      "fhir",
      R"({"resourceType":"Composition","id":"c","title":"Visit","section":[{"title":"Physical Exam","text":{"status":)"
      R"("generated","div":"<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>Right knee:<br/>no swelling</p></div>"},)"
      R"("section":[{"title":"Gait:","text":{"status":"generated","div":"<div>normal</div>"}}]},{"title":"Plan"}]})");
  ASSERT_EQ(taken.notes.size(), 1U);
  EXPECT_EQ(taken.notes[0].text, "Physical Exam:\nRight knee:\nno swelling\nGait:\nnormal\n\nPlan:\n\n");
  EXPECT_EQ(taken.notes[0]["title"], R"("Visit")");
}

TEST(Fhir, ReadsBundlesInOneLineAndIndented) {
  std::string doc = document(attachment("text/plain", kKnee));
  doc.pop_back();
  const std::string no_id =
      R"({"resourceType":"DocumentReference","content":[)" + attachment("text/plain", kKnee) + "]}";
  const std::string bundle = R"({"resourceType":"Bundle","type":"collection","entry":[{"resource":)" + doc +
                             R"(},{"resource":{"resourceType":"Patient"}},{"fullUrl":"urn:uuid:1","resource":)" +
                             no_id + R"(},{"resource":)" + no_id + "}]}";
  for (const bool indented : {false, true}) {
    std::string json = bundle;
    if (indented) {
      for (std::size_t at = 0; (at = json.find(",{\"", at)) != std::string::npos; at += 3) json.insert(at + 1, "\n");
      json.insert(1, "\n");
    }
    const Taken taken = take_as("fhir", json);
    ASSERT_EQ(taken.notes.size(), 2U) << json;
    EXPECT_EQ(taken.notes[0].id, "d1");
    EXPECT_EQ(taken.notes[1].id, "urn:uuid:1");
    EXPECT_EQ(taken.notes[1].text, "knee: no swelling");
    ASSERT_EQ(taken.faults.size(), 1U);
    EXPECT_EQ(taken.faults[0].reason, "it has no id");
    EXPECT_EQ(taken.faults[0].place.line, indented ? 5U : 1U);
    EXPECT_EQ(json.substr(taken.faults[0].place.offset, 20), no_id.substr(0, 20));
  }
}

TEST(Fhir, RefusesBrokenJsonAndGoesOn) {
  EXPECT_EQ(fault_of("{\"resourceType\":\"DocumentReference\",\n").reason.substr(0, 8), "not JSON");
  EXPECT_EQ(fault_of("{\"id\":\"x\"}\n").reason, "not a FHIR resource: it has no resourceType");
  EXPECT_EQ(fault_of("[]\n").reason, "not a JSON object");
  EXPECT_EQ(fault_of("{\"resourceType\":\"\xFF\"}\n").reason, "not UTF-8");
  EXPECT_EQ(fault_of(document(attachment("text/plain", kKnee), ",\"a\":1,\"\\u0061\":2")).reason, "it has a key twice");
  EXPECT_EQ(
      fault_of(document(attachment("text/plain", kKnee), ",\"a\":" + std::string(200, '[') + std::string(200, ']')))
          .reason,
      "not JSON: it is nested too deeply");
}

TEST(Fhir, MarkupWithoutEndIsRefusedInGoodTime) {
  std::string html;
  for (int i = 0; i < 200'000; ++i) html += "<b>";
  const std::string json = R"({"resourceType":"Composition","id":"c","section":[{"text":{"div":")" + html + R"("}}]})";
  EXPECT_EQ(fault_of(json + "\n").reason, "its markup is nested too deeply");
}

}  // namespace
}  // namespace jointledger
