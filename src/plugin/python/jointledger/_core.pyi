"""What the module is built on: see cpp/module.cpp."""

from typing import Any

VERSION: str
NO_MEMORY: int

class Failure:
    """Why something could not be done: a code of the C interface, and a sentence."""

    @property
    def code(self) -> int: ...
    @property
    def message(self) -> str: ...

class Engine:
    """Words and rules, loaded. Shared by all threads."""

    @property
    def warnings(self) -> str: ...
    def profiles(self) -> list[dict[str, Any]]: ...
    def ledgers(self, notes: tuple[str | bytes, ...], ids: list[str], threads: int) -> list[bytes | Failure]: ...
    def audits(
        self, notes: tuple[str | bytes, ...], ids: list[str], profile: str, certainty: float, threads: int
    ) -> list[bytes | Failure]: ...
    def entry_blocks(
        self, validity: Any, offsets: Any, data: Any, first: int, count: int, threads: int
    ) -> list[list[tuple[int, list[bytes | None], list[Any]]]]: ...
    def gap_blocks(
        self,
        validity: Any,
        offsets: Any,
        data: Any,
        first: int,
        count: int,
        profile: str,
        certainty: float,
        threads: int,
    ) -> list[list[tuple[int, list[bytes | None], list[Any]]]]: ...

def open_engine(
    data: str, lexicon: list[str], rules: list[str], own_lexicon_only: bool, own_rules_only: bool
) -> Engine | Failure: ...
