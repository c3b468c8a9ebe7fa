"""Notes for the tests of the Python module, and what the command line says of them."""

import json
import os
import pathlib
import subprocess

PROGRAM = os.environ["JOINTLEDGER_PROGRAM"]
FIXTURES = pathlib.Path(os.environ["JOINTLEDGER_FIXTURES"])
SOURCE = FIXTURES.parent

# Beyond ASCII, with figures and grades: what offsets in bytes and nested lists are tried with.
UMLAUTS = (
    "Café, naïve: Übersicht.\n\nExam:\nLeft knee: flexion 0–120°, lacks 10° of extension, quadriceps strength 4+/5.\n"
    "Right knee: no effusion.\n"
)


def demo_notes():
    """(id, text) of each demo note. Without an author no exam is compared with another's."""
    lines = (FIXTURES / "notes.ndjson").read_text(encoding="utf-8").splitlines()
    notes = [json.loads(line) for line in lines]
    return [(note["id"], note["text"]) for note in notes] + [("umlauts", UMLAUTS)]


def program(*words, notes=None):
    """The lines that the command line writes."""
    lines = "".join(json.dumps({"id": id, "text": text}, ensure_ascii=False) + "\n" for id, text in notes or [])
    done = subprocess.run(
        [PROGRAM, *map(str, words), "--from", "ndjson", "--to", "ndjson"],
        input=lines.encode(),
        capture_output=True,
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr.decode()
    return done.stdout.decode().splitlines()


def read_by_program(notes):
    return program("read", notes=notes)


def audited_by_program(notes, profile, *options):
    return program("audit", "--profile", profile, *options, notes=notes)
