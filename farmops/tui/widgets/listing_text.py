"""What a list gives to be copied: cells parted by tabs, no sign a terminal obeys, nothing a sheet would compute."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from farmops.model.text import plain
from farmops.tui.widgets.listing_lines import Cell, Column, Heading, Line, View

Scope = Literal["cell", "line", "table"]

_FORMULA = re.compile(r"\s*(?:[=@]|[-+](?!\s*$)(?!\W{0,3}\d[\d.,' %]*(?:[ \w/]*)$))")


def as_text(columns: Sequence[Column], view: View, current: Line | None, scope: Scope, column: int = 0) -> str:
    """One cell or the whole of the current line, or head, headings and lines of the table."""
    if scope == "table":
        return "\n".join(_table(columns, view))
    if current is None:
        return ""
    if scope == "line":
        return _row(current.cells)
    return _safe(current.cells[column]) if 0 <= column < len(current.cells) else ""


def _table(columns: Sequence[Column], view: View) -> list[str]:
    head = [_row([column.head for column in columns])] if any(column.head for column in columns) else []
    items = (view[index] for index in range(len(view)))
    return head + [_safe(item.words) if isinstance(item, Heading) else _row(item.cells) for item in items]


def _row(cells: Sequence[Cell]) -> str:
    return "\t".join(_safe(cell) for cell in cells)


def _safe(cell: Cell) -> str:
    text = plain(str(cell))
    return f"'{text}" if _FORMULA.match(text) else text
