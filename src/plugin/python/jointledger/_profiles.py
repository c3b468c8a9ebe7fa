"""What a profile asks for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Expectation:
    """One demand of a profile: what should be documented, and why."""

    id: str
    """Unique within its profile; gaps and credits name it."""
    kind: str
    """`required` or `advised`."""
    weight: float
    asks: str
    """One line: what should be in the note."""
    why: str
    """May be empty."""
    source: str
    """A citation, or "common practice, no source"."""


@dataclass(frozen=True, slots=True)
class Profile:
    """What a note is held against."""

    name: str
    title: str
    """One line for a listing."""
    purpose: str
    """Who should use it for what."""
    caution: str
    """What it does not say."""
    expectations: tuple[Expectation, ...]
