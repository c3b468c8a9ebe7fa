"""Words and rules, and what is read and audited with them."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, Literal, TypeVar, overload

from jointledger import _core
from jointledger._errors import DataError, NoteError, ProfileError
from jointledger._profiles import Expectation, Profile
from jointledger._results import Audit, Ledger

Note = str | bytes | tuple[str, str | bytes]
"""The text of a note (bytes are UTF-8), or a pair of its id and the text."""
Path = str | os.PathLike[str]
Result = TypeVar("Result", Ledger, Audit)

# Notes are worked on in groups: so many that all threads have their share, and no more bytes than that.
_GROUP_NOTES = 2048
_GROUP_SIZE = 16 << 20


class Engine:
    """The words (lexicon) and the rules (profiles), loaded and checked. May be used by all threads at once.

    `lexicon` and `rules` are folders of a site's own tables and profiles, laid over what came with the module; of
    several the last one wins. With `own_lexicon_only` or `own_rules_only` they stand alone. `data` is the folder that
    holds lexicon/ and rules/ instead of the module's own (or JOINTLEDGER_DATA in the environment).

    Raises DataError if anything is wrong with a table or profile.
    """

    def __init__(
        self,
        *,
        lexicon: Sequence[Path] = (),
        rules: Sequence[Path] = (),
        own_lexicon_only: bool = False,
        own_rules_only: bool = False,
        data: Path | None = None,
    ) -> None:
        opened = _core.open_engine(
            "" if data is None else os.fspath(data),
            [os.fspath(folder) for folder in lexicon],
            [os.fspath(folder) for folder in rules],
            own_lexicon_only,
            own_rules_only,
        )
        if isinstance(opened, _core.Failure):
            if opened.code == _core.NO_MEMORY:
                raise MemoryError(opened.message)
            raise DataError(opened.message.strip())
        self._core = opened
        self._profiles = tuple(
            Profile(**{**profile, "expectations": tuple(Expectation(**e) for e in profile["expectations"])})
            for profile in opened.profiles()
        )

    @property
    def warnings(self) -> tuple[str, ...]:
        """Rows of the tables that have no effect."""
        return tuple(self._core.warnings.splitlines())

    @property
    def profiles(self) -> tuple[Profile, ...]:
        """All profiles, sorted by name."""
        return self._profiles

    def read(self, text: str | bytes, *, id: str = "-") -> Ledger:
        """The ledger of one note. Raises NoteError if it cannot be read."""
        return _made(Ledger, self._core.ledgers((text,), [id], 1)[0], id)

    def audit(
        self, text: str | bytes, profile: str = "screening", *, id: str = "-", least_certainty: float = 0.0
    ) -> Audit:
        """The note held against a profile. Entries less certain than `least_certainty` earn nothing.

        Raises NoteError if the note cannot be read, ProfileError if there is no such profile.
        """
        self._check(profile, least_certainty)
        return _made(Audit, self._core.audits((text,), [id], profile, least_certainty, 1)[0], id)

    @overload
    def read_all(
        self, notes: Iterable[Note], *, errors: Literal["raise"] = "raise", threads: int | None = None
    ) -> Iterator[Ledger]: ...
    @overload
    def read_all(
        self, notes: Iterable[Note], *, errors: Literal["return"], threads: int | None = None
    ) -> Iterator[Ledger | NoteError]: ...
    def read_all(
        self, notes: Iterable[Note], *, errors: Literal["raise", "return"] = "raise", threads: int | None = None
    ) -> Iterator[Ledger | NoteError]:
        """The ledgers of many notes, in their order, as they are asked for.

        A note without an id has its number as one, counted from 0. `notes` may be endless: some thousand are taken at a
        time. `errors="return"` gives a NoteError in the place of a note that cannot be read, and goes on. `threads` are
        as many as there are processors.
        """
        count = _threads(threads)
        return _all(Ledger, notes, errors, lambda texts, ids: self._core.ledgers(texts, ids, count))

    @overload
    def audit_all(
        self,
        notes: Iterable[Note],
        profile: str = "screening",
        *,
        least_certainty: float = 0.0,
        errors: Literal["raise"] = "raise",
        threads: int | None = None,
    ) -> Iterator[Audit]: ...
    @overload
    def audit_all(
        self,
        notes: Iterable[Note],
        profile: str = "screening",
        *,
        least_certainty: float = 0.0,
        errors: Literal["return"],
        threads: int | None = None,
    ) -> Iterator[Audit | NoteError]: ...
    def audit_all(
        self,
        notes: Iterable[Note],
        profile: str = "screening",
        *,
        least_certainty: float = 0.0,
        errors: Literal["raise", "return"] = "raise",
        threads: int | None = None,
    ) -> Iterator[Audit | NoteError]:
        """The audits of many notes, as read_all(). Notes are not compared with each other for copied exams."""
        self._check(profile, least_certainty)
        count = _threads(threads)
        return _all(
            Audit, notes, errors, lambda texts, ids: self._core.audits(texts, ids, profile, least_certainty, count)
        )

    def entries(
        self, notes: Any, *, text: str = "text", keep: Sequence[str] = ("id",), threads: int | None = None
    ) -> Any:
        """A row for each entry of each note, from a DataFrame of notes.

        `notes` is a DataFrame of pandas or polars, or a Table or RecordBatch of pyarrow, and the result is of the same
        kind; anything else that hands out an Arrow stream gives a Table. `text` names the column of the texts, `keep`
        those that are repeated on the rows of each note. A note that cannot be read has one row, with the reason in the
        column `error`, which is null elsewhere.
        """
        from jointledger import _frames, _schemas

        def work(*texts: Any) -> _frames.Blocks:
            blocks: _frames.Blocks = self._core.entry_blocks(*texts, _threads(threads))
            return blocks

        return _frames.of_notes(notes, text, keep, _schemas.ENTRIES, work)

    def gaps(
        self,
        notes: Any,
        profile: str = "screening",
        *,
        text: str = "text",
        keep: Sequence[str] = ("id",),
        least_certainty: float = 0.0,
        threads: int | None = None,
    ) -> Any:
        """A row for each gap of each note, as entries(). A note that lacks nothing has no row."""
        from jointledger import _frames, _schemas

        self._check(profile, least_certainty)

        def work(*texts: Any) -> _frames.Blocks:
            blocks: _frames.Blocks = self._core.gap_blocks(*texts, profile, least_certainty, _threads(threads))
            return blocks

        return _frames.of_notes(notes, text, keep, _schemas.GAPS, work)

    def _check(self, profile: str, least_certainty: float) -> None:
        names = [known.name for known in self._profiles]
        if profile not in names:
            raise ProfileError(f"no profile {profile!r} (there are: {', '.join(names)})")
        if not 0 <= least_certainty <= 1:
            raise ValueError(f"least_certainty is {least_certainty}, and should be from 0 to 1")


def _threads(wanted: int | None) -> int:
    if wanted is None:
        return len(os.sched_getaffinity(0))
    if wanted < 1:
        raise ValueError(f"threads are {wanted}, and should be at least 1")
    return wanted


def _made(kind: type[Result], outcome: bytes | _core.Failure, id: str) -> Result:
    if isinstance(outcome, _core.Failure):
        if outcome.code == _core.NO_MEMORY:
            raise MemoryError(outcome.message)
        raise NoteError(id, outcome.message)
    return kind(outcome)


def _groups(notes: Iterable[Note]) -> Iterator[tuple[list[str], tuple[str | bytes, ...]]]:
    """The ids and the texts of some notes at a time."""
    ids: list[str] = []
    texts: list[str | bytes] = []
    size = 0
    for number, note in enumerate(notes):
        id, text = note if isinstance(note, tuple) else (str(number), note)
        ids.append(id)
        texts.append(text)
        size += len(text)
        if len(texts) >= _GROUP_NOTES or size >= _GROUP_SIZE:
            yield ids, tuple(texts)
            ids, texts, size = [], [], 0
    if texts:
        yield ids, tuple(texts)


def _all(
    kind: type[Result],
    notes: Iterable[Note],
    errors: str,
    work: Callable[[tuple[str | bytes, ...], list[str]], list[bytes | _core.Failure]],
) -> Iterator[Result | NoteError]:
    if errors not in ("raise", "return"):
        raise ValueError(f"errors is {errors!r}, and should be 'raise' or 'return'")
    if isinstance(notes, (str, bytes)):
        raise TypeError("many notes are wanted, not one text")

    def made() -> Iterator[Result | NoteError]:
        for ids, texts in _groups(notes):
            for id, outcome in zip(ids, work(texts, ids), strict=True):
                try:
                    result: Result | NoteError = _made(kind, outcome, id)
                except NoteError as error:
                    if errors == "raise":
                        raise
                    result = error
                yield result

    return made()
