"""What runs in the Python workers of Spark."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache

import jointledger
import pyarrow as pa

Batches = Callable[[Iterator[pa.RecordBatch]], Iterator[pa.RecordBatch]]
Folders = tuple[str, ...]


@cache
def engine(lexicon: Folders, rules: Folders) -> jointledger.Engine:
    """Words and rules, loaded once a process."""
    return jointledger.Engine(lexicon=lexicon, rules=rules)


def entries_of(text: str, keep: list[str], lexicon: Folders, rules: Folders) -> Batches:
    """For mapInArrow: batches of notes to batches of entries."""

    def work(batches: Iterator[pa.RecordBatch]) -> Iterator[pa.RecordBatch]:
        for batch in batches:
            notes = pa.Table.from_batches([batch])
            table: pa.Table = engine(lexicon, rules).entries(notes, text=text, keep=keep, threads=1)
            yield from table.to_batches()

    return work


def gaps_of(
    profile: str, text: str, keep: list[str], least_certainty: float, lexicon: Folders, rules: Folders
) -> Batches:
    """For mapInArrow: batches of notes to batches of gaps."""

    def work(batches: Iterator[pa.RecordBatch]) -> Iterator[pa.RecordBatch]:
        for batch in batches:
            notes = pa.Table.from_batches([batch])
            table: pa.Table = engine(lexicon, rules).gaps(
                notes, profile, text=text, keep=keep, least_certainty=least_certainty, threads=1
            )
            yield from table.to_batches()

    return work
