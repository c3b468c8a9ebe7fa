"""Jointledger on Apache Spark: from a DataFrame of notes to one of entries or gaps.

    import jointledger_spark

    notes = spark.read.parquet("notes/")
    jointledger_spark.gaps(notes, "screening").write.parquet("gaps/")

The work is done where the partitions are, by Arrow batches, on one thread a task; words and rules are loaded once in
each Python worker process. Both packages, jointledger and jointledger_spark, must be installed on the workers.
"""

from jointledger_spark._functions import entries, gaps
from jointledger_spark._schemas import ENTRIES, GAPS

__all__ = ["ENTRIES", "GAPS", "entries", "gaps"]
