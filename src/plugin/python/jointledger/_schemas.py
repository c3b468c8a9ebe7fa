"""The tables of entries and gaps: their columns and Arrow types, which Spark can take, too.

Members are named as in the JSON (fixtures/schema/). The columns that the caller keeps of the notes come before these.
"""

from __future__ import annotations

import pyarrow as pa

_STRINGS = pa.list_(pa.string())
_SPAN = pa.struct([("start", pa.int32()), ("end", pa.int32())])
_DEGREES = pa.struct(
    [
        ("motion", pa.string()),
        ("side", pa.string()),
        ("from", pa.int32()),
        ("to", pa.int32()),
        ("lacking", pa.bool_()),
        ("evidence", _SPAN),
    ]
)
_GRADE = pa.struct([("value", pa.string()), ("scale", pa.int32()), ("side", pa.string()), ("evidence", _SPAN)])

ENTRIES: pa.Schema = pa.schema(
    [
        ("region", pa.string()),
        ("component", pa.string()),
        ("side", pa.string()),
        ("outcome", pa.string()),
        ("motions", _STRINGS),
        ("degrees", pa.list_(_DEGREES)),
        ("grade", pa.list_(_GRADE)),
        ("structures", _STRINGS),
        ("tests", _STRINGS),
        ("certainty", pa.float64()),
        ("evidence", pa.list_(_SPAN)),
        ("error", pa.string()),
    ]
)

GAPS: pa.Schema = pa.schema(
    [
        ("profile", pa.string()),
        ("score", pa.float64()),
        ("expectation", pa.string()),
        ("kind", pa.string()),
        ("region", pa.string()),
        ("side", pa.string()),
        ("components", _STRINGS),
        ("motions", _STRINGS),
        ("structures", _STRINGS),
        ("reason", pa.string()),
        ("nearest", pa.list_(_SPAN)),
        ("credit", pa.float64()),
        ("prompt", pa.string()),
        ("error", pa.string()),
    ]
)
