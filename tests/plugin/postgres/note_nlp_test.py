"""The README's statement fills NOTE_NLP as the command line writes it."""

import csv
import io
import json
import random

import psycopg
import pytest
from conftest import notes, run
from omop import create_tables, insert_notes, statements_of_the_readme, the_one

INSERT = the_one(statements_of_the_readme(), "INSERT")


@pytest.fixture(name="omop")
def fixture_omop(server, sql):
    sql.execute("CREATE DATABASE omop")
    with server.connect("omop") as connection:
        connection.execute("CREATE EXTENSION jointledger")
        create_tables(connection)
        yield connection
    sql.execute("DROP DATABASE omop")


def written(server, texts, day):
    given = "".join(json.dumps({"id": number, "text": text}) + "\n" for number, text in texts.items()).encode()
    out = run(server.program, "read", "--from", "ndjson", "--to", "omop", "--date", day, "-", stdin=given)
    return list(csv.DictReader(io.StringIO(out.decode(), newline=""), strict=True))


def cut_and_joined(count):
    """Notes of two pieces of others each, with characters of one to four bytes between them."""
    chance = random.Random(7)
    texts = [note["text"] for note in notes()]
    for _ in range(count):
        before, after = chance.choice(texts), chance.choice(texts)
        between = chance.choice([" ", "–", "膝 ", "\n", "𝒳 größer "]) * chance.randrange(3)
        yield before[:chance.randrange(1, len(before))] + between + after[chance.randrange(len(after)):]


def test_rows_are_those_of_the_command_line(server, omop):
    texts = {i: text for i, text in enumerate([note["text"] for note in notes()] + list(cut_and_joined(400)), 1)}
    # Blank notes, which nothing can be read in.
    insert_notes(omop, {**texts, 901: "", 902: " \n"})
    day = str(omop.execute("SELECT CURRENT_DATE").fetchone()[0])
    omop.execute(INSERT)
    cursor = omop.execute("SELECT * FROM note_nlp ORDER BY note_nlp_id")
    names = [column.name for column in cursor.description]
    filled = [dict(zip(names, ("" if cell is None else str(cell) for cell in row))) for row in cursor]
    expected = written(server, texts, day)
    assert filled == expected and len(filled) > 3000
    # What is cut short was among them.
    assert max(len(row["term_modifiers"]) for row in filled) > 1900
    assert max(len(row["lexical_variant"]) for row in filled) > 200
    bad = omop.execute(the_one(statements_of_the_readme(), "SELECT note_id, sqlstate")).fetchall()
    assert sorted(bad) == [(901, "22P02", "the note has no text"), (902, "22P02", "the note has no text")]


def test_ids_that_outgrow_an_integer(omop):
    insert_notes(omop, {1_000_000: notes()[2]["text"]})
    with pytest.raises(psycopg.errors.NumericValueOutOfRange):
        omop.execute(INSERT)
    omop.execute("ALTER TABLE note_nlp ALTER note_nlp_id TYPE BIGINT")
    omop.execute(INSERT)
    assert omop.execute("SELECT min(note_nlp_id) FROM note_nlp").fetchone() == (10_000_000_001,)
