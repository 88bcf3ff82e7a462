"""The journal: who did what, when, through what, and the rows before and after."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Any

from farmops.model.frozen import dataclass


class Through(StrEnum):
    """By which way an operation came in."""

    COMMAND = "command"
    SCREEN = "screen"
    FILE = "file"
    PROGRAM = "program"


@dataclass(frozen=True, slots=True)
class Image:
    """A row of a table before and after an operation; None where there was or is none."""

    table: str
    id: int
    before: dict[str, Any] | None
    after: dict[str, Any] | None


@dataclass(frozen=True, slots=True)
class JournalLine:
    """One operation as the journal lists it. `undoes` and `redoes` name another operation."""

    seq: int
    operation: str
    at: datetime
    by: str
    through: Through
    name: str
    undoes: str | None
    redoes: str | None
    schema_version: str
    undone: bool


@dataclass(frozen=True, slots=True)
class Undone:
    """What an undo or a redo has brought about: the operation it took back or did again, and what that was `about`."""

    operation: str
    name: str
    by: str
    rows: int
    about: str = ""
    through: Through = Through.COMMAND

    def words_for(self, by: str, through: Through) -> str:
        """What it was, and who booked it by which way where that is not this person, this way."""
        said = f"{self.name}, {self.about}" if self.about else self.name
        other = [*([f"of {self.by}"] if self.by != by else []), *([f"by {self.through}"] * (self.through != through))]
        return ", ".join([said, " ".join(other)]) if other else said


@dataclass(frozen=True, slots=True)
class Which:
    """Which operation to undo or redo; None is the person's own last one."""

    operation: str | None = None


@dataclass(frozen=True, slots=True)
class Removal:
    """A record to remove, by its kind in the plural and its number."""

    kind: str
    id: int


@dataclass(frozen=True, slots=True)
class Removed:
    """A record that was removed."""

    kind: str
    id: int


def operations_in_words(number: int) -> str:
    """`1 operation`, `12 operations`."""
    return "1 operation" if number == 1 else f"{number} operations"
