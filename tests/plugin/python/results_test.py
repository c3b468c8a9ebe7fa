"""Ledgers and audits equal those of the command line, line for line and member for member."""

import dataclasses
import itertools
import json
import pickle

import jointledger
import pytest
from notes import UMLAUTS, audited_by_program, demo_notes, read_by_program

PROFILES = ["screening", "complaint"]


def as_json(value):
    """A value of the module as the JSON has it: no member that is empty, but for those that are always there."""
    if isinstance(value, tuple):
        return [as_json(item) for item in value]
    if not dataclasses.is_dataclass(value):
        return value
    always = {"evidence", "nearest", "first", "second", "components", "credit"}
    names = {"from_": "from", "grades": "grade"}
    members = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
    return {
        names.get(name, name): as_json(member)
        for name, member in members.items()
        if name in always or (member != () and member is not None and not (name == "lacking" and member is False))
    }


def test_a_ledger_is_the_line_of_the_program():
    notes = demo_notes()
    for (id, text), line in zip(notes, read_by_program(notes), strict=True):
        assert jointledger.read(text, id=id).json == line
        assert jointledger.read(text.encode(), id=id).json == line


@pytest.mark.parametrize("profile", PROFILES)
def test_an_audit_is_the_line_of_the_program(profile):
    notes = demo_notes()
    for (id, text), line in zip(notes, audited_by_program(notes, profile), strict=True):
        assert jointledger.audit(text, profile=profile, id=id).json == line


def test_without_more_words_it_is_a_screening_of_the_standard_input():
    audit = jointledger.audit(UMLAUTS)
    assert audit.profile == "screening"
    assert audit.id == "-"
    assert audit.json == audited_by_program([("-", UMLAUTS)], "screening")[0]


def test_the_least_certainty_is_that_of_the_program():
    notes = demo_notes()
    lines = audited_by_program(notes, "complaint", "--certainty", "0.95")
    audits = list(jointledger.audit_all(notes, "complaint", least_certainty=0.95))
    assert [audit.json for audit in audits] == lines
    assert any(audit.doubtful for audit in audits)


@pytest.mark.parametrize("threads", [None, 1, 2, 7])
@pytest.mark.parametrize("kind", [list, iter], ids=["list", "iterator"])
def test_many_notes_come_in_their_order(threads, kind):
    demo = demo_notes()
    many = [(f"{turn}/{id}", text) for turn in range(80) for id, text in demo]  # more than are taken at a time
    ledgers = jointledger.read_all(kind(many), threads=threads)
    assert [ledger.json for ledger in ledgers] == read_by_program(many)
    audits = jointledger.audit_all(kind(many), "complaint", threads=threads)
    assert [audit.json for audit in audits] == audited_by_program(many, "complaint")


def test_texts_alone_are_numbered():
    ledgers = list(jointledger.read_all(text for _, text in demo_notes()))
    assert [ledger.id for ledger in ledgers] == [str(n) for n in range(len(ledgers))]


def test_an_endless_iterator_is_taken_as_it_is_needed():
    endless = itertools.cycle(text for _, text in demo_notes())
    first = next(jointledger.read_all(endless))
    assert first.json == jointledger.read(demo_notes()[0][1], id="0").json


def test_the_members_are_those_of_the_json():
    for id, text in demo_notes():
        ledger = jointledger.read(text, id=id)
        assert {"id": id, "entries": as_json(ledger.entries), "complaints": as_json(ledger.complaints)} == json.loads(
            ledger.json
        )
        for profile in PROFILES:
            audit = jointledger.audit(text, profile, id=id)
            names = ("id", "profile", "score", "applicable", "met", "gaps", "credits", "inconsistencies", "notice")
            assert {name: as_json(getattr(audit, name)) for name in names} == audit.to_dict()
            assert audit.lacks_required == any(gap["kind"] == "required" for gap in audit.to_dict()["gaps"])


def test_spans_give_the_words_of_the_text():
    entries = jointledger.read(UMLAUTS).entries
    strength = next(entry for entry in entries if entry.component == "strength")
    assert {grade.evidence.words(UMLAUTS) for grade in strength.grades} == {"4+/5"}
    assert "strength" in [span.words(UMLAUTS.encode()) for span in strength.evidence]


def test_results_can_be_pickled_and_compared():
    ledger = jointledger.read(UMLAUTS)
    assert pickle.loads(pickle.dumps(ledger)) == ledger
    assert hash(pickle.loads(pickle.dumps(ledger))) == hash(ledger)
    assert ledger != jointledger.audit(UMLAUTS)
    assert repr(ledger) == f"<Ledger of note '-': {len(ledger.entries)} entries, 0 complaints>"


def test_profiles_say_what_they_ask():
    profiles = {profile.name: profile for profile in jointledger.profiles()}
    assert set(PROFILES) <= set(profiles)
    asked = {expectation.id: expectation for expectation in profiles["screening"].expectations}
    gap = jointledger.audit(UMLAUTS).gaps[0]
    assert asked[gap.expectation].kind == gap.kind
    assert asked[gap.expectation].source
