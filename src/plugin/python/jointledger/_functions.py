"""The functions of an engine with the words and rules that came with the module."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import Any, Literal, overload

from jointledger._engine import Engine, Note
from jointledger._errors import NoteError
from jointledger._profiles import Profile
from jointledger._results import Audit, Ledger


@cache
def default_engine() -> Engine:
    """The engine with the words and rules that came with the module. Loaded at its first use, once a process."""
    return Engine()


def profiles() -> tuple[Profile, ...]:
    """The profiles that came with the module."""
    return default_engine().profiles


def read(text: str | bytes, *, id: str = "-") -> Ledger:
    """The ledger of one note. Raises NoteError if it cannot be read."""
    return default_engine().read(text, id=id)


def audit(text: str | bytes, profile: str = "screening", *, id: str = "-", least_certainty: float = 0.0) -> Audit:
    """The note held against a profile. Entries less certain than `least_certainty` earn nothing.

    Raises NoteError if the note cannot be read, ProfileError if there is no such profile.
    """
    return default_engine().audit(text, profile, id=id, least_certainty=least_certainty)


@overload
def read_all(
    notes: Iterable[Note], *, errors: Literal["raise"] = "raise", threads: int | None = None
) -> Iterator[Ledger]: ...
@overload
def read_all(
    notes: Iterable[Note], *, errors: Literal["return"], threads: int | None = None
) -> Iterator[Ledger | NoteError]: ...
def read_all(
    notes: Iterable[Note], *, errors: Literal["raise", "return"] = "raise", threads: int | None = None
) -> Iterator[Ledger | NoteError]:
    """The ledgers of many notes, in their order, as they are asked for.

    A note is its text or a pair of id and text; without an id it has its number as one, counted from 0. `notes` may be
    endless: some thousand are taken at a time. `errors="return"` gives a NoteError in the place of a note that cannot
    be read, and goes on. `threads` are as many as there are processors.
    """
    return default_engine().read_all(notes, errors=errors, threads=threads)


@overload
def audit_all(
    notes: Iterable[Note],
    profile: str = "screening",
    *,
    least_certainty: float = 0.0,
    errors: Literal["raise"] = "raise",
    threads: int | None = None,
) -> Iterator[Audit]: ...
@overload
def audit_all(
    notes: Iterable[Note],
    profile: str = "screening",
    *,
    least_certainty: float = 0.0,
    errors: Literal["return"],
    threads: int | None = None,
) -> Iterator[Audit | NoteError]: ...
def audit_all(
    notes: Iterable[Note],
    profile: str = "screening",
    *,
    least_certainty: float = 0.0,
    errors: Literal["raise", "return"] = "raise",
    threads: int | None = None,
) -> Iterator[Audit | NoteError]:
    """The audits of many notes, as read_all(). Notes are not compared with each other for copied exams."""
    return default_engine().audit_all(notes, profile, least_certainty=least_certainty, errors=errors, threads=threads)


def entries(notes: Any, *, text: str = "text", keep: Sequence[str] = ("id",), threads: int | None = None) -> Any:
    """A row for each entry of each note of a DataFrame; see Engine.entries."""
    return default_engine().entries(notes, text=text, keep=keep, threads=threads)


def gaps(
    notes: Any,
    profile: str = "screening",
    *,
    text: str = "text",
    keep: Sequence[str] = ("id",),
    least_certainty: float = 0.0,
    threads: int | None = None,
) -> Any:
    """A row for each gap of each note of a DataFrame; see Engine.gaps."""
    return default_engine().gaps(
        notes, profile, text=text, keep=keep, least_certainty=least_certainty, threads=threads
    )
