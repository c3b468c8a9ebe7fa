"""What a run says of itself: a line on a terminal, nothing in a pipe, JSON for a scheduler, a summary at the end."""

import json
import os
import pty
import re
import subprocess
import time

from program import AUDIT, PROGRAM, notes, run

ENVIRONMENT = {"PATH": "/usr/bin:/bin", "TERM": "xterm"}


def on_terminal(words, lines, environment=None):
    """What is written to the terminal that is the standard error, while the lines come slowly."""
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [PROGRAM, *map(str, words)],
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=theirs,
        env=environment or ENVIRONMENT,
    ) as process:
        os.close(theirs)
        for line in lines:
            process.stdin.write(line + b"\n")
            process.stdin.flush()
            time.sleep(0.02)
        process.stdin.close()
        text = b""
        try:
            while piece := os.read(ours, 65536):
                text += piece
        except OSError:
            pass  # so a terminal ends
        os.close(ours)
    return text.decode()


def test_a_line_on_a_terminal_is_rewritten_and_taken_away():
    lines = [*notes(seed=1, count=40), b"not JSON"]
    text = on_terminal([*AUDIT, "--from", "ndjson"], lines)
    assert re.search(r"\r\x1b\[K\d+ notes, \d+\.\d MB/s, \d+ % with gaps", text), text
    # Nothing stands before a message on its line, and the summary is the last that is seen.
    assert "\r\x1b[Kjointledger: error: standard input:41" in text, text
    assert text.rstrip().splitlines()[-1].endswith("41 read, 40 audited, 1 set aside"), text


def test_nothing_on_terminals_that_cannot_rewrite_or_when_not_wanted():
    lines = notes(seed=1, count=40)
    words = [*AUDIT, "--from", "ndjson"]
    for text in (
        on_terminal(words, lines, ENVIRONMENT | {"TERM": "dumb"}),
        on_terminal([*words, "--progress", "none"], lines),
    ):
        assert "MB/s" not in text
        assert "40 read, 40 audited, 0 set aside" in text


def test_silent_in_a_pipe_but_for_the_summary(tmp_path):
    path = tmp_path / "notes.ndjson"
    path.write_bytes(b"\n".join(notes(seed=1, count=300)))
    result = run(*AUDIT, path)
    assert result.stderr == b"jointledger: info: 300 read, 300 audited, 0 set aside\n"
    assert run("read", path, "--to", "ndjson").stderr == b"jointledger: info: 300 read, 300 written, 0 set aside\n"


def test_json_for_a_scheduler():
    lines = [*notes(seed=1, count=30), b"not JSON"]
    with subprocess.Popen(
        [PROGRAM, *AUDIT, "--from", "ndjson", "--progress", "json"],
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    ) as process:
        for line in lines:
            process.stdin.write(line + b"\n")
        process.stdin.flush()
        # It is told that the run lives while nothing comes in.
        first = json.loads(next(line for line in process.stderr if line.startswith(b"{")))
        second = json.loads(next(line for line in process.stderr if line.startswith(b"{")))
        process.stdin.close()
        rest = process.stderr.read()
    assert first["event"] == second["event"] == "progress"
    assert second["seconds"] > first["seconds"] > 0
    assert second["read"] == 31
    end = json.loads([line for line in rest.splitlines() if line.startswith(b"{")][-1])
    assert {key: end[key] for key in ("event", "read", "audited", "set_aside", "status")} == {
        "event": "end", "read": 31, "audited": 30, "set_aside": 1, "status": 2,
    }  # fmt: skip
    assert end["bytes"] == sum(map(len, lines))
    assert process.returncode == 2


def test_unknown_kinds_are_refused():
    result = run(*AUDIT, "--progress", "jsn", input=b"x")
    assert result.returncode == 2
    assert b"did you mean 'json'?" in result.stderr
