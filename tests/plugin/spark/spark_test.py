"""A cluster makes the same rows as a single machine, whatever becomes of its processes meanwhile.

What the single machine makes is held against the command line by tests/plugin/python/.
"""

import concurrent.futures
import contextlib
import io
import json
import os
import pathlib
import re
import signal

import cluster
import jointledger
import jointledger_spark
import jointledger_spark.job
import pyarrow as pa
import pyarrow.dataset
import pytest
from jointledger import _schemas
from jointledger_spark import _worker
from pyspark.sql.pandas.types import from_arrow_schema

FIXTURES = pathlib.Path(os.environ["JOINTLEDGER_FIXTURES"])
KEEP = ["site", "id"]
BAD = [("blank", " \n"), ("none", None), ("nul", "Left knee: \0")]
SITES = 12


def note_table():
    """The demo notes and some that cannot be read, at each of some sites, each with an id of its own."""
    lines = (FIXTURES / "notes.ndjson").read_text(encoding="utf-8").splitlines()
    demo = [(note["id"], note["text"]) for note in map(json.loads, lines)] + BAD
    rows = [(f"site-{site:02}", f"{site}/{id}", text) for site in range(SITES) for id, text in demo]
    return pa.table(dict(zip(["site", "id", "text"], zip(*rows, strict=True), strict=True)))


@pytest.fixture(scope="module", name="spark")
def fixture_spark():
    session = cluster.started()
    yield session
    session.stop()


@pytest.fixture(scope="module", name="folder")
def fixture_folder(tmp_path_factory):
    """The notes as Parquet, a folder a site."""
    folder = tmp_path_factory.mktemp("notes")
    pyarrow.dataset.write_dataset(
        note_table(), folder, format="parquet", partitioning=["site"], partitioning_flavor="hive"
    )
    return str(folder)


def in_order(rows):
    """By note; the rows of one note stay in the order that they came in."""
    return sorted(rows, key=lambda row: (row["site"], row["id"]))


def collected(table):
    return in_order(row.asDict(recursive=True) for row in table.collect())


def on_one_machine(make, *words):
    return in_order(make(note_table(), *words, keep=KEEP).to_pylist())


def slowly(table, seconds=0.7):
    """The same rows, so that there is a middle of the run to do something in."""

    def wait(batches):
        import time

        time.sleep(seconds)
        yield from batches

    return table.mapInArrow(wait, table.schema)


def test_the_schemas_are_those_of_the_tables():
    assert from_arrow_schema(_schemas.ENTRIES) == jointledger_spark.ENTRIES
    assert from_arrow_schema(_schemas.GAPS) == jointledger_spark.GAPS


def test_entries_and_gaps_are_those_of_a_single_machine(spark, folder):
    notes = spark.read.parquet(folder)
    assert notes.rdd.getNumPartitions() == SITES
    assert len(cluster.executors(spark)) == 2
    entries = jointledger_spark.entries(notes, keep=KEEP)
    assert entries.columns == [*KEEP, *jointledger_spark.ENTRIES.names]
    assert collected(entries) == on_one_machine(jointledger.entries)
    for profile in ("screening", "complaint"):
        gaps = jointledger_spark.gaps(notes, profile, keep=KEEP)
        assert collected(gaps) == on_one_machine(jointledger.gaps, profile)


def test_a_bad_row_is_a_row_with_its_reason(spark, folder):
    gaps = jointledger_spark.gaps(spark.read.parquet(folder), keep=KEEP)
    bad = gaps.where("error is not null").orderBy("site", "id").collect()
    assert [row.id for row in bad] == [f"{site}/{id}" for site in range(SITES) for id in ("blank", "none", "nul")]
    assert {row.error for row in bad} == {
        "the note has no text",
        "there is no text: it is null",
        "a NUL byte at byte 11 of the text",
    }
    assert {row.prompt for row in bad} == {None}


def test_words_and_rules_are_loaded_once_a_worker_process(spark, folder):
    work = _worker.entries_of("text", ["id"], (), ())
    engine = _worker.engine

    def probe(batches):
        import os

        import pyarrow

        for _ in work(batches):
            pass
        loads = engine.cache_info()
        yield pyarrow.RecordBatch.from_pydict(
            {"process": [os.getpid()], "loads": [loads.misses], "uses": [loads.hits + loads.misses]}
        )

    probes = spark.read.parquet(folder).mapInArrow(probe, "process long, loads long, uses long").collect()
    assert len(probes) == SITES
    assert {probe.loads for probe in probes} == {1}
    assert len({probe.process for probe in probes}) == 2
    assert max(probe.uses for probe in probes) > 1


@pytest.mark.parametrize("victim", ["executor", "python worker"])
def test_a_process_killed_in_the_middle_changes_no_row(spark, folder, victim):
    notes = slowly(spark.read.parquet(folder))
    gaps = jointledger_spark.gaps(notes, "complaint", keep=KEEP)
    cluster.wait_until(lambda: len(cluster.executors(spark)) == 2, "two executors")
    before = cluster.executors(spark)
    with concurrent.futures.ThreadPoolExecutor(1) as pool:
        rows = pool.submit(collected, gaps)
        cluster.wait_until(lambda: cluster.tasks_done(spark) >= 2, "a task that is done")
        done = cluster.tasks_done(spark)
        killed = before[0] if victim == "executor" else cluster.python_workers(before[0])[-1]
        os.kill(killed, signal.SIGKILL)
        assert done < SITES
        assert not rows.done()
        assert rows.result(timeout=300) == on_one_machine(jointledger.gaps, "complaint")
    if victim == "executor":
        after = cluster.wait_until(lambda: len(cluster.executors(spark)) == 2 and cluster.executors(spark), "another")
        assert killed not in after
    else:
        assert cluster.executors(spark) == before
        assert killed not in cluster.python_workers(before[0])


def test_the_job_writes_what_the_function_makes(spark, folder, tmp_path):
    out = tmp_path / "gaps"
    jointledger_spark.job.main(["gaps", folder, str(out), "--profile", "complaint", "--keep", "site,id"])
    table = pyarrow.dataset.dataset(out, format="parquet", exclude_invalid_files=True).to_table()
    assert in_order(table.to_pylist()) == on_one_machine(jointledger.gaps, "complaint")


def test_what_does_not_fit_is_told_before_the_job_starts(spark, tmp_path):
    notes = spark.createDataFrame([(1, "Left knee: no effusion.")], "id int, text string")
    with pytest.raises(ValueError, match="no column 'body' .there are: id, text."):
        jointledger_spark.gaps(notes, text="body")
    with pytest.raises(ValueError, match="of type int"):
        jointledger_spark.entries(notes, text="id")
    with pytest.raises(ValueError, match="'side' would stand twice"):
        jointledger_spark.entries(notes.withColumnRenamed("id", "side"), keep=["side"])
    with pytest.raises(jointledger.ProfileError, match="dancing"):
        jointledger_spark.gaps(notes, "dancing")
    with pytest.raises(jointledger.DataError, match="no folder"):
        jointledger_spark.entries(notes, rules=[str(tmp_path / "nowhere")])


def test_the_example_of_the_readme_runs(spark):
    section = (FIXTURES.parent / "README.md").read_text(encoding="utf-8").split("\n## On Spark\n")[1].split("\n## ")[0]
    example = re.search(r"```python\n(.*?)```", section, re.DOTALL).group(1)
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        exec(compile(example.replace('"fixtures/', f'"{FIXTURES}/'), "README.md", "exec"), {})  # noqa: S102
    assert re.search(r"knee-motion\s*\|\s*\d+", out.getvalue())
