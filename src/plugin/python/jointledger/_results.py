"""Ledgers and audits of notes, as immutable values.

A `Ledger` and an `Audit` hold the line of JSON that the command line writes, and take it apart when they are first
asked for a member: who reads a million notes for their scores does not pay for the rest. Words for regions, sides and
so on are those of the JSON (fixtures/schema/); members that are absent there are empty here.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True)
class Span:
    """Bytes [start, end) of the note's text in UTF-8."""

    start: int
    end: int

    def words(self, text: str | bytes) -> str:
        """The words themselves, of the text that was read."""
        data = text.encode() if isinstance(text, str) else text
        return data[self.start : self.end].decode()


@dataclass(frozen=True, slots=True)
class Degrees:
    """What was measured of one motion, in degrees."""

    side: str
    to: int
    """The figure, or the end of the range."""
    evidence: Span
    motion: str | None = None
    """None where a range names no motion ("0-140")."""
    from_: int | None = None
    """The start of the range; None where the note gives one figure."""
    lacking: bool = False
    """The figure counts down from full motion ("lacks 10 degrees of extension")."""


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade as written: power ("4+/5"), a reflex or a pulse ("2+")."""

    value: str
    """Without its scale: "4+", "5-", "2", "trace"."""
    scale: int
    """The number after the slash; 5 for power, 4 for reflexes and pulses."""
    side: str
    evidence: Span


@dataclass(frozen=True, slots=True)
class Entry:
    """One part of the exam that the note documents, for one region and side."""

    region: str
    component: str
    side: str
    outcome: str
    certainty: float
    """The share of such entries that are right, 0 to 1."""
    evidence: tuple[Span, ...]
    """The words that say so: at least one, ascending."""
    motions: tuple[str, ...] = ()
    degrees: tuple[Degrees, ...] = ()
    grades: tuple[Grade, ...] = ()
    structures: tuple[str, ...] = ()
    tests: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Complaint:
    """A region and side that the history describes as the current problem."""

    region: str
    side: str
    injury: bool
    """The history speaks of an injury, fall or accident."""
    evidence: Span


@dataclass(frozen=True, slots=True)
class Gap:
    """An expectation of the profile that the note does not meet, for one region and side."""

    expectation: str
    kind: str
    """`required` or `advised`."""
    region: str
    side: str
    reason: str
    credit: float
    """The share that the note earns all the same, both sides taken together, 0 to 1."""
    prompt: str
    """A line with blanks that would close the gap; it never states a finding."""
    components: tuple[str, ...]
    """Any one of them would close the gap."""
    nearest: tuple[Span, ...]
    """The words that came nearest; may be none."""
    motions: tuple[str, ...] = ()
    """Those that are missing."""
    structures: tuple[str, ...] = ()
    """Those that are missing."""


@dataclass(frozen=True, slots=True)
class Credit:
    """An expectation that is met, for one region on all sides asked."""

    expectation: str
    region: str
    side: str
    evidence: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Inconsistency:
    """Two places of a note that do not hold together, or one and what it is held against."""

    check: str
    region: str
    side: str
    first: tuple[Span, ...]
    second: tuple[Span, ...]
    """The words against them; empty where it is a limit."""
    message: str
    """Asks which holds; it never states a finding."""
    component: str | None = None


def _each(values: Iterable[Any], make: Callable[[Any], Item]) -> tuple[Item, ...]:
    return tuple(make(value) for value in values)


def _span(value: Mapping[str, int]) -> Span:
    return Span(value["start"], value["end"])


def _degrees(value: Mapping[str, Any]) -> Degrees:
    return Degrees(
        side=value["side"],
        to=value["to"],
        evidence=_span(value["evidence"]),
        motion=value.get("motion"),
        from_=value.get("from"),
        lacking=value.get("lacking", False),
    )


def _grade(value: Mapping[str, Any]) -> Grade:
    return Grade(value["value"], value["scale"], value["side"], _span(value["evidence"]))


def _entry(value: Mapping[str, Any]) -> Entry:
    return Entry(
        region=value["region"],
        component=value["component"],
        side=value["side"],
        outcome=value["outcome"],
        certainty=value["certainty"],
        evidence=_each(value["evidence"], _span),
        motions=tuple(value.get("motions", ())),
        degrees=_each(value.get("degrees", ()), _degrees),
        grades=_each(value.get("grade", ()), _grade),
        structures=tuple(value.get("structures", ())),
        tests=tuple(value.get("tests", ())),
    )


def _complaint(value: Mapping[str, Any]) -> Complaint:
    return Complaint(value["region"], value["side"], value["injury"], _span(value["evidence"]))


def _gap(value: Mapping[str, Any]) -> Gap:
    return Gap(
        expectation=value["expectation"],
        kind=value["kind"],
        region=value["region"],
        side=value["side"],
        reason=value["reason"],
        credit=value["credit"],
        prompt=value["prompt"],
        components=tuple(value["components"]),
        nearest=_each(value["nearest"], _span),
        motions=tuple(value.get("motions", ())),
        structures=tuple(value.get("structures", ())),
    )


def _credit(value: Mapping[str, Any]) -> Credit:
    return Credit(value["expectation"], value["region"], value["side"], _each(value["evidence"], _span))


def _inconsistency(value: Mapping[str, Any]) -> Inconsistency:
    return Inconsistency(
        check=value["check"],
        region=value["region"],
        side=value["side"],
        first=_each(value["first"], _span),
        second=_each(value["second"], _span),
        message=value["message"],
        component=value.get("component"),
    )


class _Result:
    """What a ledger and an audit have in common. Equal if the JSON is; can be pickled."""

    def __init__(self, line: bytes) -> None:
        self._line = line

    @property
    def json(self) -> str:
        """The line that the command line writes with --to ndjson, without its line break."""
        return self._line.decode()

    def to_dict(self) -> dict[str, Any]:
        """The JSON, parsed: a new dict each time."""
        parsed: dict[str, Any] = json.loads(self._line)
        return parsed

    @cached_property
    def _members(self) -> Mapping[str, Any]:
        return self.to_dict()

    @property
    def id(self) -> str:
        """The note's id."""
        given: str = self._members["id"]
        return given

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and isinstance(other, _Result) and other._line == self._line

    def __hash__(self) -> int:
        return hash(self._line)

    def __reduce__(self) -> tuple[type[_Result], tuple[bytes]]:
        return type(self), (self._line,)


class Ledger(_Result):
    """What the text of a note documents of the joint exam."""

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """At most one for each region, component and side, ordered by those."""
        return _each(self._members["entries"], _entry)

    @cached_property
    def complaints(self) -> tuple[Complaint, ...]:
        """What the visit is about, in order of appearance."""
        return _each(self._members["complaints"], _complaint)

    def __repr__(self) -> str:
        return f"<Ledger of note {self.id!r}: {len(self.entries)} entries, {len(self.complaints)} complaints>"


class Audit(_Result):
    """The ledger of a note held against a profile."""

    @property
    def profile(self) -> str:
        """The profile's name."""
        name: str = self._members["profile"]
        return name

    @property
    def score(self) -> float:
        """Earned weight over applicable weight, 0 to 1; 1 where nothing applies."""
        score: float = self._members["score"]
        return score

    @property
    def applicable(self) -> int:
        """How many demands were made: an expectation for a region each."""
        count: int = self._members["applicable"]
        return count

    @property
    def met(self) -> int:
        """How many of those are met on all sides asked."""
        count: int = self._members["met"]
        return count

    @property
    def lacks_required(self) -> bool:
        """Whether a gap of the required kind is among the gaps."""
        return any(gap.kind == "required" for gap in self.gaps)

    @cached_property
    def gaps(self) -> tuple[Gap, ...]:
        """Required before advised, then heavier first."""
        return _each(self._members["gaps"], _gap)

    @cached_property
    def credits(self) -> tuple[Credit, ...]:
        """The demands that are met, in the order of the profile."""
        return _each(self._members["credits"], _credit)

    @cached_property
    def inconsistencies(self) -> tuple[Inconsistency, ...]:
        """What in the note does not hold together; the score leaves it out."""
        return _each(self._members["inconsistencies"], _inconsistency)

    @cached_property
    def doubtful(self) -> tuple[Entry, ...]:
        """Entries less certain than was asked for, which earned nothing."""
        return _each(self._members.get("doubtful", ()), _entry)

    @property
    def notice(self) -> str:
        """What an audit does not say; to be shown with it."""
        text: str = self._members["notice"]
        return text

    def __repr__(self) -> str:
        return f"<Audit of note {self.id!r} against {self.profile!r}: score {self.score}, {len(self.gaps)} gaps>"
