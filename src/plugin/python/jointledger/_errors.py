"""What can go wrong. No exception holds the text of a note."""

from __future__ import annotations


class Error(Exception):
    """The base of all exceptions of this module's own."""


class NoteError(Error, ValueError):
    """A note cannot be read: it is blank, too long, or its text is no UTF-8."""

    def __init__(self, id: str, reason: str) -> None:  # noqa: A002 (the name that it has everywhere)
        super().__init__(id, reason)
        self.id = id
        """The note's id."""
        self.reason = reason
        """What is wrong, and where."""

    def __str__(self) -> str:
        return f"note {self.id!r}: {self.reason}"


class ProfileError(Error, LookupError):
    """The engine has no profile of that name."""


class DataError(Error, ValueError):
    """A folder of words or rules is not there, or has faults; a line for each, with file and line."""
