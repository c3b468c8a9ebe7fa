"""Tables of entries and gaps hold what the JSON of the command line holds, for each library that has DataFrames.

Source of what a valid array is: the Arrow columnar format, by pyarrow's own full validation.
"""

import json

import jointledger
import pandas
import polars
import pyarrow as pa
import pytest
from notes import audited_by_program, demo_notes, read_by_program

BAD = [("blank", " "), ("none", None)]
BAD_ROWS = [
    {"id": "blank", "error": "the note has no text"},
    {"id": "none", "error": "there is no text: it is null"},
]
LISTS = ("motions", "degrees", "grade", "structures", "tests")


def whole(members, optional):
    """An entry or gap of the JSON with the members that it leaves out."""
    out = {**{name: [] for name in optional}, **members, "error": None}
    out["degrees"] = [{"motion": None, "from": None, "lacking": False, **figure} for figure in out.get("degrees", [])]
    if "degrees" not in optional:
        del out["degrees"]
    return out


def expected_entries():
    ledgers = map(json.loads, read_by_program(demo_notes()))
    return [{"id": ledger["id"], **whole(entry, LISTS)} for ledger in ledgers for entry in ledger["entries"]]


def expected_gaps(profile):
    audits = map(json.loads, audited_by_program(demo_notes(), profile))
    return [
        {"id": a["id"], "profile": a["profile"], "score": a["score"], **whole(gap, ("motions", "structures"))}
        for a in audits
        for gap in a["gaps"]
    ]


def columns():
    notes = demo_notes() + BAD
    return {"id": [id for id, _ in notes], "text": [text for _, text in notes]}


def rows(table):
    """The rows of a table of any of the libraries, by way of Arrow."""
    if isinstance(table, pandas.DataFrame):
        table = pa.Table.from_pandas(table, preserve_index=False)
    if isinstance(table, polars.DataFrame):
        table = table.to_arrow()
    table.validate(full=True)
    return table.to_pylist()


def named(table):
    return table.schema.names if isinstance(table, (pa.Table, pa.RecordBatch)) else list(table.columns)


def without_nulls(row):
    return {name: value for name, value in row.items() if value is not None}


FRAMES = {
    "pandas": pandas.DataFrame,
    "polars": polars.DataFrame,
    "table": pa.table,
    "batch": pa.RecordBatch.from_pydict,
}


@pytest.mark.parametrize("make", FRAMES.values(), ids=FRAMES)
def test_entries_are_those_of_the_program(make):
    notes = make(columns())
    table = jointledger.entries(notes)
    assert type(table) is type(notes)
    found, expected = rows(table), expected_entries()
    assert found[: len(expected)] == expected
    assert [without_nulls(row) for row in found[len(expected) :]] == BAD_ROWS


@pytest.mark.parametrize("profile", ["screening", "complaint"])
@pytest.mark.parametrize("make", FRAMES.values(), ids=FRAMES)
def test_gaps_are_those_of_the_program(make, profile):
    notes = make(columns())
    table = jointledger.gaps(notes, profile)
    assert type(table) is type(notes)
    found, expected = rows(table), expected_gaps(profile)
    assert found[: len(expected)] == expected
    assert [without_nulls(row) for row in found[len(expected) :]] == BAD_ROWS


@pytest.mark.parametrize(
    "type",
    [pa.string(), pa.large_string(), pa.string_view(), pa.binary(), pa.large_binary(), pa.binary_view()]
    + [pa.dictionary(pa.int32(), pa.string())],
    ids=str,
)
def test_all_types_of_text_are_read(type):
    texts = pa.array(columns()["text"])
    # What pyarrow has no cast to is cast by way of the type beside it.
    typed = texts.dictionary_encode() if pa.types.is_dictionary(type) else texts.cast(type)
    assert typed.type == type
    notes = pa.table({"id": columns()["id"], "text": typed})
    assert jointledger.entries(notes) == jointledger.entries(pa.table(columns()))


@pytest.mark.parametrize("threads", [1, 2, 5])
def test_slices_and_chunks_are_read_as_they_lie(threads):
    table = pa.table(columns())
    all_rows = jointledger.entries(table, threads=threads).to_pylist()
    parts = [table.slice(0, 3), table.slice(3, 1), table.slice(4, 0), table.slice(4, 9), table.slice(13)]
    assert jointledger.entries(pa.concat_tables(parts), threads=threads).to_pylist() == all_rows
    assert [row for part in parts for row in jointledger.entries(part).to_pylist()] == all_rows
    for part in table.slice(7).to_batches(max_chunksize=5):
        ids = part.column("id").to_pylist()
        assert jointledger.entries(part).to_pylist() == [row for row in all_rows if row["id"] in ids]


def test_more_notes_than_a_block_come_in_their_order():
    notes = pa.concat_tables([pa.table(columns())] * 60)
    once = jointledger.gaps(pa.table(columns()), "complaint").to_pylist()
    assert jointledger.gaps(notes, "complaint").to_pylist() == once * 60


@pytest.mark.parametrize("make", FRAMES.values(), ids=FRAMES)
def test_no_notes_give_an_empty_table_with_all_columns(make):
    empty = make({"id": pa.array([], pa.string()), "text": pa.array([], pa.string())})
    table = jointledger.gaps(empty)
    assert rows(table) == []
    assert named(table)[:2] == ["id", "profile"]


def test_the_columns_that_are_kept_keep_their_types():
    notes = pa.table({"visit": [3, 4], "who": ["a", None], "body": ["Left knee: no effusion.", None]})
    table = jointledger.entries(notes, text="body", keep=["visit", "who"])
    assert table.schema.field("visit").type == pa.int64()
    assert table.select(["visit", "who"]).to_pylist() == [{"visit": 3, "who": "a"}, {"visit": 4, "who": None}]
    assert jointledger.entries(notes, text="body", keep=[]).schema.names[0] == "region"


def test_least_certainty_is_heeded():
    notes = pa.table({"id": [id for id, _ in demo_notes()], "text": [text for _, text in demo_notes()]})
    lines = map(json.loads, audited_by_program(demo_notes(), "complaint", "--certainty", "0.95"))
    expected = [(audit["id"], gap["expectation"]) for audit in lines for gap in audit["gaps"]]
    table = jointledger.gaps(notes, "complaint", least_certainty=0.95)
    assert list(zip(table["id"].to_pylist(), table["expectation"].to_pylist(), strict=True)) == expected


def test_bytes_that_are_no_text_are_an_error_of_their_row():
    notes = pa.table({"id": [1, 2], "text": pa.array([b"Zebrawood \xff", b"Left knee: no effusion."])})
    found = jointledger.entries(notes).to_pylist()
    assert found[0]["error"] == "not UTF-8 from byte 10 of the text"
    assert [row["region"] for row in found] == [None, "knee"]


def test_what_is_no_table_of_notes_is_refused():
    with pytest.raises(KeyError):
        jointledger.entries(pa.table({"id": [1]}))
    with pytest.raises(TypeError, match="of type int64"):
        jointledger.entries(pa.table({"id": [1], "text": [2]}))
    with pytest.raises(ValueError, match="'side' would stand twice"):
        jointledger.entries(pa.table({"side": [1], "text": ["x"]}), keep=["side"])
    with pytest.raises(TypeError, match="no DataFrame"):
        jointledger.entries([1])
    with pytest.raises(jointledger.ProfileError):
        jointledger.gaps(pa.table(columns()), "dancing")
