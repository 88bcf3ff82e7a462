"""How wide the columns of a list are, and which of them there is room for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len

from farmops.tui.widgets.listing_cells import GAP, NARROWEST, Slot, at_mark
from farmops.tui.widgets.listing_lines import Cell, Column, Line, View, shown
from farmops.tui.widgets.sparks import BAR_WIDTH, Bar, Spark

SAMPLE = 200
"""Lines measured, spread over all, before anything is drawn."""
COMFORT = 22
"""Columns that words without a width may claim before other columns are dropped for them."""
COMFORT_GROWING = 36
"""The same for the column that grows: what a list is about."""
BLANK_GROWING = 40
"""Blanks at most between the words of the column that grows and the next: on a wide screen a line must stay one."""
SHORT_BAR = 8
SHORT_SPARK = 8


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
        widths[growing] += max(0, min(left, BLANK_GROWING))
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


class Widths:
    """The columns of a view as they are drawn; lines that come into sight may make them wider."""

    def __init__(self, columns: Sequence[Column] = ()) -> None:
        self.columns = tuple(columns)
        self._measure = Measure(self.columns)
        self._view = View(())
        self._seen: set[int] = set()
        self._fitted: tuple[int, tuple[Slot, ...]] | None = None

    def take_in(self, view: View) -> None:
        """Go over to another view, and measure a sample of it. Widths do not shrink."""
        self._view = view
        self._seen = set()
        self.see(range(0, len(view), max(1, len(view) // SAMPLE)))

    def see(self, indexes: range) -> bool:
        """Measure these lines of the view, where they have not been; True when a column has to be wider for them."""
        wider = False
        for index in indexes:
            if index not in self._seen:
                self._seen.add(index)
                item = self._view[index]
                wider |= isinstance(item, Line) and self._measure.take(item)
        if wider:
            self._fitted = None
        return wider

    def slots(self, room: int) -> tuple[Slot, ...]:
        """The columns that fit into so much room."""
        if self._fitted is None or self._fitted[0] != room:
            self._fitted = (room, fit(self.columns, self._measure.extents, room))
        return self._fitted[1]
