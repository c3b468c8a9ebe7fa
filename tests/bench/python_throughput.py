"""Notes per second of the Python module, as a share of those of the command line on the same processors.

On a machine that does other things, too, look at the processor time: the wall clock then tells who had more threads.

    PYTHONPATH=build/release/tests/plugin/python/site build/python/bin/python tests/bench/python_throughput.py
"""

import argparse
import json
import os
import pathlib
import statistics
import subprocess
import tempfile
import time

import jointledger
import pyarrow

SOURCE = pathlib.Path(__file__).parents[2]


def seconds(work):
    """By the clock, and of the processors, of this process and those that it waited for."""
    clock, before = time.perf_counter(), os.times()
    work()
    return time.perf_counter() - clock, sum(os.times()[:4]) - sum(before[:4])


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--program", default=SOURCE / "build/release/jointledger")
    options.add_argument("--notes", type=int, default=20_000, help="the demo notes, over and over (%(default)s)")
    options.add_argument("--rounds", type=int, default=5, help="the median of these is told (%(default)s)")
    chosen = options.parse_args()

    lines = (SOURCE / "fixtures/notes.ndjson").read_text(encoding="utf-8").splitlines()
    demo = [json.loads(line)["text"] for line in lines]
    notes = [(str(n), demo[n % len(demo)]) for n in range(chosen.notes)]
    table = pyarrow.table({"id": [id for id, _ in notes], "text": [text for _, text in notes]})
    jointledger.default_engine()

    with tempfile.NamedTemporaryFile("w", suffix=".ndjson", encoding="utf-8") as file:
        for id, text in notes:
            file.write(json.dumps({"id": id, "text": text}) + "\n")
        file.flush()
        command = [str(chosen.program), "audit", file.name, "--profile", "screening", "--to", "ndjson", "-o"]

        def by_program():
            with tempfile.TemporaryDirectory() as folder:
                subprocess.run([*command, f"{folder}/out"], stderr=subprocess.DEVNULL, check=False)

        def by_list():
            for _ in jointledger.audit_all(notes):
                pass

        def by_table():
            jointledger.gaps(table)

        works = {"command line": by_program, "list": by_list, "table of gaps": by_table}
        # By turns, so that what else the machine does falls on all alike.
        taken = {name: [] for name in works}
        for _ in range(chosen.rounds):
            for name, work in works.items():
                taken[name].append(seconds(work))
    print(f"{chosen.notes} notes, {len(os.sched_getaffinity(0))} processors, medians of {chosen.rounds} rounds")
    program = taken["command line"]
    for name, times in taken.items():
        clock, processor = (statistics.median(a[n] / b[n] for a, b in zip(program, times, strict=True)) for n in (0, 1))
        speed = chosen.notes / statistics.median(time for time, _ in times)
        print(f"{name:14} {speed:8.0f} notes/s   ratio by the clock {clock:.2f}, by processor time {processor:.2f}")


if __name__ == "__main__":
    main()
