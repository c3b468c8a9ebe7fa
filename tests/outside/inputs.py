"""What the tests of inputs share: notes, and the ledgers that the program reads in them."""

import json
import os
import subprocess
from functools import cache
from pathlib import Path

PROGRAM = os.environ["JOINTLEDGER_PROGRAM"]
FIXTURES = Path(os.environ["JOINTLEDGER_FIXTURES"])

# Own inventions, for what the demo notes lack: every character that a format means something by.
EXTRA = [
    {"id": "marks", "author": "FW-9", "patient": "FWP-9", "date": "2031-04-01",
     "text": "EXAM\nRight knee: no swelling | none ^ at ~ all & \"full\" <140>, it's {fine}; 5/5\n\n"
             "\tLeft hip, tender\n"},
    {"id": "letters", "author": "FW-9", "patient": "FWP-8", "date": "2031-04-02",
     "text": "EXAM\nLeft knee – no swelling, ROM 0–140°. Größe µ 膝.\nRight ankle stable."},
]


@cache
def notes():
    lines = (FIXTURES / "notes.ndjson").read_text(encoding="utf-8").splitlines()
    return [json.loads(line) for line in lines] + EXTRA


def run(data, *options):
    """The program's answer to `data` on its standard input."""
    return subprocess.run([PROGRAM, "read", "--to", "ndjson", *options], input=data, capture_output=True, timeout=300)


def read(data, *options):
    """The ledgers in `data`, of which all must be good."""
    done = run(data, *options)
    assert done.returncode == 0, done.stderr.decode()
    return [json.loads(line) for line in done.stdout.splitlines()]


def ndjson(of):
    return "".join(json.dumps(note, ensure_ascii=False) + "\n" for note in of).encode()


def ledger(answer):
    """What was read, with the bytes of the text where it stands: the same for the same text only."""
    return {key: answer[key] for key in ("entries", "complaints")}


@cache
def expected():
    """Id to ledger, by way of NDJSON."""
    return {answer["id"]: ledger(answer) for answer in read(ndjson(notes()), "--from", "ndjson")}


def holds_the_notes(answers):
    """Every note came back whole, in its place."""
    assert [answer["id"] for answer in answers] == [note["id"] for note in notes()]
    for answer in answers:
        assert ledger(answer) == expected()[answer["id"]], answer["id"]
    assert sum(len(answer["entries"]) for answer in answers) > 400
    for answer, note in zip(answers, notes()):
        for key in ("author", "patient", "date"):
            assert note[key] in json.dumps(answer[key]), key
