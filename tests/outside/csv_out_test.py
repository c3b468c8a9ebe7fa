"""CSV holds what NDJSON holds. Read back by the csv module of Python's standard library; RFC 4180 for the form."""

import csv
import io
import json
import re

import pytest

from outputs import audit, notes, objects, read

LISTS = {"motions", "degrees", "grade", "structures", "tests", "evidence", "components", "nearest"}
NUMBERS = {"certainty", "credit", "score"}
OWN_KEYS = {"id", "text"}


def rows(output):
    text = output.decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def plain_id(cell):
    """Takes back the apostrophe that src/report/csv_report.h tells of."""
    return cell[1:] if re.match(r"'+[=+\-@\t\r\n].|'+[=+\-@\t\r\n]\Z", cell, re.S) and len(cell) > 2 else cell


def value(column, cell):
    if cell == "":
        return None
    return json.loads(cell) if column in LISTS | NUMBERS else cell


def same(row, member, columns):
    for column in columns:
        expected = member.get(column)
        assert value(column, row[column]) == (expected if expected != [] else None), column


def words(text, spans):
    return [text.encode()[s["start"]:s["end"]].decode() for s in spans]


def metadata(note):
    return {k: v for k, v in note.items() if k not in OWN_KEYS}


def test_a_row_an_entry():
    given = notes()
    by_id = {note["id"]: note for note in given}
    expected = [(ledger["id"], entry) for ledger in objects(read("--to", "ndjson", of=given))
                for entry in ledger["entries"]]
    table = rows(read("--to", "csv", of=given))
    assert len(table) == len(expected) > 100
    for row, (note_id, entry) in zip(table, expected):
        note = by_id[note_id]
        assert plain_id(row["id"]) == note_id
        same(row, entry, ["region", "component", "side", "outcome", "motions", "degrees", "grade", "structures", "tests",
                          "certainty", "evidence"])
        assert json.loads(row["words"]) == words(note["text"], entry["evidence"])
        assert json.loads(row["metadata"]) == metadata(note)


@pytest.mark.parametrize("profile", ["complaint", "screening"])
def test_a_row_a_gap(profile):
    given = notes()
    by_id = {note["id"]: note for note in given}
    expected = [(result, gap) for result in objects(audit("--to", "ndjson", of=given, profile=profile))
                for gap in result["gaps"]]
    table = rows(audit("--to", "csv", of=given, profile=profile))
    assert len(table) == len(expected) > 50
    for row, (result, gap) in zip(table, expected):
        note = by_id[result["id"]]
        assert plain_id(row["id"]) == result["id"]
        assert row["profile"] == profile
        assert json.loads(row["score"]) == result["score"]
        same(row, gap, ["expectation", "kind", "region", "side", "components", "motions", "structures", "reason",
                        "nearest", "credit", "prompt"])
        assert json.loads(row["words"] or "[]") == words(note["text"], gap["nearest"])
        assert json.loads(row["metadata"]) == metadata(note)


@pytest.mark.parametrize("make", [lambda given: read("--to", "csv", of=given),
                                  lambda given: audit("--to", "csv", of=given)])
def test_form(make):
    """RFC 4180: a header, CR LF behind every record, as many fields in each."""
    output = make(notes())
    assert output.endswith(b"\r\n") and not output.startswith(b"\xef\xbb\xbf")
    table = list(csv.reader(io.StringIO(output.decode(), newline=""), strict=True))
    assert {len(row) for row in table} == {len(table[0])}
    outside_quotes = re.sub(rb'"(?:[^"]|"")*"', b"", output)
    assert outside_quotes.count(b"\n") == outside_quotes.count(b"\r\n") == outside_quotes.count(b"\r") == len(table)
    # The columns do not depend on the notes.
    assert make([notes()[0]]).split(b"\r\n")[0] == output.split(b"\r\n")[0]


@pytest.mark.parametrize("make", [lambda given: read("--to", "csv", of=given),
                                  lambda given: audit("--to", "csv", of=given)])
def test_no_cell_is_a_formula(make):
    """What begins a formula: OWASP, CSV Injection (from memory of the page)."""
    table = list(csv.reader(io.StringIO(make(notes()).decode(), newline="")))
    ids = {row[0] for row in table}
    assert "'=1+1" in ids and "''@x" in ids
    for row in table:
        for cell in row:
            assert not re.match(r"[=+\-@\t\r\n]", cell) or re.fullmatch(r"-?[0-9.]+", cell), cell
