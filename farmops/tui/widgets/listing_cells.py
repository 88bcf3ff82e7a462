"""The cells of a list, each drawn exactly as wide as its column is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import groupby
from operator import attrgetter

from rich.cells import cell_len

from farmops.model.frozen import dataclass
from farmops.tui.widgets.listing_lines import Cell, Column, Line, shown
from farmops.tui.widgets.sparks import DRAWN, Bar, Signs, Spark, bar_text, spark_text

GAP = 2
"""Blank columns between two columns."""
NARROWEST = 3

_NUMBER = re.compile(r"\D{0,4}?[-+]?\d+(?:[.,'’\u00a0\u202f]\d+)*")
_MARK = re.compile(r"[.,]")


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text of one kind; a drawing has colours of its own."""

    text: str
    drawing: bool = False


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


def line_pieces(line: Line, columns: Sequence[Column], slots: Sequence[Slot], signs: Signs = DRAWN) -> list[Piece]:
    """A line drawn to its slots; words too long for theirs run on over empty cells beside them."""
    cells = [line.cells[slot.index] if slot.index < len(line.cells) else "" for slot in slots]
    drawn: list[Piece] = []
    at = 0
    while at < len(slots):
        column, wide, after = columns[slots[at].index], slots[at], at + 1
        while _runs_over(cells[at], column, wide) and after < len(slots) and cells[after] == "":
            wide = replace(wide, width=wide.width + GAP + slots[after].width)
            after += 1
        drawn += [*([Piece(" " * GAP)] if at else []), *pieces(cells[at], column, wide, signs)]
        at = after
    return [Piece("".join(piece.text for piece in run), kind) for kind, run in groupby(drawn, attrgetter("drawing"))]


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
