"""SQL says what the command line says, entry for entry and gap for gap."""

import json

import pytest
from conftest import notes


def in_bytes(note, span):
    """A range of characters, as JSON has it: "[3,8)"."""
    start, end = map(int, span.strip("[)").split(","))
    return {"start": len(note[:start].encode()), "end": len(note[:end].encode())}


def filled(row, *optional):
    """Without the lists of which JSON leaves out the empty ones."""
    return {key: value for key, value in row.items() if value != [] or key not in optional}


def degrees(note, row):
    said = {"motion": row["motion"], "side": row["side"], "from": row["from_degrees"], "to": row["to_degrees"],
            "lacking": row["lacking"] or None, "evidence": in_bytes(note, row["evidence"])}
    return {key: value for key, value in said.items() if value is not None}


def entry(note, row):
    row["evidence"] = [in_bytes(note, span) for span in row["evidence"]]
    row["degrees"] = [degrees(note, d) for d in row["degrees"]]
    row["grade"] = [{**g, "evidence": in_bytes(note, g["evidence"])} for g in row.pop("grades")]
    return filled(row, "motions", "degrees", "grade", "structures", "tests")


def complaint(note, row):
    return {**row, "evidence": in_bytes(note, row["evidence"])}


def gap(note, row):
    row["nearest"] = [in_bytes(note, span) for span in row["nearest"]]
    return filled(row, "motions", "structures")


def rows(sql, function, *arguments):
    places = ", ".join(["%s"] * len(arguments))
    return [row for row, in sql.execute(f"SELECT to_jsonb(f) FROM {function}({places}) f", arguments)]


def test_entries_and_complaints(server, sql):
    count = 0
    for note, said in zip(notes(), server.ndjson("read", of=notes()), strict=True):
        text = note["text"]
        assert [entry(text, row) for row in rows(sql, "exam_entries", text)] == said["entries"], note["id"]
        assert [complaint(text, row) for row in rows(sql, "exam_complaints", text)] == said["complaints"], note["id"]
        count += len(said["entries"])
    assert count > 400


@pytest.mark.parametrize("profile", ["screening", "complaint"])
def test_gaps(server, sql, profile):
    count = 0
    for note, said in zip(notes(), server.ndjson("audit", "--profile", profile, of=notes()), strict=True):
        text = note["text"]
        assert [gap(text, row) for row in rows(sql, "exam_gaps", text, profile)] == said["gaps"], note["id"]
        count += len(said["gaps"])
    assert count > 50


def test_ranges_point_at_the_words_in_characters(sql):
    note = "EXAM\n膝 – Left knee: größer, no swelling."
    words = sql.execute("SELECT substr(%(n)s, lower(r) + 1, upper(r) - lower(r)) FROM exam_entries(%(n)s), "
                        "unnest(evidence) r", {"n": note}).fetchall()
    assert {"Left knee", "no", "swelling"} <= {word for word, in words}


def test_try_functions_give_the_same_and_no_fault(sql):
    for note in notes():
        for function, *more in [("exam_entries",), ("exam_complaints",), ("exam_gaps", "screening"), ("exam_terms",)]:
            tried = rows(sql, "try_" + function, note["text"], *more)
            assert all(row.pop("sqlstate") is None and row.pop("fault") is None for row in tried)
            assert tried == rows(sql, function, note["text"], *more)


def test_other_ways_to_call(sql):
    note = notes()[0]["text"]
    plain = rows(sql, "exam_entries", note)
    listed = sql.execute("SELECT to_jsonb(e) FROM (SELECT (exam_entries(%s)).*) e", [note]).fetchall()
    assert [row for row, in listed] == plain
    sql.execute("PREPARE asked(text) AS SELECT to_jsonb(e) FROM exam_entries($1) e")
    assert [row for row, in sql.execute("EXECUTE asked(%s)" % sql.execute("SELECT quote_literal(%s)", [note])
                                        .fetchone())] == plain
    assert sql.execute("SELECT count(*) FROM exam_entries(NULL)").fetchone() == (0,)
    assert sql.execute("SELECT count(*) FROM exam_gaps(%s, NULL)", [note]).fetchone() == (0,)


def test_promises_to_the_planner(sql):
    said = sql.execute(
        "SELECT proname, proretset, provolatile, proparallel, proisstrict FROM pg_proc p, pg_depend d, pg_extension e "
        "WHERE d.objid = p.oid AND d.refobjid = e.oid AND e.extname = 'jointledger' AND d.deptype = 'e' "
        "AND d.classid = 'pg_proc'::regclass").fetchall()
    sets = {name for name, is_set, *_ in said if is_set}
    names = ["exam_entries", "exam_complaints", "exam_gaps", "exam_terms"]
    assert sets == {*names, *("try_" + name for name in names)} and len(said) == len(sets)
    assert all(row[2:] == ("i", "s", True) for row in said)


def test_one_database_in_another_encoding(server, sql):
    sql.execute("CREATE DATABASE latin ENCODING 'LATIN1' LOCALE 'C' TEMPLATE template0")
    note = "EXAM\nMüller, größer. Left knee: no swelling, ROM 0-140°."
    with server.connect("latin", client_encoding="utf8") as latin:
        latin.execute("CREATE SCHEMA other; CREATE EXTENSION jointledger SCHEMA other")
        there = rows(latin, "other.exam_entries", note)
        terms = rows(latin, "other.exam_terms", note)
    assert there == rows(sql, "exam_entries", note) and there
    assert terms == rows(sql, "exam_terms", note) and "größer" in json.dumps(terms, ensure_ascii=False)
    # UTF-8 has it in two bytes, this database in one.
    assert json.dumps(there).count("[21,30)") > 0 and note[21:30] == "Left knee"
