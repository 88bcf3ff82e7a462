"""What a sheet of a file is made of, and how large one may be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.text import plain

MOST_COLUMNS = 1_000
MOST_ROWS = 500_000
MOST_CELLS = 4_000_000
"""Of all rows together: as many rows as may be, of eight cells each."""
LONGEST_CELL = 32_767
"""Signs in a cell; no spreadsheet takes more."""
LARGEST_FILE = 40_000_000
"""Bytes of a file, packed or not: ten years of weighings have a hundredth of it."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a file and the number of the line it begins on, counted from 1."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A file's head and the rows below it; blank rows are left out.

    `told` says how it was read where it could be read otherwise. `point` is whether its numbers are known to have a
    decimal point, as those of a workbook have.
    """

    name: str
    heads: tuple[str, ...]
    lines: tuple[Line, ...]
    told: tuple[str, ...] = ()
    point: bool = False


def shown(path: Path) -> str:
    """The name of a file, safe to print."""
    return plain(path.name)


def filled(path: Path, rows: Iterable[tuple[int, Sequence[str]]]) -> Iterator[Line]:
    """The rows that are not blank. Raises NotUnderstood for a sheet that is too large."""
    filled_cells = 0
    for count, (number, cells) in enumerate(rows):
        if count > MOST_ROWS:
            raise NotUnderstood(f"{shown(path)} has more than {MOST_ROWS:,} rows. Part it into several files.")
        last = max((at for at, cell in enumerate(cells) if cell.strip()), default=None)
        if last is None:
            continue
        if last >= MOST_COLUMNS:
            raise NotUnderstood(f"{shown(path)}, line {number}, has more than {MOST_COLUMNS:,} columns.")
        if max(map(len, cells)) > LONGEST_CELL:
            raise NotUnderstood(f"{shown(path)}, line {number}, has a cell of more than {LONGEST_CELL:,} signs.")
        filled_cells += last + 1
        if filled_cells > MOST_CELLS:
            raise NotUnderstood(f"{shown(path)} has more than {MOST_CELLS:,} cells. Part it into several files.")
        yield Line(number, tuple(cells[: last + 1]))
