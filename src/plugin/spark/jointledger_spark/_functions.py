"""From a Spark DataFrame of notes to one of entries or gaps."""

from __future__ import annotations

from collections.abc import Sequence

import jointledger
from pyspark.sql import DataFrame
from pyspark.sql.types import BinaryType, StringType, StructType

from jointledger_spark import _worker
from jointledger_spark._schemas import ENTRIES, GAPS


def entries(
    notes: DataFrame,
    *,
    text: str = "text",
    keep: Sequence[str] = ("id",),
    lexicon: Sequence[str] = (),
    rules: Sequence[str] = (),
) -> DataFrame:
    """A row for each entry of each note: the columns `keep` of the note, then those of ENTRIES.

    `text` names the column of the texts (strings, or UTF-8 as binary). A note that cannot be read has one row, with the
    reason in the column `error`, which is null elsewhere; no task fails for it. `lexicon` and `rules` are folders of a
    site's own, as of jointledger.Engine, at the same path on the driver and all workers.

    Raises ValueError for columns that do not fit, jointledger.DataError for faults of words or rules.
    """
    _worker.engine(tuple(lexicon), tuple(rules))  # what is wrong with them is told here, not in every task
    chosen, schema = _prepared(notes, text, keep, ENTRIES)
    return chosen.mapInArrow(_worker.entries_of(text, list(keep), tuple(lexicon), tuple(rules)), schema)


def gaps(
    notes: DataFrame,
    profile: str = "screening",
    *,
    text: str = "text",
    keep: Sequence[str] = ("id",),
    least_certainty: float = 0.0,
    lexicon: Sequence[str] = (),
    rules: Sequence[str] = (),
) -> DataFrame:
    """A row for each gap of each note, as entries(). A note that lacks nothing has no row.

    Entries less certain than `least_certainty` earn nothing. Further raises jointledger.ProfileError.
    """
    names = [known.name for known in _worker.engine(tuple(lexicon), tuple(rules)).profiles]
    if profile not in names:
        raise jointledger.ProfileError(f"no profile {profile!r} (there are: {', '.join(names)})")
    if not 0 <= least_certainty <= 1:
        raise ValueError(f"least_certainty is {least_certainty}, and should be from 0 to 1")
    chosen, schema = _prepared(notes, text, keep, GAPS)
    work = _worker.gaps_of(profile, text, list(keep), least_certainty, tuple(lexicon), tuple(rules))
    return chosen.mapInArrow(work, schema)


def _prepared(
    notes: DataFrame, text: str, keep: Sequence[str], columns: StructType
) -> tuple[DataFrame, StructType]:
    """The columns that the workers need, and the schema of what they make of them."""
    for name in [text, *keep]:
        if name not in notes.columns:
            raise ValueError(f"there is no column {name!r} (there are: {', '.join(notes.columns)})")
    if not isinstance(notes.schema[text].dataType, (StringType, BinaryType)):
        raise ValueError(f"column {text!r} is of type {notes.schema[text].dataType.simpleString()}, and holds no texts")
    schema = StructType()
    for name in keep:
        if name in columns.names:
            raise ValueError(f"column {name!r} would stand twice in the result; rename it")
        schema.add(notes.schema[name])
    for field in columns.fields:
        schema.add(field)
    return notes.select([f"`{name}`" for name in dict.fromkeys([*keep, text])]), schema
