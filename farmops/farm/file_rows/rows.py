"""The rows of a file as they are to be booked, and what became of them."""

from __future__ import annotations

from farmops.farm.progress import Watch
from farmops.model.frozen import dataclass
from farmops.model.lines import Stretch


@dataclass(frozen=True, slots=True)
class FileRow:
    """What a row of a file books, the line it stands on, and its column where a line books several."""

    line: int
    entry: object
    column: str | None = None


@dataclass(frozen=True, slots=True)
class FileRows:
    """The rows of a file of one kind; `whole` books none of them when one is refused or asked about.

    `watch` is told how many have been gone through, and of how many.
    """

    kind: str
    rows: tuple[FileRow, ...]
    whole: bool = False
    watch: Watch | None = None


@dataclass(frozen=True, slots=True)
class Aside:
    """A row that is not booked, by its line, and why."""

    line: int
    column: str | None
    reason: str


@dataclass(frozen=True, slots=True)
class RowsBooked:
    """How many rows were booked, how many the farm held already, which were refused and which are asked about.

    The lines of the first two are told as stretches; a line that books several rows may stand in both.
    """

    booked: int
    already: int
    refused: tuple[Aside, ...] = ()
    asked: tuple[Aside, ...] = ()
    booked_lines: tuple[Stretch, ...] = ()
    already_lines: tuple[Stretch, ...] = ()
