"""What a list gives to a file: its columns as filtered, numbers and days as what they are, units in the heads."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from farmops.exchange.tables import Table, Value
from farmops.model.frozen import dataclass
from farmops.quantities.worded import Worded
from farmops.tui.widgets.listing_lines import Cell, Column, Heading, Line, View
from farmops.tui.widgets.sparks import Bar, Spark

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

SECTION = "section"
NOTHING = ("", "-")
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
NUMBER = re.compile(r"-?\d{1,15}")
LOW, HIGH = "from", "to"


@dataclass(frozen=True, slots=True)
class GoesOut:
    """What a screen can write into a file: its tables, and its picture where it has one; made in a worker."""

    title: str
    tables: Callable[[], Sequence[Table]]
    chart: Callable[[], Chart] | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A column of a file: its head, and its values from the first line to the last."""

    head: str
    values: tuple[Value, ...]


def table_of(columns: Sequence[Column], view: View, name: str = "rows") -> Table:
    """The lines of a view under its columns; the sections they stand in come first, where there are any."""
    lines, sections = _parted(view)
    parts = [Part(SECTION, tuple(sections))] if any(sections) else []
    for at, column in enumerate(columns):
        cells = [line.cells[at] if at < len(line.cells) else "" for line in lines]
        parts += _parts(column, cells, parts[-1].head if parts else "")
    heads = _unlike([part.head for part in parts])
    return Table(name, tuple(heads), list(zip(*(part.values for part in parts), strict=True)))


def _parted(view: View) -> tuple[list[Line], list[str | None]]:
    lines: list[Line] = []
    sections: list[str | None] = []
    section: str | None = None
    for item in (view[index] for index in range(len(view))):
        if isinstance(item, Heading):
            section = item.words
        else:
            lines.append(item)
            sections.append(section)
    return lines, sections


def _parts(column: Column, cells: Sequence[Cell], before: str) -> Iterator[Part]:
    head = column.head or column.key
    if any(isinstance(cell, Bar) for cell in cells):
        yield from _spans(before or head, cells)
        if not any(isinstance(cell, str) and cell not in NOTHING for cell in cells):
            return
        cells = ["" if isinstance(cell, Bar) else cell for cell in cells]
    units = {cell.unit for cell in cells if isinstance(cell, Worded)}
    values = _values(column, cells)
    if len(units) == 1:
        (unit,) = units
        yield Part(f"{head} ({unit})" if unit and unit not in head else head, values)
    else:
        yield Part(head, values)
        if units:
            yield Part(f"unit of {head}", tuple(cell.unit if isinstance(cell, Worded) else None for cell in cells))


def _spans(head: str, cells: Sequence[Cell]) -> Iterator[Part]:
    """The ends of what bars may be; their values stand in the column before."""
    bars = [cell if isinstance(cell, Bar) else None for cell in cells]
    if any(bar is not None and bar.low is not None for bar in bars):
        yield Part(f"{head} {LOW}", tuple(None if bar is None else bar.low for bar in bars))
        yield Part(f"{head} {HIGH}", tuple(None if bar is None else bar.high for bar in bars))


def _values(column: Column, cells: Sequence[Cell]) -> tuple[Value, ...]:
    """What the cells hold: numbers and days where the whole column has nothing else."""
    texts = [str(cell) for cell in cells if not isinstance(cell, Worded | Spark | Bar) and str(cell) not in NOTHING]
    days = bool(texts) and all(map(DAY.fullmatch, texts))
    numbers = column.align != "left" and all(map(NUMBER.fullmatch, texts))
    return tuple(_value(cell, days=days, numbers=numbers) for cell in cells)


def _value(cell: Cell, *, days: bool, numbers: bool) -> Value:
    if isinstance(cell, Worded):
        return int(cell.number) if cell.number.denominator == 1 else float(cell.number)
    text = str(cell)
    if text in NOTHING:
        return None
    if days:
        return _day(text)
    return int(text) if numbers else text


def _day(text: str) -> Value:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return text


def _unlike(heads: Sequence[str]) -> list[str]:
    """Heads of which no two are the same."""
    found: list[str] = []
    for head in heads:
        other, number = head, 1
        while other in found:
            number += 1
            other = f"{head} {number}"
        found.append(other)
    return found
