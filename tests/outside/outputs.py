"""What the tests of outputs share: notes that bring trouble, and the program run on them."""

import json
import os
import subprocess
import sys
from pathlib import Path

PROGRAM = os.environ["JOINTLEDGER_PROGRAM"]
FIXTURES = Path(os.environ["JOINTLEDGER_FIXTURES"])
DAY = "2031-06-01"

# Own inventions, for what the demo notes lack: characters beyond ASCII, quotes, commas and line breaks within the
# evidence, long evidence, ids that a spreadsheet would run, metadata of all kinds, notes that came as FHIR.
LONG = "Left knee: no swelling, no redness, no scars, " + "no deformity of any of its parts, " * 20 + "no wasting."
EXTRA = [
    {"id": "=1+1", "n": [1, 2.50],
     "text": "HISTORY\nLeft knee pain.\nEXAM\nLeft knee – no swelling, \"full\" ROM 0–140°,\nnontender."},
    {"id": "'@x", "patient": 7,
     "text": "HISTORY\r\nRechte Hüfte: Schmerz. Right hip pain.\r\nEXAM\r\nRight hip\r\nswollen, flexion 100°."},
    {"id": "a,\"b\"\nc", "author": {"name": "Ω, \"B\""}, "date": None, "empty": "",
     "text": "HISTORY\nRight shoulder pain after a fall.\nEXAM\nRight shoulder tender, abduction 90°."},
    {"id": "long", "date": "2030-12-31T23:59:59+01:00", "text": "HISTORY\nLeft knee pain.\nEXAM\n" + LONG},
    {"id": "nothing", "text": "Here for a form. No complaint, no examination."},
    {"id": "doc-1", "resourceType": "DocumentReference", "status": "current", "date": "2031-02-01T08:00:00Z",
     "subject": {"reference": "Patient/p1"},
     "text": "HISTORY\nLeft wrist pain.\nEXAM\nLeft wrist swollen. Right wrist normal."},
    {"id": "urn:uuid:0c3151bd-1cbf-4d64-b04d-cd9187a4c6e0", "resourceType": "Composition",
     "subject": {"reference": "Group/g1"}, "text": "HISTORY\nNeck pain.\nEXAM\nNeck tender, no swelling."},
]


def notes():
    lines = (FIXTURES / "notes.ndjson").read_text(encoding="utf-8").splitlines()
    return [json.loads(line) for line in lines] + EXTRA


def ndjson(of):
    return "".join(json.dumps(note, ensure_ascii=False) + "\n" for note in of).encode()


def run(*arguments, stdin):
    """The standard output of the program, which must have read every note, if there were any."""
    done = subprocess.run([PROGRAM, *arguments, "--from", "ndjson", "-"], input=stdin, capture_output=True, check=False)
    assert done.returncode in (0, 1), done.stderr.decode()
    told = done.stderr.decode().splitlines()
    # Of several notes the program says how many it read, and nothing else.
    assert not stdin or told == [] or (len(told) == 1 and told[0].endswith(", 0 set aside")), told
    return done.stdout


def read(*arguments, of):
    return run("read", *arguments, stdin=ndjson(of))


def audit(*arguments, of, profile="complaint"):
    return run("audit", "--profile", profile, *arguments, stdin=ndjson(of))


def objects(output):
    return [json.loads(line) for line in output.splitlines()]


def published(package, path):
    """A file that a package of published.txt carries."""
    from importlib.metadata import distribution

    return Path(distribution(package).locate_file(path))


SCHEMA_OF_FHIR = Path(sys.prefix) / "share" / "fhir.schema.json"
