"""Records that cannot be read are set aside whole, and none is lost: hostile input, judged by Python's own JSON."""

import base64
import json
import os
import random
import re

from program import AUDIT, notes, objects, run

RECORDS = 5000
BLANK = b" \t\r"


def mutated(line, rng):
    """A record that has come to harm; it has no line break in it, and is not blank."""
    line = bytearray(line)
    for _ in range(rng.randint(1, 3)):
        at = rng.randrange(len(line)) if line else 0
        kind = rng.randrange(9)
        if kind == 0:
            line[at:] = b""
        elif kind == 1:
            line[at : at + 1] = bytes([rng.choice([b for b in range(256) if b != 10])])
        elif kind == 2:
            line[at:at] = bytes(rng.choice([b for b in range(256) if b != 10]) for _ in range(rng.randint(1, 20)))
        elif kind == 3:
            del line[at : at + rng.randint(1, 30)]
        elif kind == 4:
            line[at:at] = rng.choice([b"\x00", b"\\u0000", b"\\ud800", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\\x"])
        elif kind == 5:
            line[at:at] = b"[" * rng.randint(1, 2000)
        elif kind == 6:
            line += rng.choice([b"{}", b"]", b"\r", b",", b"\x1a", b"   "])
        elif kind == 7:
            line[:] = line.replace(b'"text"', rng.choice([b'"txet"', b'"id"', b"text", b'"text":1,"text"']), 1)
        else:
            line[:] = line.replace(b'"id"', rng.choice([b'"di"', b"null", b'"id":{},"x"']), 1)
    line = bytes(line)
    return line if line.strip(BLANK) else b"x"


def hostile_lines(rng):
    lines = []
    for line in notes(seed=rng.random(), count=RECORDS):
        fate = rng.random()
        lines.append(b"" if fate < 0.05 else mutated(line, rng) if fate < 0.7 else line)
    return lines


def bytes_of(record):
    if "base64" in record:
        return base64.b64decode(record["base64"], validate=True)
    return record["bytes"].encode()


def test_hostile_records_are_read_or_set_aside_whole(tmp_path):
    seed = int(os.environ.get("JOINTLEDGER_SEED", random.SystemRandom().randrange(2**32)))
    print("seed", seed, "(JOINTLEDGER_SEED repeats it)")
    lines = hostile_lines(random.Random(seed))
    aside = tmp_path / "aside"
    result = run(*AUDIT, "--from", "ndjson", "--set-aside", aside, input=b"\n".join(lines) + b"\n")
    assert result.returncode == 2
    kept = objects(aside.read_bytes())
    audits = objects(result.stdout)
    records = {at: line for at, line in enumerate(lines, 1) if line.strip(BLANK)}

    counts = re.search(rb"(\d+) read, (\d+) audited, (\d+) set aside$", result.stderr.strip())
    assert [int(count) for count in counts.groups()] == [len(records), len(audits), len(kept)]
    assert len(records) == len(audits) + len(kept)
    assert len(kept) > RECORDS / 4

    for record in kept:
        at = record["line"]
        # A carriage return before the line feed belongs to the line break.
        assert bytes_of(record) == re.sub(rb"\r$", b"", records.pop(at)), f"line {at}"
        assert record["reason"]
    # What is left was audited, in order; Python agrees that it could be.
    read = [json.loads(line.removeprefix(b"\xef\xbb\xbf")) for line in records.values()]
    assert [note["id"] for note in read] == [audit["id"] for audit in audits]


def test_they_are_printed_as_they_came_in(tmp_path):
    rng = random.Random(3)
    lines = [line for line in hostile_lines(rng) if not line.endswith(b"\r")]
    aside, again = tmp_path / "aside", tmp_path / "again"
    run(*AUDIT, "--from", "ndjson", "--set-aside", aside, input=b"\n".join(lines))
    printed = run("set-aside", aside)
    assert printed.returncode == 0, printed.stderr
    assert printed.stdout == b"".join(lines[record["line"] - 1] + b"\n" for record in objects(aside.read_bytes()))

    # Read again, the same records fail for the same reasons, and nothing is audited.
    result = run(*AUDIT, "--from", "ndjson", "--set-aside", again, input=printed.stdout)
    assert result.stdout == b""
    assert [r["reason"] for r in objects(again.read_bytes())] == [r["reason"] for r in objects(aside.read_bytes())]

    listing = run("set-aside", aside, "--list").stdout.decode().splitlines()
    assert len(listing) == len(objects(aside.read_bytes()))
    assert listing[0].startswith("standard input:")


def test_no_text_of_a_note_is_in_the_messages(tmp_path):
    lines = [line.replace(b"EXAM", b"SECRET") for line in hostile_lines(random.Random(4))]
    result = run(*AUDIT, "--from", "ndjson", "--progress", "json", input=b"\n".join(lines))
    assert b"SECRET" not in result.stderr
    assert b"they are counted, but no longer named here" in result.stderr
    assert len(result.stderr.splitlines()) < 200


def test_what_is_no_set_aside_file_is_refused(tmp_path):
    path = tmp_path / "other"
    path.write_text('{"id": 1}\nnot JSON\n{"record":"a","line":1,"offset":0,"reason":"r","base64":"*"}\n')
    result = run("set-aside", path)
    assert result.returncode == 2
    assert result.stdout == b""
    assert len(result.stderr.splitlines()) == 3
    assert run("set-aside").returncode == 2
    assert run("set-aside", tmp_path / "nowhere").returncode == 2


def test_files_that_cannot_be_read(tmp_path):
    folder = tmp_path / "notes"
    folder.mkdir()
    (folder / "a.txt").write_text("EXAM: Right knee: no swelling.")
    (folder / "b.txt").write_bytes(b"knee \xff\x00")
    (folder / "c.txt").write_bytes(b"")
    (folder / "d.txt").symlink_to("nowhere")
    aside = tmp_path / "aside"
    result = run(*AUDIT, folder, "--set-aside", aside)
    assert result.returncode == 2
    assert b"4 read, 1 audited, 3 set aside" in result.stderr
    kept = objects(aside.read_bytes())
    assert [record["record"] for record in kept] == [str(folder / name) for name in ("b.txt", "c.txt", "d.txt")]
    assert bytes_of(kept[0]) == b"knee \xff\x00"
    assert kept[1]["bytes"] == ""
    assert kept[2]["bytes"] is None
    assert "No such file" in kept[2]["reason"]


def test_records_too_long_to_be_held_are_set_aside_whole(tmp_path):
    long = b'{"id":"long","text":"' + b"knee " * 14_000_000 + b'"}'
    good = notes(seed=1, count=2)
    for ending in (b"\n", b"\r\n", b""):
        path = tmp_path / "notes.ndjson"
        path.write_bytes(good[0] + b"\n" + long + ending + (good[1] if ending else b""))
        aside = tmp_path / "aside"
        result = run(*AUDIT, path, "--set-aside", aside)
        assert result.returncode == 2
        (kept,) = objects(aside.read_bytes())
        assert kept["line"] == 2
        assert "longer than 64 MiB" in kept["reason"]
        assert bytes_of(kept) == long
        assert len(objects(result.stdout)) == (2 if ending else 1)


def test_from_a_pipe_only_their_place_is_left(tmp_path):
    aside = tmp_path / "aside"
    result = run(*AUDIT, "--from", "ndjson", "--set-aside", aside, input=b"x" * 70_000_000 + b"\n")
    assert b"1 read, 0 audited, 1 set aside" in result.stderr
    (kept,) = objects(aside.read_bytes())
    assert kept["bytes"] is None
    assert kept["line"] == 1
