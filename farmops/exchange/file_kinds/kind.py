"""What a kind of rows is made of: its columns, what a row of them books, and the columns that many kinds share."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from farmops.exchange.cells import Cells, RowRefusedError
from farmops.exchange.columns import Column
from farmops.exchange.file_names import FileNames
from farmops.farm.file_rows import FileRow
from farmops.model.frozen import dataclass
from farmops.model.readings import Form


@dataclass(frozen=True, slots=True)
class Take:
    """What rows are understood by: what the farm has, and what the grower said of the whole file.

    `form` is what kits report where a cell does not say; `sure` books unlikely rows.
    """

    names: FileNames
    form: Form | None = None
    sure: bool = False


Read = Callable[[Cells, Take], Iterable[FileRow]]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of rows: its columns and what a row of them books."""

    name: str
    columns: tuple[Column, ...]
    read: Read


DATE = Column("date", needed=True, also=("day",))
UNIT = Column("unit", also=("system",))
NOTE = Column("note", also=("notes", "remark", "comment"))
LOT = Column("lot", needed=True, also=("fish lot", "fish"))


def each(entry_of: Callable[[Cells, Take], object]) -> Read:
    """Rows that book one entry each."""
    return lambda cells, take: [FileRow(cells.row.line, entry_of(cells, take))]


def counted(cells: Cells, column: str) -> int:
    """A count that must be there."""
    number = cells.number(column)
    if number is None:
        raise RowRefusedError(column, f"no {column}")
    return number
