"""The columns of entries and gaps, as Spark declares them; those of jointledger, in the same order."""

from pyspark.sql.types import (
    ArrayType,
    BooleanType,
    DataType,
    DoubleType,
    IntegerType,
    StringType,
    StructType,
)

_STRINGS = ArrayType(StringType())


def _struct(**columns: DataType) -> StructType:
    struct = StructType()
    for name, type in columns.items():
        struct.add(name, type)
    return struct


_SPAN = _struct(start=IntegerType(), end=IntegerType())
_DEGREES = _struct(
    **{
        "motion": StringType(),
        "side": StringType(),
        "from": IntegerType(),
        "to": IntegerType(),
        "lacking": BooleanType(),
        "evidence": _SPAN,
    }
)
_GRADE = _struct(value=StringType(), scale=IntegerType(), side=StringType(), evidence=_SPAN)

ENTRIES = _struct(
    region=StringType(),
    component=StringType(),
    side=StringType(),
    outcome=StringType(),
    motions=_STRINGS,
    degrees=ArrayType(_DEGREES),
    grade=ArrayType(_GRADE),
    structures=_STRINGS,
    tests=_STRINGS,
    certainty=DoubleType(),
    evidence=ArrayType(_SPAN),
    error=StringType(),
)
"""A row an entry. `error` says why a note could not be read, and is null elsewhere."""

GAPS = _struct(
    profile=StringType(),
    score=DoubleType(),
    expectation=StringType(),
    kind=StringType(),
    region=StringType(),
    side=StringType(),
    components=_STRINGS,
    motions=_STRINGS,
    structures=_STRINGS,
    reason=StringType(),
    nearest=ArrayType(_SPAN),
    credit=DoubleType(),
    prompt=StringType(),
    error=StringType(),
)
"""A row a gap. `error` likewise."""
