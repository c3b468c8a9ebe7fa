"""FHIR R4 (4.0.1) that the models of fhirclient make, and CDA and HTML whose text lxml takes out, come back whole."""

import base64
import html
import json

from fhirclient.models.attachment import Attachment
from fhirclient.models.bundle import Bundle
from fhirclient.models.composition import Composition, CompositionSection
from fhirclient.models.diagnosticreport import DiagnosticReport
from fhirclient.models.documentreference import DocumentReference, DocumentReferenceContent
from fhirclient.models.codeableconcept import CodeableConcept
from fhirclient.models.fhirdatetime import FHIRDateTime
from fhirclient.models.fhirinstant import FHIRInstant
from fhirclient.models.fhirreference import FHIRReference
from fhirclient.models.narrative import Narrative
from lxml import etree
from lxml import html as lxml_html

from inputs import holds_the_notes, ledger, ndjson, notes, read

XHTML = "http://www.w3.org/1999/xhtml"
CDA = "urn:hl7-org:v3"


def reference(to):
    made = FHIRReference()
    made.reference = to
    return made


def concept(text):
    made = CodeableConcept()
    made.text = text
    return made


def attachment(text, kind="text/plain; charset=utf-8", codec="utf-8"):
    made = Attachment()
    made.contentType = kind
    made.data = base64.b64encode(text.encode(codec)).decode()
    return made


def document(note, *attachments):
    made = DocumentReference()
    made.id = note["id"]
    made.status = "current"
    made.date = FHIRInstant(note["date"] + "T10:15:00Z")
    made.author = [reference("Practitioner/" + note["author"])]
    made.subject = reference("Patient/" + note["patient"])
    made.content = []
    for one in attachments or [attachment(note["text"])]:
        content = DocumentReferenceContent()
        content.attachment = one
        made.content.append(content)
    return made.as_json()


def report(note):
    made = DiagnosticReport()
    made.id = note["id"]
    made.status = "final"
    made.code = concept("visit")
    made.effectiveDateTime = FHIRDateTime(note["date"])
    made.performer = [reference("Practitioner/" + note["author"])]
    made.subject = reference("Patient/" + note["patient"])
    made.presentedForm = [attachment(note["text"])]
    return made.as_json()


def bundle(resources):
    made = Bundle()
    made.type = "collection"
    json_of = made.as_json()
    json_of["entry"] = [{"fullUrl": f"urn:uuid:{i}", "resource": resource} for i, resource in enumerate(resources)]
    assert len(Bundle(json_of).entry) == len(resources)
    return json_of


def test_documents_and_reports_come_back_whole():
    for make in (document, report):
        resources = [make(note) for note in notes()]
        holds_the_notes(read(ndjson(resources), "--from", "fhir"))
        holds_the_notes(read(ndjson(resources)))
        holds_the_notes(read(json.dumps(bundle(resources)).encode()))
        holds_the_notes(read(json.dumps(bundle(resources), indent=2).encode()))


def test_other_members_are_carried_through_as_they_are():
    resource = document(notes()[0])
    answer = read(ndjson([resource]))[0]
    for key, value in resource.items():
        if key not in ("id", "content"):
            assert answer[key] == value


def test_character_sets_of_attachments():
    note = notes()[-1]
    for kind, codec in (("utf-16", "utf-16"), ("UTF-16BE", "utf-16-be"), ("gb18030", "gb18030"), ('"utf-8"', "utf-8")):
        made = attachment(note["text"], f"text/plain; charset={kind}", codec)
        assert ledger(read(ndjson([document(note, made)]))[0]) == ledger(read(ndjson([note]))[0])


def paragraphs(note):
    return [" ".join(line.split()) for line in note["text"].split("\n") if line.strip()]


def words_of(element):
    """The lines that an HTML or XML parser finds in the paragraphs of an element."""
    lines = [" ".join("".join(p.itertext()).split()) for p in element.iter() if str(p.tag).split("}")[-1] in
             ("p", "paragraph")]
    return "".join(line + "\n" for line in lines)


def same_as_text(answers, texts):
    assert [ledger(answer) for answer in answers] == [
        ledger(answer) for answer in read(ndjson([{"id": "x", "text": text} for text in texts]))
    ]


def test_html_is_the_text_that_lxml_finds():
    pages = ["<!DOCTYPE html><html><head><title>no</title><style>p {}</style></head><body>" +
             "".join(f"<p>{html.escape(line).replace(' ', '&#32;', 1)}" for line in paragraphs(note)) + "</body></html>"
             for note in notes()]
    resources = [document(n, attachment(page, "text/html; charset=utf-8")) for n, page in zip(notes(), pages)]
    answers = read(ndjson(resources))
    same_as_text(answers, [words_of(lxml_html.fromstring(page).find("body")) for page in pages])


def test_html_on_many_threads_from_the_start():
    """libxml2 has to be started by one thread: where two begin at once, both may wait for ever."""
    pages = [document(note, attachment(f"<p>{html.escape(note['text'])}</p>", "text/html; charset=utf-8"))
             for note in notes()]
    data = ndjson(pages)
    first = read(data, "--from", "fhir", "--threads", "1")
    for _ in range(200):
        assert read(data, "--from", "fhir", "--threads", "8") == first


def test_preformatted_html_keeps_its_lines():
    pages = ["<pre>" + html.escape(note["text"]) + "</pre>" for note in notes()]
    resources = [document(n, attachment(page, "text/html; charset=utf-8")) for n, page in zip(notes(), pages)]
    holds_the_notes(read(ndjson(resources)))


def composition(note):
    made = Composition()
    made.id = note["id"]
    made.status = "final"
    made.type = concept("visit")
    made.title = "Visit"
    made.date = FHIRDateTime(note["date"])
    made.author = [reference("Practitioner/" + note["author"])]
    made.subject = reference("Patient/" + note["patient"])
    section = CompositionSection()
    section.title = "Physical Exam"
    section.text = Narrative()
    section.text.status = "generated"
    lines = "".join(f"<p>{html.escape(line)}</p>" for line in paragraphs(note))
    section.text.div = f'<div xmlns="{XHTML}">{lines}</div>'
    made.section = [section]
    return made.as_json()


def test_compositions_are_the_text_that_lxml_finds():
    resources = [composition(note) for note in notes()]
    answers = read(ndjson(resources))
    assert [answer["id"] for answer in answers] == [note["id"] for note in notes()]
    divs = [etree.fromstring(resource["section"][0]["text"]["div"]) for resource in resources]
    same_as_text(answers, ["Physical Exam:\n" + words_of(div) + "\n" for div in divs])


def cda(note):
    root = etree.Element(f"{{{CDA}}}ClinicalDocument", nsmap={None: CDA})

    def add(parent, tag, text=None, **attributes):
        made = etree.SubElement(parent, f"{{{CDA}}}{tag}", **attributes)
        made.text = text
        return made

    add(root, "id", root="2.25.1", extension=note["id"])
    add(root, "title", "Visit")
    add(root, "effectiveTime", value=note["date"].replace("-", ""))
    add(add(add(root, "recordTarget"), "patientRole"), "id", root="2.25.2", extension=note["patient"])
    add(add(add(root, "author"), "assignedAuthor"), "id", root="2.25.3", extension=note["author"])
    body = add(add(root, "component"), "structuredBody")
    sections = (("10164-2", "History", ["Left knee pain."]), ("29545-1", "Physical Exam", paragraphs(note)))
    for code, title, lines in sections:
        section = add(add(body, "component"), "section")
        add(section, "code", code=code, codeSystem="2.16.840.1.113883.6.1")
        add(section, "title", title)
        text = add(section, "text")
        for line in lines:
            add(text, "paragraph", line)
    return root


def test_clinical_documents_are_the_text_that_lxml_finds():
    find_exam = etree.XPath("//c:section[c:code/@code='29545-1']", namespaces={"c": CDA})
    for note in notes():
        for codec in ("utf-8", "utf-16"):
            data = etree.tostring(cda(note), xml_declaration=True, encoding=codec)
            answer = read(data, "--from", "ccda" if codec == "utf-16" else "auto")[0]
            assert answer["id"] == "2.25.1^" + note["id"]
            assert [answer[key] for key in ("author", "patient", "date")] == [
                note[key] for key in ("author", "patient", "date")
            ]
            exam = find_exam(etree.fromstring(data))[0]
            same_as_text([answer], ["Physical Exam:\n" + words_of(exam) + "\n"])
