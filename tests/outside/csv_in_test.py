"""CSV, TSV and gzip are read as Python's standard library writes them; OMOP NOTE has the columns of omop-cdm 0.7.0,
a published model of the OMOP Common Data Model 5.4.
"""

import csv
import gzip
import io
import json
import random

import pytest
from omop_cdm.regular.cdm54 import Note

from inputs import expected, holds_the_notes, ledger, ndjson, notes, read, run

COLUMNS = ["id", "author", "text", "patient", "date"]


def table(rows, **how):
    out = io.StringIO(newline="")
    csv.writer(out, **how).writerows(rows)
    return out.getvalue().encode()


def rows():
    return [COLUMNS] + [[note[column] for column in COLUMNS] for note in notes()]


WAYS = [
    {},
    {"lineterminator": "\n"},
    {"quoting": csv.QUOTE_ALL},
    {"delimiter": "\t"},
    {"delimiter": "\t", "quoting": csv.QUOTE_ALL, "lineterminator": "\n"},
]


@pytest.mark.parametrize("how", WAYS)
def test_tables_of_the_csv_module_come_back_whole(how):
    data = table(rows(), **how)
    name = "tsv" if how.get("delimiter") else "csv"
    holds_the_notes(read(data, "--from", name))
    holds_the_notes(read(data))
    holds_the_notes(read(b"\xef\xbb\xbf" + data))


@pytest.mark.parametrize("delimiter", [",", "\t"])
def test_fields_are_those_that_the_csv_module_wrote(delimiter):
    chance = random.Random(20310304)
    names = ["id", "text"] + [f"c{i}" for i in range(6)]
    made = []
    for number in range(2000):
        fields = ["".join(chance.choices(',"\n\r\t a;é', k=chance.randrange(8))) for _ in range(6)]
        made.append([str(number), "EXAM: knee " + "".join(chance.choices(',"\n\r a', k=9)) + "."] + fields)
    how = {"delimiter": delimiter, "quoting": chance.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL])}
    data = table([names] + made, **how)
    assert list(csv.reader(io.StringIO(data.decode(), newline=""), delimiter=delimiter))[1:] == made
    answers = read(data, "--from", "tsv" if delimiter == "\t" else "csv")
    assert [[answer["id"], *(answer[name] for name in names[2:])] for answer in answers] == [
        [row[0], *row[2:]] for row in made
    ]


def test_columns_are_named_by_option():
    header = ["Doc No", "who", "Body", "MRN", "when"]
    options = ["--id-column", "doc no", "--text-column", "Body", "--author-column", "who", "--patient-column", "MRN",
               "--date-column", "when"]
    answers = read(table([header] + rows()[1:]), *options)
    holds_the_notes(answers)
    assert answers[0]["MRN"] == answers[0]["patient"]


def test_omop_notes_have_the_columns_of_the_common_data_model():
    columns = [column.name for column in Note.__table__.columns]
    assert {"note_id", "person_id", "note_date", "note_datetime", "note_text", "provider_id"} <= set(columns)
    of = {"note_text": "text", "person_id": "patient", "provider_id": "author", "note_date": "date"}
    body = []
    for number, note in enumerate(notes()):
        values = {"note_id": number, "note_title": "Visit", "note_type_concept_id": 32817}
        values.update({name: note[key] for name, key in of.items()})
        body.append([values.get(name, "") for name in columns])
    for data in (table([columns] + body), table([[c.upper() for c in columns]] + body, delimiter="\t")):
        for options in ([], ["--from", "omop"]):
            answers = read(data, *options)
            assert [answer["id"] for answer in answers] == list(range(len(notes())))
            for answer, note in zip(answers, notes()):
                assert ledger(answer) == expected()[note["id"]]
                assert [answer[key] for key in ("author", "patient", "date")] == [
                    note[key] for key in ("author", "patient", "date")
                ]
                named = {name.lower(): value for name, value in answer.items()}
                assert set(columns) - {"note_id", "note_text"} <= set(named)
                assert named["note_type_concept_id"] == "32817"


@pytest.mark.parametrize("level", [0, 1, 9])
def test_gzip_of_the_gzip_module_is_taken_off(level):
    holds_the_notes(read(gzip.compress(table(rows()), level)))
    holds_the_notes(read(gzip.compress(ndjson(notes()), level), "--from", "ndjson"))
    members = b"".join(gzip.compress(line + b"\n", level) for line in ndjson(notes()).splitlines())
    holds_the_notes(read(members))
    text = notes()[0]["text"].encode()
    assert ledger(read(gzip.compress(text, level), "--from", "text")[0]) == expected()[notes()[0]["id"]]


def test_truncated_gzip_keeps_what_came_before_and_says_so():
    data = gzip.compress(ndjson(notes()))
    done = run(data[: len(data) // 2])
    assert done.returncode == 2
    assert b"the gzip data ends before it is complete" in done.stderr
    whole = [json.loads(line)["id"] for line in done.stdout.splitlines()]
    assert whole and whole == [note["id"] for note in notes()][: len(whole)]
