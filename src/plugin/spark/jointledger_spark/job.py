"""A whole job: notes as Parquet in, entries or gaps as Parquet out.

    spark-submit --master ... $(python -c "import jointledger_spark.job as j; print(j.__file__)") gaps notes/ gaps/
    jointledger-spark gaps notes/ gaps/ --profile complaint      # with the Spark of the environment
"""

from __future__ import annotations

import argparse

from pyspark.sql import SparkSession

import jointledger_spark


def main(arguments: list[str] | None = None) -> None:
    """Runs the job and ends when all is written. `arguments` None: those of the process."""
    options = argparse.ArgumentParser(
        prog="jointledger-spark",
        description="Reads joint exam notes and writes what they document (entries) or what they lack (gaps).",
        epilog="It audits documentation, not care, and makes no diagnosis.",
    )
    options.add_argument("what", choices=["entries", "gaps"])
    options.add_argument("notes", help="folder of Parquet files, a row a note")
    options.add_argument("out", help="folder to write to, as Parquet; it must not be there")
    options.add_argument("--profile", default="screening", help="of gaps (%(default)s)")
    options.add_argument("--certainty", type=float, default=0.0, help="entries less certain earn nothing (%(default)s)")
    options.add_argument("--text", default="text", help="column of the texts (%(default)s)")
    options.add_argument("--keep", default="id", help="columns that go along, with commas between (%(default)s)")
    options.add_argument("--lexicon", action="append", default=[], help="folder of a site's own words, on all workers")
    options.add_argument("--rules", action="append", default=[], help="folder of a site's own rules, on all workers")
    chosen = options.parse_args(arguments)

    spark = SparkSession.builder.appName("jointledger").getOrCreate()
    notes = spark.read.parquet(chosen.notes)
    keep = [name for name in chosen.keep.split(",") if name]
    if chosen.what == "entries":
        table = jointledger_spark.entries(
            notes, text=chosen.text, keep=keep, lexicon=chosen.lexicon, rules=chosen.rules
        )
    else:
        table = jointledger_spark.gaps(
            notes,
            chosen.profile,
            text=chosen.text,
            keep=keep,
            least_certainty=chosen.certainty,
            lexicon=chosen.lexicon,
            rules=chosen.rules,
        )
    table.write.parquet(chosen.out)


if __name__ == "__main__":
    main()
