"""How calls run in the server: in parallel, until they are cancelled, and in steady memory."""

import contextlib
import json
import pathlib
import threading
import time

import psycopg
import pytest
from conftest import notes, running

# Invented, and read for seconds.
LONG = "repeat('Left knee: no swelling. ', 1000000)"


@pytest.fixture(name="many")
def fixture_many(sql):
    """A table of some thousand notes, which the planner knows the size of."""
    sql.execute("CREATE TABLE many (id serial, note text)")
    with sql.cursor().copy("COPY many (note) FROM STDIN") as copy:
        for i in range(2000):
            copy.write_row([notes()[i % len(notes())]["text"]])
    sql.execute("ANALYZE many")
    # The text of long notes lies outside of the table, so that it looks small to the planner: see the README.
    sql.execute("ALTER TABLE many SET (parallel_workers = 2)")
    yield "many"
    sql.execute("DROP TABLE many")


def explained(sql, query, analyze=False):
    option = ", ANALYZE" if analyze else ""
    (plan,), = sql.execute(f"EXPLAIN (FORMAT JSON{option}) {query}").fetchall()
    return plan[0]["Plan"]


def below(plan):
    yield plan
    for child in plan.get("Plans", []):
        yield from below(child)


@pytest.mark.parametrize("call", ["exam_entries(note)", "exam_gaps(note, 'complaint')"])
def test_parallel_plan(sql, many, call):
    query = f"SELECT id, f.* FROM {many}, {call} f"
    # As the README says.
    sql.execute("SET parallel_setup_cost = 0; SET parallel_tuple_cost = 0")
    plan = explained(sql, query, analyze=True)
    gather, = (node for node in below(plan) if node["Node Type"] == "Gather")
    assert gather["Workers Launched"] == 2
    scan, = (node for node in below(gather) if node["Node Type"] == "Function Scan")
    assert scan["Function Name"] == call.split("(", maxsplit=1)[0]
    assert scan["Actual Loops"] == 2000
    parallel = sql.execute(f"SELECT to_jsonb(q) FROM ({query}) q").fetchall()
    sql.execute("SET max_parallel_workers_per_gather = 0")
    assert not [node for node in below(explained(sql, query)) if node["Node Type"] == "Gather"]
    alone = sql.execute(f"SELECT to_jsonb(q) FROM ({query}) q").fetchall()
    assert sorted(map(json.dumps, parallel)) == sorted(map(json.dumps, alone)) and len(alone) > 1000


@pytest.fixture(scope="module", name="whole")
def fixture_whole(server):
    """How many seconds the long note takes to its end, however busy the machine is."""
    with server.connect() as session:
        start = time.monotonic()
        session.execute(f"SELECT count(*) FROM exam_entries({LONG})")
        return time.monotonic() - start


def cancelled(sql, query, whole):
    """The SQLSTATE that a query ended with, which it did long before the note's end."""
    start = time.monotonic()
    with pytest.raises(psycopg.errors.QueryCanceled) as told:
        sql.execute(query)
    assert time.monotonic() - start < whole / 2
    # As the server's, without a word of the note.
    assert "swelling" not in str(told.value)
    return told.value.sqlstate


@pytest.mark.parametrize("call", [f"exam_entries({LONG})", f"exam_gaps({LONG}, 'screening')"])
def test_statement_timeout(sql, whole, call):
    sql.execute("SET statement_timeout = '300ms'")
    assert cancelled(sql, f"SELECT count(*) FROM {call}", whole) == "57014"
    sql.execute("RESET statement_timeout")
    assert sql.execute("SELECT count(*) FROM exam_entries('Left knee: no swelling.')").fetchone() == (1,)


def test_cancelled_by_another_session(server, sql, whole):
    pid = sql.info.backend_pid
    with server.connect() as other:
        timer = threading.Timer(0.5, other.execute, ["SELECT pg_cancel_backend(%s)", [pid]])
        timer.start()
        assert cancelled(sql, f"SELECT count(*) FROM exam_entries({LONG})", whole) == "57014"
        timer.join()


def test_ended_by_another_session(server, sql, whole):
    with server.connect() as doomed:
        pid = doomed.info.backend_pid
        timer = threading.Timer(0.5, sql.execute, ["SELECT pg_terminate_backend(%s)", [pid]])
        timer.start()
        start = time.monotonic()
        with pytest.raises(psycopg.OperationalError, match="terminating connection due to administrator command"):
            doomed.execute(f"SELECT count(*) FROM exam_entries({LONG})")
        timer.join()
        assert time.monotonic() - start < whole / 2


def test_what_is_pending_need_not_end_the_call(server, sql):
    """A request that a process answers between two sentences, and then goes on."""
    pid = sql.info.backend_pid
    with server.connect() as other:
        timer = threading.Timer(0.2, other.execute, ["SELECT pg_log_backend_memory_contexts(%s)", [pid]])
        timer.start()
        count = sql.execute("SELECT count(*) FROM exam_entries(repeat('Left knee: no swelling. ', 100000))").fetchone()
        timer.join()
    assert count == (1,)
    assert "logging memory contexts" in server.log.read_text()


def anonymous_memory(pid):
    """KiB that a process has for itself."""
    status = pathlib.Path(f"/proc/{pid}/status").read_text()
    line, = (line for line in status.splitlines() if line.startswith("RssAnon"))
    return int(line.split()[1])


@contextlib.contextmanager
def growth(session):
    """Fills a list with the most that the process of a session takes meanwhile beyond what it had, in KiB."""
    pid = session.info.backend_pid
    before = anonymous_memory(pid)
    most = [0]
    over = threading.Event()

    def look():
        while not over.wait(0.01):
            most[0] = max(most[0], anonymous_memory(pid) - before)

    looking = threading.Thread(target=look)
    looking.start()
    try:
        yield most
    finally:
        over.set()
        looking.join()


KNEE = "'HISTORY: Right hip pain. EXAM: Left knee – no swelling, flexion ' || i % 140 || '°, strength 4+/5.'"


@pytest.mark.parametrize("query", [
    f"SELECT f.* FROM calls, exam_entries({KNEE}) f",
    f"SELECT f.* FROM calls, exam_complaints({KNEE}) f",
    f"SELECT f.* FROM calls, exam_gaps({KNEE}, 'complaint') f",
    f"SELECT f.* FROM calls, exam_terms({KNEE}) f",
    "SELECT f.* FROM calls, try_exam_entries(repeat(' ', i % 9)) f",
    # In the list of a SELECT the server keeps other contexts.
    f"SELECT exam_entries({KNEE}) FROM calls",
    f"SELECT exam_gaps({KNEE}, 'complaint') FROM calls",
])
def test_memory_stays_over_many_calls(server, sql, query):
    sql.execute("CREATE TABLE IF NOT EXISTS calls AS SELECT generate_series(1, 100000) AS i")
    with server.connect() as session:
        # What the compiler for expressions takes is not ours.
        session.execute("SET jit = off")
        session.execute(f"SELECT count(*) FROM ({query} LIMIT 2000) q")
        # In one statement, so that what a call leaves behind until the end of it would show. Ten bytes a call would be
        # a MiB.
        with growth(session) as most:
            assert session.execute(f"SELECT count(*) FROM ({query}) q").fetchone()[0] >= 100_000
        assert 0 <= most[0] < 1024


def test_a_long_note_gives_its_memory_back(server, whole):
    with server.connect() as session:
        pid = session.info.backend_pid
        session.execute("SELECT count(*) FROM exam_entries('Left knee: no swelling.')")
        before = anonymous_memory(pid)
        query = "SELECT count(*) FROM exam_entries(repeat('Left knee: no swelling. ', 100000))"
        session.execute(query)
        assert anonymous_memory(pid) - before < 16 * 1024
        # After an error the next call gives it back.
        session.execute("SET statement_timeout = '100ms'")
        cancelled(session, f"SELECT count(*) FROM exam_entries({LONG})", whole)
        session.execute("RESET statement_timeout")
        session.execute("SELECT count(*) FROM exam_entries('Left knee: no swelling.')")
        assert anonymous_memory(pid) - before < 16 * 1024


def test_preloaded():
    """With shared_preload_libraries the processes of the server have the words from the start."""
    with running() as server:
        with server.connect() as session:
            session.execute("CREATE EXTENSION jointledger")
        server.stop()
        server.start(shared_preload_libraries="jointledger")
        # Nothing to be loaded any more; what is there is used.
        data = next(server.root.glob("server/**/share/jointledger"))
        data.rename(data.with_name("elsewhere"))
        with server.connect() as session:
            assert session.execute("SELECT count(*) FROM exam_entries('Left knee: no swelling.')").fetchone() == (1,)
        server.stop()
        # Without words the server starts all the same, and says so.
        server.start(**{"shared_preload_libraries": "jointledger", "jointledger.data": "/nowhere"})
        assert "WARNING:  cannot load the words and rules of jointledger" in server.log.read_text()
        with server.connect() as session, pytest.raises(psycopg.errors.ConfigFileError):
            session.execute("SELECT count(*) FROM exam_entries('Left knee: no swelling.')")
