"""How wide the columns of a list are, which of them there is room for, and a cell drawn to its width."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from rich.cells import cell_len

from farmops.tui.widgets.listing_lines import Cell, Column, Line, shown
from farmops.tui.widgets.sparks import BAR_WIDTH, DRAWN, Bar, Signs, Spark, bar_text, spark_text

GAP = 2
COMFORT = 22
"""Columns that words without a width may claim before other columns are dropped for them."""
COMFORT_GROWING = 36
"""The same for the column that grows: what a list is about."""
NARROWEST = 3
SHORT_BAR = 8
SHORT_SPARK = 8

_NUMBER = re.compile(r"\D{0,4}?[-+]?\d+(?:[.,'’\u00a0\u202f]\d+)*")
_MARK = re.compile(r"[.,]")


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text of one kind; a drawing has colours of its own."""

    text: str
    drawing: bool = False


@dataclass(slots=True)
class Extent:
    """The room that the cells of one column ask for, numbers on either side of their decimal mark, and can do with."""

    whole: int = 0
    before: int = 0
    after: int = 0
    least: int = 0

    @property
    def width(self) -> int:
        return max(self.whole, self.before + self.after)


@dataclass(frozen=True, slots=True)
class Slot:
    """A column that is shown: which, how wide, and how many of its columns stand before the decimal mark."""

    index: int
    width: int
    before: int = 0


@lru_cache(maxsize=8192)
def at_mark(text: str) -> tuple[str, str] | None:
    """A number and what follows, parted before the decimal mark; None when the text begins with no number."""
    found = _NUMBER.match(text)
    if found is None:
        return None
    number = found.group()
    at = _mark_in(number)
    return (number, text[found.end() :]) if at is None else (text[:at], text[at:])


def _mark_in(number: str) -> int | None:
    """Where the decimal mark is: a last comma or point that does not set thousands apart."""
    marks = list(_MARK.finditer(number))
    if not marks:
        return None
    last, sign = marks[-1].start(), marks[-1].group()
    if number.count(sign) > 1:
        return None
    digits = re.sub(r"\D", "", number[:last])
    thousands = sign == "," and len(marks) == 1 and len(number) - last == 4 and not digits.startswith("0")
    return None if thousands else last


class Measure:
    """The room that the cells seen so far ask for, column by column."""

    def __init__(self, columns: Sequence[Column]) -> None:
        self.columns = columns
        heads = [cell_len(shown(column.head)) for column in columns]
        self.extents = [Extent(whole=width, least=width) for width in heads]

    def take(self, line: Line) -> bool:
        """Measure one more line; True when a column has to be wider for it."""
        wider = [self._widen(i, cell) for i, cell in enumerate(line.cells[: len(self.columns)])]
        return any(wider)

    def _widen(self, index: int, cell: Cell) -> bool:
        column, extent = self.columns[index], self.extents[index]
        if column.width is not None and column.align != "point":
            return False
        was = (extent.whole, extent.before, extent.after)
        text = shown(cell) if isinstance(cell, str) else ""
        parts = at_mark(text) if column.align == "point" else None
        if parts is None:
            extent.whole = max(extent.whole, _wish(cell))
            extent.least = max(extent.least, _need(cell))
        else:
            extent.before = max(extent.before, cell_len(parts[0]))
            extent.after = max(extent.after, cell_len(parts[1]))
        return was != (extent.whole, extent.before, extent.after)


def _wish(cell: Cell) -> int:
    if isinstance(cell, Spark):
        return len(cell.values)
    if isinstance(cell, Bar):
        return BAR_WIDTH + (1 + cell_len(shown(cell.words)) if cell.words else 0)
    return cell_len(shown(cell))


def _need(cell: Cell) -> int:
    if isinstance(cell, Spark):
        return min(len(cell.values), SHORT_SPARK)
    if isinstance(cell, Bar):
        return _wish(cell) - BAR_WIDTH + SHORT_BAR
    return cell_len(shown(cell))


def fit(columns: Sequence[Column], extents: Sequence[Extent], room: int) -> tuple[Slot, ...]:
    """The columns that there is room for, each with its width; together never wider than `room`."""
    full = [_natural(column, extent) for column, extent in zip(columns, extents, strict=True)]
    least = [_least(column, extent) for column, extent in zip(columns, extents, strict=True)]
    kept = _kept(columns, least, room)
    widths = _narrowed([least[i] for i in kept], room - GAP * (len(kept) - 1))
    left = room - sum(widths) - GAP * (len(kept) - 1)
    for order, index in enumerate(kept):
        more = max(0, min(full[index] - widths[order], left))
        widths[order] += more
        left -= more
    growing = next((order for order, index in enumerate(kept) if columns[index].grow), None)
    if growing is not None:
        widths[growing] += max(0, left)
    return tuple(_slot(i, width, extents[i]) for i, width in zip(kept, widths, strict=True))


def _natural(column: Column, extent: Extent) -> int:
    return max(1, extent.width if column.width is None else column.width)


def _least(column: Column, extent: Extent) -> int:
    if column.width is not None:
        return _natural(column, extent)
    least = max(1, extent.least, extent.before + extent.after)
    if column.grow:
        return min(least, COMFORT_GROWING)
    return min(least, COMFORT) if column.align == "left" else least


def _kept(columns: Sequence[Column], least: Sequence[int], room: int) -> list[int]:
    """The indexes of the columns that stay: the lowest priority goes first, the rightmost of equals."""
    kept = list(range(len(columns)))
    while kept and sum(least[i] for i in kept) + GAP * (len(kept) - 1) > room:
        goes = max(kept, key=lambda i: (columns[i].priority, i))
        if columns[goes].priority == 0 and sum(min(least[i], NARROWEST) + GAP for i in kept) - GAP <= room:
            break
        kept.remove(goes)
    return kept if kept or not columns or room <= 0 else [0]


def _narrowed(widths: list[int], room: int) -> list[int]:
    """The widths, the widest made narrower until all fit."""
    narrowed = list(widths)
    while narrowed and sum(narrowed) > room and max(narrowed) > 1:
        narrowed[narrowed.index(max(narrowed))] -= 1
    return narrowed


def _slot(index: int, width: int, extent: Extent) -> Slot:
    return Slot(index, width, max(0, width - extent.after))


def line_pieces(line: Line, columns: Sequence[Column], slots: Sequence[Slot], signs: Signs = DRAWN) -> list[Piece]:
    """A line drawn to its slots, a gap after each; words too long for theirs run on over empty cells beside them."""
    cells = [line.cells[slot.index] if slot.index < len(line.cells) else "" for slot in slots]
    drawn: list[Piece] = []
    at = 0
    while at < len(slots):
        column, wide, after = columns[slots[at].index], slots[at], at + 1
        while _runs_over(cells[at], column, wide) and after < len(slots) and cells[after] == "":
            wide = replace(wide, width=wide.width + GAP + slots[after].width)
            after += 1
        drawn += [*pieces(cells[at], column, wide, signs), Piece(" " * GAP)]
        at = after
    return drawn


def _runs_over(cell: Cell, column: Column, slot: Slot) -> bool:
    return isinstance(cell, str) and column.align == "left" and cell_len(shown(cell)) > slot.width


def pieces(cell: Cell, column: Column, slot: Slot, signs: Signs = DRAWN) -> list[Piece]:
    """A cell drawn exactly as wide as its slot."""
    if isinstance(cell, Spark):
        text = spark_text(cell.values, slot.width, signs)
        return [Piece(placed(text, slot.width, column.align, signs), drawing=True)]
    if isinstance(cell, Bar):
        return _bar_pieces(cell, slot.width, signs)
    text = shown(cell)
    parts = at_mark(text) if column.align == "point" else None
    if parts is not None:
        indent = min(slot.before - cell_len(parts[0]), slot.width - cell_len(text))
        return [Piece(placed(" " * indent + text, slot.width, "left", signs))]
    return [Piece(placed(text, slot.width, column.align, signs))]


def _bar_pieces(bar: Bar, width: int, signs: Signs) -> list[Piece]:
    words = f" {shown(bar.words)}" if bar.words else ""
    room = max(min(width, NARROWEST), width - cell_len(words))
    drawn = bar_text(bar, room, signs)
    return [Piece(drawn, drawing=True), Piece(placed(words, width - len(drawn), "left", signs))]


def placed(text: str, width: int, align: str = "left", signs: Signs = DRAWN) -> str:
    """Text cut or filled up to `width` terminal columns."""
    kept = cut(text, width, signs)
    blank = " " * (width - cell_len(kept))
    return kept + blank if align == "left" else blank + kept


def cut(text: str, width: int, signs: Signs = DRAWN) -> str:
    """The text, or as much of it as fits before a sign that something is missing; no character is split."""
    if width <= 0:
        return ""
    if cell_len(text) <= width:
        return text
    used, end = 0, 0
    for sign in text:
        used += cell_len(sign)
        if used > width - 1:
            break
        end += 1
    return text[:end] + signs.cut
