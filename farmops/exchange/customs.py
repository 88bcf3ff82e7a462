"""How the cells of a file are to be read: which number of a day is first, how decimals are written, in which unit."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from datetime import date
from enum import StrEnum

from farmops.exchange.columns import Table
from farmops.model.frozen import dataclass
from farmops.quantities import Measures

NUMBERED_DAY = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
LONGEST_STAMP = 100
STAMP = re.compile(r"(?P<day>.*[0-9])[T ] *(?P<hour>[0-9]{1,2}:[0-9]{2})(?::[0-9]{2}(?:[.,][0-9]+)?)?", re.IGNORECASE)
"""A day with the hour beside it, as meters and spreadsheets write it."""
COMMA = re.compile(r"[0-9.]*,(?:[0-9]{1,2}|[0-9]{4,})(?![0-9.,]).*")
POINT = re.compile(r"[0-9,]*\.(?:[0-9]{1,2}|[0-9]{4,})(?![0-9.,]).*")
DAYS = (
    "date",
    "started",
    "cleared",
    "from",
    "until",
    "opened",
    "expires",
    "stocked",
    "closed",
    "began",
    "ended",
    "start",
)
WORDS = ("time", "note", "what", "phone", "product", "against", "showed", "registration", "rule", "instructions")
NO_NUMBERS = (*DAYS, *WORDS)
MONTHS = 12


class Order(StrEnum):
    """Which number comes first in a day such as 03/05/2026."""

    DAY_FIRST = "day-first"
    MONTH_FIRST = "month-first"


class Decimals(StrEnum):
    """The sign before the decimals of a number."""

    COMMA = "comma"
    POINT = "point"


@dataclass(frozen=True, slots=True)
class Customs:
    """How the cells of a file are read: the farm's measures, today, and what the file itself says of its columns.

    `order` None: a day such as 03/05/2026 is refused. `swapped`: its decimals have the sign that the farm does not
    use. `units` are those of cells that name none, by column; hours are those of the `zone`.
    """

    measures: Measures
    today: date
    order: Order | None = None
    swapped: bool = False
    units: Mapping[str, str] = field(default_factory=dict)
    zone: str = "UTC"


def customs_of(
    table: Table,
    measures: Measures,
    today: date,
    order: Order | None = None,
    decimals: Decimals | None = None,
    units: Mapping[str, str] | None = None,
) -> tuple[Customs, tuple[str, ...]]:
    """How a file is read: as the grower says, else as its own cells show, else by the farm; and words about that."""
    order = order or order_of([cell for row in table.rows for name in DAYS if (cell := row.cells.get(name))])
    told = [*table.told]
    if order:
        told.append(f"Days such as 03/05/2026 are read {order.replace('-', ' ')}.")
    comma = decimals is Decimals.COMMA if decimals else _comma(table, measures)
    if comma != measures.decimal_comma and not table.point:
        told.append(f"Numbers are read with a decimal {Decimals.COMMA if comma else Decimals.POINT}.")
    swapped = comma != measures.decimal_comma
    return Customs(measures, today, order, swapped, table.units if units is None else units), tuple(told)


def _comma(table: Table, measures: Measures) -> bool:
    if table.point:
        return False
    cells = (cell for row in table.rows for name, cell in row.cells.items() if name not in NO_NUMBERS)
    found = comma_of(cells)
    return measures.decimal_comma if found is None else found


def parted(cell: str) -> tuple[str, str]:
    """The day of a cell, and the hour where one stands beside it."""
    stamp = STAMP.fullmatch(cell.strip()) if len(cell) <= LONGEST_STAMP else None
    return (stamp["day"].strip(), stamp["hour"]) if stamp else (cell.strip(), "")


def order_of(cells: Sequence[str]) -> Order | None:
    """Which number comes first in the days of a file, where one of them can be read in one way only."""
    matches = (NUMBERED_DAY.fullmatch(parted(cell)[0]) for cell in cells)
    orders = {order for match in matches if match and (order := only_order(match))}
    return orders.pop() if len(orders) == 1 else None


def only_order(match: re.Match[str]) -> Order | None:
    """The one order in which the numbers of a day can be read; None where both can, or neither."""
    firsts, seconds = (int(match[at]) > MONTHS for at in (1, 3))
    if firsts == seconds:
        return None
    return Order.DAY_FIRST if firsts else Order.MONTH_FIRST


def comma_of(cells: Iterable[str]) -> bool | None:
    """Whether decimals have a comma, where a number of the file can be read in one way only and none says otherwise."""
    texts = [cell.strip() for cell in cells]
    commas, points = (any(map(pattern.fullmatch, texts)) for pattern in (COMMA, POINT))
    return None if commas == points else commas
