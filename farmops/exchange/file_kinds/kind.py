"""What a kind of rows is made of: its columns, what a row of them books, and the columns that many kinds share."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import replace
from datetime import date

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_goods import FileGoods
from farmops.exchange.file_names import FileNames
from farmops.exchange.tables_beside import Gathered
from farmops.farm.file_rows import FileRow
from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.readings import Form
from farmops.quantities import Dimension
from farmops.schedule.words import in_words, parse_words


@dataclass(frozen=True, slots=True)
class Take:
    """What rows are understood by: what the farm has, and what the grower said of the whole file.

    `form` is what kits report where a cell does not say; `sure` books unlikely rows.
    """

    names: FileNames
    goods: FileGoods
    form: Form | None = None
    sure: bool = False


Read = Callable[[Cells, Take], Iterable[FileRow]]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of rows: its columns and what a row of them books.

    In an export, rows go on in the table `beside`, and one of their columns is `gathered` from rows of another.
    """

    name: str
    columns: tuple[Column, ...]
    read: Read
    beside: tuple[tuple[str, str], ...] = ()
    gathered: Gathered | None = None


DATE = Column("date", needed=True, also=("day",))
UNIT = Column("unit", also=("system",), numbered=("unit id",))
BED = Column("bed", needed=True, also=("name",), numbered=("bed id",))
FROM = Column("from", also=("from day", "since", "date", "day"))
BEGINS = replace(FROM, needed=True, also=(*FROM.also, "start", "start day"))
UNTIL = Column("until", also=("until day", "to"))
EVERY = Column("every", needed=True, also=("rule", "rule words", "when"))
TIME = Column("time", also=("hour", "at"), numbered=("minute",))
NOTE = Column("note", also=("notes", "remark", "comment"))
LOT = Column("lot", needed=True, also=("fish lot", "fish"), numbered=("fish lot id", "lot id"))
IN_BED = replace(BED, needed=False, also=())
PLACES = (
    Column("for", also=("where", "place")),
    UNIT,
    IN_BED,
    replace(LOT, needed=False, also=("fish lot",)),
)
"""Where something belongs: in one column, or in one of three of which a row fills one."""


def each(entry_of: Callable[[Cells, Take], object]) -> Read:
    """Rows that book one entry each."""
    return lambda cells, take: [FileRow(cells.row.line, entry_of(cells, take))]


def unit_or_all(cells: Cells, take: Take) -> int | None:
    """The unit named there; None where none is, for all of them."""
    return None if cells.empty("unit") else take.names.unit(cells)


def rule_of(cells: Cells, first: date) -> str:
    """The rule by which something comes again from a first day on, as the farm writes it."""
    if cells.empty("every"):
        raise RowRefusedError("every", "no rule; understood: Tue Fri, 2 weeks on Sat, month on the 1st")
    with in_column("every"):
        return in_words(parse_words(cells.text("every"), first))


def as_said(text: str) -> str:
    """A unit beside a head, which the cell below it will understand."""
    return text


def unit_in(*dimensions: Dimension) -> Callable[[str], str]:
    """The unit beside a head of a column of weights, volumes, ...; it raises NotUnderstood for no such unit."""

    def unit_of(text: str) -> str:
        for one in dimensions[:-1]:
            with suppress(NotUnderstood):
                return one.unit(text).name
        return dimensions[-1].unit(text).name

    return unit_of


def counted(cells: Cells, column: str) -> int:
    """A count that must be there."""
    number = cells.number(column)
    if number is None:
        raise RowRefusedError(column, f"no {column}")
    return number
