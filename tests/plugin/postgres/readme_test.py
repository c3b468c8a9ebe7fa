"""What the README says of PostgreSQL runs, statement for statement, and gives what it says."""

from conftest import notes
from omop import create_tables, insert_notes, statements_of_the_readme


def kinds(plan):
    return [plan["Node Type"], *(kind for child in plan.get("Plans", []) for kind in kinds(child))]


def test_every_statement(server, sql):
    sql.execute("CREATE DATABASE readme")
    with server.connect("readme") as there:
        create_tables(there)
        insert_notes(there, {**{i: note["text"] for i, note in enumerate(notes(), 1)}, 999: " "})
        there.execute("ANALYZE")
        extension, gaps, motions, faults, insert, *parallel = statements_of_the_readme()
        there.execute(extension)
        # The blank note stops the first two, as was said.
        there.execute("CREATE TABLE blank AS SELECT * FROM note WHERE note_id = 999")
        there.execute("DELETE FROM note WHERE note_id = 999")
        found = there.execute(gaps).fetchall()
        said = server.ndjson("audit", "--profile", "screening", of=notes())
        assert [row[6] for row in sorted(found, key=lambda row: row[0])] == [
            gap["prompt"] for audit in said for gap in audit["gaps"]]
        words = there.execute(motions).fetchall()
        assert len(words) > 100 and any("flexion" in row[4] for row in words)
        there.execute("INSERT INTO note SELECT * FROM blank")
        assert [row[:2] for row in there.execute(faults)] == [(999, "22P02")]
        there.execute(insert)
        entries = sum(len(ledger["entries"] + ledger["complaints"]) for ledger in server.ndjson("read", of=notes()))
        assert there.execute("SELECT count(*) FROM note_nlp").fetchone() == (entries,)

        # "So say that a query is worth several processes."
        plan = "EXPLAIN (FORMAT JSON) "
        assert "Gather" not in kinds(there.execute(plan + gaps).fetchone()[0][0]["Plan"])
        for statement in parallel:
            there.execute(statement)
        stored = "CREATE TABLE rows AS " + insert.split(")\n", maxsplit=1)[1]
        for statement in gaps, motions, faults, stored:
            assert "Gather" in kinds(there.execute(plan + statement).fetchone()[0][0]["Plan"]), statement
        assert "Gather" not in kinds(there.execute(plan + insert).fetchone()[0][0]["Plan"])
    sql.execute("DROP DATABASE readme")
