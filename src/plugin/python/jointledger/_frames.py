"""From a DataFrame of notes to one of entries or gaps, by Arrow: no Python runs for a single note."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import Any

import pyarrow as pa

# (length, buffers, children), as _core lays a column out
Layout = tuple[int, list[bytes | None], list[Any]]
Blocks = list[list[Layout]]
# (validity, offsets, data, first row, number of rows) -> blocks of columns, the first of which numbers the rows
Work = Callable[[Any, Any, Any, int, int], Blocks]

_TEXTS = {pa.binary(): pa.large_binary(), pa.large_binary(): pa.large_binary(), pa.binary_view(): pa.large_binary()}


def of_notes(notes: Any, text: str, keep: Sequence[str], schema: pa.Schema, work: Work) -> Any:
    """The table of `schema`, with the columns `keep` of the notes before it, in the library that `notes` is of."""
    names = list(dict.fromkeys([*keep, text]))
    if clashes := [name for name in keep if name in schema.names]:
        raise ValueError(f"column {clashes[0]!r} would stand twice in the result; rename it")
    table, back = _as_arrow(notes, names)
    texts = table.column(text)
    wanted = _TEXTS.get(texts.type, pa.large_string())
    if not _is_text(texts.type):
        raise TypeError(f"column {text!r} is of type {texts.type}, and should hold texts")
    kept = table.select(list(keep))
    array = texts.cast(wanted).combine_chunks()
    if isinstance(array, pa.ChunkedArray):  # so it was of pyarrow, for no chunk or for several
        array = pa.concat_arrays(array.chunks) if array.num_chunks else pa.array([], wanted)
    validity, offsets, data = array.buffers()
    blocks = work(validity, offsets, data, array.offset, len(array))

    rows_type = pa.int64()
    parts = [[_array(rows_type, block[0]), *map(_array, schema.types, block[1:])] for block in blocks]
    columns = [pa.chunked_array([part[n + 1] for part in parts], type) for n, type in enumerate(schema.types)]
    rows = pa.chunked_array([part[0] for part in parts], rows_type)
    taken = kept.take(rows)
    result = pa.table([*taken.columns, *columns], schema=pa.schema([*taken.schema, *schema]))
    return back(result)


def _is_text(type: pa.DataType) -> bool:
    value = type.value_type if pa.types.is_dictionary(type) else type
    # Arrow takes a column that holds nothing for one of nulls.
    return value in _TEXTS or value in (pa.string(), pa.large_string(), pa.string_view(), pa.null())


def _array(type: pa.DataType, layout: Layout) -> pa.Array:
    """An array over the buffers of a column."""
    length, buffers, children = layout
    types = [type.field(n).type for n in range(type.num_fields)]
    return pa.Array.from_buffers(
        type,
        length,
        [None if buffer is None else pa.py_buffer(buffer) for buffer in buffers],
        children=[_array(child, inner) for child, inner in zip(types, children, strict=True)],
    )


def _as_arrow(notes: Any, names: list[str]) -> tuple[pa.Table, Callable[[pa.Table], Any]]:
    """The columns as a table, and what turns a table into what the caller works with."""
    if isinstance(notes, pa.RecordBatch):
        return pa.table([notes.column(name) for name in names], names=names), _one_batch
    if isinstance(notes, pa.Table):
        return notes.select(names), lambda table: table
    # A library that is not imported has made no frame.
    pandas, polars = sys.modules.get("pandas"), sys.modules.get("polars")
    if pandas is not None and isinstance(notes, pandas.DataFrame):
        return pa.Table.from_pandas(notes[names], preserve_index=False), lambda table: table.to_pandas()
    if polars is not None and isinstance(notes, polars.DataFrame):
        return notes.select(names).to_arrow(), polars.from_arrow
    if hasattr(notes, "__arrow_c_stream__"):
        return pa.table(notes).select(names), lambda table: table
    raise TypeError("the notes are no DataFrame of pandas or polars and no table of Arrow")


def _one_batch(table: pa.Table) -> pa.RecordBatch:
    batches = table.combine_chunks().to_batches()
    if len(batches) > 1:
        raise OverflowError("the result is too large for one record batch; give fewer notes at a time")
    return batches[0] if batches else pa.RecordBatch.from_pylist([], schema=table.schema)
