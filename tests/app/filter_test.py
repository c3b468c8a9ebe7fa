"""The program as a filter between two pipes: an answer to every line, at once; slow readers; readers that leave."""

import os
import random
import select
import subprocess
import time

import pytest
from program import AUDIT, PROGRAM, notes, objects, run

FILTER = [PROGRAM, *AUDIT, "--from", "ndjson"]
#: Only how long a test waits before it fails: a sanitizer on a busy machine is slow.
PATIENCE = 60


def read_line(descriptor, buffer):
    deadline = time.monotonic() + PATIENCE
    while b"\n" not in buffer:
        ready, _, _ = select.select([descriptor], [], [], max(0.0, deadline - time.monotonic()))
        assert ready, "no answer, though no more input waits"
        buffer += os.read(descriptor, 65536)
    line, _, rest = bytes(buffer).partition(b"\n")
    buffer[:] = rest
    return line


@pytest.mark.parametrize("threads", ["1", "4"])
def test_each_line_is_answered_while_the_next_is_not_there_yet(threads):
    with subprocess.Popen(
        [*FILTER, "--threads", threads], stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=0
    ) as process:
        buffer = bytearray()
        for number, line in enumerate(notes(seed=2, count=30)):
            # In two pieces: half a line is no reason to answer, and none to wait once the rest is there.
            process.stdin.write(line[:100])
            process.stdin.write(line[100:] + b"\n")
            answer = read_line(process.stdout.fileno(), buffer)
            assert objects(answer)[0]["id"] == f"n{number}"
        process.stdin.close()
        assert process.wait(PATIENCE) in (0, 1)


def test_lines_that_trickle_give_the_same_bytes():
    lines = notes(seed=3, count=200)
    rng = random.Random(3)
    with subprocess.Popen(FILTER, stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=0) as process:
        feeder = os.fork()
        if feeder == 0:
            process.stdout.close()
            for line in lines:
                process.stdin.write(line + b"\n")
                time.sleep(rng.choice([0, 0, 0, 0.002, 0.01]))
            os._exit(0)
        process.stdin.close()
        trickled = process.stdout.read()
        os.waitpid(feeder, 0)
    assert trickled == run(*AUDIT, "--from", "ndjson", input=b"\n".join(lines)).stdout


def test_bad_lines_are_kept_as_they_come(tmp_path):
    aside = tmp_path / "aside"
    with subprocess.Popen(
        [*FILTER, "--set-aside", aside], stdin=subprocess.PIPE, stderr=subprocess.DEVNULL, bufsize=0
    ) as process:
        process.stdin.write(b"not JSON\n")
        deadline = time.monotonic() + PATIENCE
        while not (aside.exists() and aside.read_bytes().endswith(b"\n")) and time.monotonic() < deadline:
            time.sleep(0.01)
        # Whoever kills the filter finds them.
        process.kill()
    assert objects(aside.read_bytes())[0]["bytes"] == "not JSON"


def test_a_slow_reader_holds_up_the_reading():
    block = b"\n".join(notes(seed=4, count=200)) + b"\n"
    most = 64_000_000
    with subprocess.Popen(FILTER, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        os.set_blocking(process.stdin.fileno(), False)
        taken = 0
        idle_since = time.monotonic()
        # It has stopped taking lines once nothing was taken for a while.
        while time.monotonic() - idle_since < 3 and taken < most:
            _, ready, _ = select.select([], [process.stdin], [], 0.2)
            if ready:
                taken += os.write(process.stdin.fileno(), block)
                idle_since = time.monotonic()
        assert taken < most, "it takes whatever comes, though nobody reads its output"
        process.kill()


@pytest.mark.parametrize("more_comes", [False, True])
def test_a_reader_that_leaves_ends_it_with_an_error(more_comes):
    lines = b"\n".join(notes(seed=6, count=500)) + b"\n"
    with subprocess.Popen(FILTER, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        process.stdout.close()
        try:
            process.stdin.write(lines)
            process.stdin.flush()
            if not more_comes:
                process.stdin.close()
        except BrokenPipeError:
            pass
        # With the standard input still open it must end as well.
        assert process.wait(PATIENCE) == 3
        assert b"cannot write the output: Broken pipe" in process.stderr.read()


def test_the_number_of_threads_makes_no_difference(tmp_path):
    path = tmp_path / "notes.ndjson"
    path.write_bytes(b"\n".join(notes(seed=7, count=1500)))
    one = run(*AUDIT, path, "--threads", 1)
    assert b'"copied-exam"' in one.stdout
    for threads in (2, 3, 8):
        assert run(*AUDIT, path, "--threads", threads).stdout == one.stdout
    assert [audit["id"] for audit in objects(one.stdout)] == [f"n{number}" for number in range(1500)]
    for bad in ("0", "-1", "x", "100000"):
        assert run(*AUDIT, path, "--threads", bad).returncode == 2
