"""What goes wrong is an SQL error with a code and without a word of any note, and a bad note spoils nothing else."""

import shutil

import psycopg
import pytest
from conftest import SOURCE, notes

SECRET = "Quillfeather"
GOOD = f"EXAM\nLeft knee: no swelling. {SECRET}"
LONGEST = 64 * 1024 * 1024


def state_of(sql, statement, *arguments):
    with pytest.raises(psycopg.Error) as told:
        sql.execute(statement, arguments or None)
    assert SECRET not in str(told.value) + str(told.value.diag.context) + str(told.value.diag.message_detail)
    assert "jointledger" in str(told.value)
    return told.value.sqlstate, str(told.value)


def test_errors_have_codes(sql):
    for function in ["exam_entries(%s)", "exam_complaints(%s)", "exam_gaps(%s, 'screening')", "exam_terms(%s)"]:
        # SQLSTATE codes: PostgreSQL's documentation, appendix A.
        assert state_of(sql, f"SELECT * FROM {function}", " \n\t")[0] == "22P02"
        assert state_of(sql, f"SELECT * FROM {function}", "")[0] == "22P02"
        code, message = state_of(sql, f"SELECT * FROM {function}".replace("%s", f"repeat('x', {LONGEST + 1})"))
        assert code == "54000" and "64 MiB" in message
    code, message = state_of(sql, "SELECT * FROM exam_gaps(%s, %s)", GOOD, SECRET)
    assert code == "42704" and "screening" in message
    assert state_of(sql, "SELECT * FROM try_exam_gaps(%s, %s)", GOOD, SECRET)[0] == "42704"
    # The session goes on.
    assert sql.execute("SELECT count(*) FROM exam_entries(%s)", [GOOD]).fetchone() == (1,)


@pytest.fixture(name="mixed")
def fixture_mixed(sql):
    """Good notes with bad ones among them: blank, empty, too long, missing."""
    sql.execute("CREATE TABLE mixed (id integer PRIMARY KEY, note text)")
    good = [note["text"] for note in notes()]
    for i, text in enumerate(good):
        sql.execute("INSERT INTO mixed VALUES (%s, %s)", [3 * i, text])
    bad = {1: "''", 4: "E' \\n'", 7: f"repeat('{SECRET} ', {LONGEST // len(SECRET)})", 10: "NULL"}
    for i, text in bad.items():
        sql.execute(f"INSERT INTO mixed VALUES ({i}, {text})")
    yield {3 * i: text for i, text in enumerate(good)}
    sql.execute("DROP TABLE mixed")


@pytest.mark.parametrize("call", ["exam_entries(note)", "exam_complaints(note)", "exam_gaps(note, 'screening')",
                                  "exam_terms(note)"])
def test_a_bad_note_cancels_nothing_but_itself(sql, mixed, call):
    state_of(sql, f"SELECT count(*) FROM mixed, {call}")
    found = sql.execute(f"SELECT id, sqlstate, fault, to_jsonb(f) - 'sqlstate' - 'fault' FROM mixed, try_{call} f "
                        "ORDER BY id").fetchall()
    bad = [row for row in found if row[2] is not None]
    assert [(number, code) for number, code, *_ in bad] == [(1, "22P02"), (4, "22P02"), (7, "54000")]
    assert all(set(rest.values()) == {None} for *_, rest in bad) and SECRET not in str(bad)
    good = []
    for number, text in mixed.items():
        one = call.replace("note", "%s", 1)
        good += [(number, None, None, row) for row, in sql.execute(f"SELECT to_jsonb(f) FROM {one} f", [text])]
    assert [row for row in found if row[2] is None] == good and len(good) > 5


def test_bytes_that_are_not_utf8(server, sql):
    sql.execute("CREATE DATABASE bytes ENCODING 'SQL_ASCII' LOCALE 'C' TEMPLATE template0")
    with server.connect("bytes", client_encoding="latin-1") as there:
        there.execute("CREATE EXTENSION jointledger")
        wrong = f"E'{GOOD}' || chr(233)".replace("\n", "\\n")
        code, message = state_of(there, f"SELECT * FROM exam_entries({wrong})")
        assert code == "22P02" and "UTF-8" in message
        fault, = there.execute(f"SELECT fault FROM try_exam_entries({wrong})").fetchall()
        assert "UTF-8" in str(fault)
        assert there.execute(f"SELECT count(*) FROM exam_entries({wrong.split(' ||', maxsplit=1)[0]})").fetchone()
    with server.connect("postgres") as again:
        again.execute("CREATE DATABASE japan ENCODING 'EUC_JP' LOCALE 'C' TEMPLATE template0")
    with server.connect("japan") as there:
        there.execute("CREATE EXTENSION jointledger")
        # In the form of that encoding, but no character of it.
        wrong = f"'{SECRET} ' || convert_from('\\xf5a1', 'EUC_JP')"
        assert state_of(there, f"SELECT * FROM exam_entries({wrong})")[0] == "22P05"


def test_the_log_has_no_word_of_a_note(server, sql):
    with pytest.raises(psycopg.Error):
        sql.execute("SELECT exam_entries(repeat(%s, 6000000))", [SECRET])
    # The server itself logs statements that fail, with the words in them; the extension adds none.
    lines = server.log.read_text().splitlines()
    assert [line for line in lines if "jointledger: " in line]
    assert not [line for line in lines if SECRET in line and "STATEMENT:" not in line]


def setting(sql, name, value):
    sql.execute(f"ALTER SYSTEM SET {name} = '{value}'")
    sql.execute("SELECT pg_reload_conf()")


@pytest.fixture(name="alone")
def fixture_alone(server):
    """A session of its own, which sees the settings as they were at first again."""
    with server.connect() as connection:
        yield connection
        connection.execute("ALTER SYSTEM RESET ALL")
        connection.execute("SELECT pg_reload_conf()")


def wait_for(server, name, value):
    """Settings come to a session between two statements, a moment after the reload."""
    while True:
        with server.connect() as fresh:
            if fresh.execute("SELECT current_setting(%s, true)", [name]).fetchone() == (value,):
                return


def test_words_and_rules_of_the_site(server, alone):
    assert state_of(alone, "SELECT * FROM exam_gaps(%s, 'ours')", GOOD)[0] == "42704"
    rules = server.root / "rules"
    rules.mkdir()
    ours = (SOURCE / "rules/screening.toml").read_text().replace('name = "screening"', 'name = "ours"')
    (rules / "ours.toml").write_text(ours)
    setting(alone, "jointledger.rules", rules)
    wait_for(server, "jointledger.rules", str(rules))
    # In a session that has words and rules already, and in a new one.
    with server.connect() as fresh:
        for session in alone, fresh:
            assert (session.execute("SELECT * FROM exam_gaps(%s, 'ours')", [GOOD]).fetchall()
                    == session.execute("SELECT * FROM exam_gaps(%s, 'screening')", [GOOD]).fetchall())
        # A worker of a parallel query has them, too.
        fresh.execute("SET force_parallel_mode = on")
        query = "FROM exam_gaps('Left knee: no swelling.', 'ours')"
        assert "Workers Launched: 1" in str(fresh.execute(f"EXPLAIN ANALYZE SELECT * {query}").fetchall())
        assert fresh.execute(f"SELECT count(*) {query}").fetchone()[0] > 5
    (rules / "ours.toml").write_text("name = 7")
    with server.connect() as fresh:
        code, message = state_of(fresh, "SELECT * FROM exam_gaps(%s, 'ours')", GOOD)
    assert code == "F0000" and "ours.toml" in message
    shutil.rmtree(rules)
    with server.connect() as fresh:
        assert state_of(fresh, "SELECT * FROM exam_entries(%s)", GOOD)[0] == "F0000"


def test_settings_are_of_the_server(sql):
    sql.execute("SELECT exam_entries('Left knee')")
    for name in ["data", "lexicon", "rules"]:
        with pytest.raises(psycopg.errors.CantChangeRuntimeParam):
            sql.execute(f"SET jointledger.{name} = '/tmp'")
    with pytest.raises(psycopg.Error):
        sql.execute("SET jointledger.nonsense = 1")
