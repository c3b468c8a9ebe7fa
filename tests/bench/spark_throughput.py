"""Notes per second on a cluster of Spark with one worker and with two, of a core each, and what a million notes cost.

    site=build/release/tests/plugin
    PYTHONPATH=$site/python/site:$site/spark/site build/python/bin/python tests/bench/spark_throughput.py
"""

import argparse
import json
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

import pyarrow as pa
import pyarrow.dataset

SOURCE = pathlib.Path(__file__).parents[2]
FILES = 16


def write_notes(folder, count):
    """The demo notes, over and over, as files of equal size."""
    lines = (SOURCE / "fixtures/notes.ndjson").read_text(encoding="utf-8").splitlines()
    demo = [json.loads(line)["text"] for line in lines]
    table = pa.table({"id": list(range(count)), "text": [demo[n % len(demo)] for n in range(count)]})
    size = -(-count // FILES)
    pyarrow.dataset.write_dataset(
        table, folder, format="parquet", max_rows_per_file=size, max_rows_per_group=size, min_rows_per_group=1
    )


def run(workers, folder, rounds):
    """Prints how many seconds each round took, in a process of its own: a session has one cluster."""
    sys.path.insert(0, str(SOURCE / "tests/plugin/spark"))
    import cluster
    import jointledger_spark

    spark = cluster.started(workers)
    gaps = jointledger_spark.gaps(spark.read.parquet(folder), "screening")
    gaps.write.format("noop").mode("overwrite").save()  # all processes are up, words and rules loaded
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        gaps.write.format("noop").mode("overwrite").save()
        taken.append(time.perf_counter() - start)
    spark.stop()
    print(json.dumps(taken))


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--notes", type=int, default=40_000)
    options.add_argument("--rounds", type=int, default=3, help="the median of these is told (%(default)s)")
    options.add_argument("--price", type=float, default=0.05, help="of a core for an hour (%(default)s)")
    options.add_argument("--run", nargs=2, help=argparse.SUPPRESS)
    chosen = options.parse_args()
    if chosen.run:
        run(int(chosen.run[0]), chosen.run[1], chosen.rounds)
        return
    with tempfile.TemporaryDirectory() as folder:
        write_notes(folder, chosen.notes)
        for workers in (1, 2):
            command = [sys.executable, __file__, "--rounds", str(chosen.rounds), "--run", str(workers), folder]
            done = subprocess.run(command, capture_output=True, text=True, check=False)
            if done.returncode != 0:
                sys.exit(done.stderr)
            speed = chosen.notes / statistics.median(json.loads(done.stdout.splitlines()[-1]))
            hours = workers * 1_000_000 / speed / 3600
            print(
                f"{workers} worker(s): {speed:.0f} notes/s; a million notes: {hours:.2f} core hours, "
                f"{hours * chosen.price:.3f} at {chosen.price} a core hour",
                flush=True,
            )


if __name__ == "__main__":
    main()
