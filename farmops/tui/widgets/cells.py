"""Text by the columns of a terminal: cut, filled, and small pictures of numbers."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size

BLOCKS = "▁▂▃▄▅▆▇█"


def cut(text: str, columns: int) -> str:
    """The text in at most so many columns, its end marked where something was left out."""
    if cell_len(text) <= columns:
        return text
    return set_cell_size(text, max(0, columns - 1)).rstrip() + "…" if columns > 0 else ""


def fill(text: str, columns: int) -> str:
    """The text in exactly so many columns."""
    return set_cell_size(cut(text, columns), columns)


def sparkline(values: Sequence[float]) -> str:
    """The values as blocks of rising height; nothing when all are zero."""
    largest = max(values, default=0)
    if largest <= 0:
        return ""
    return "".join(BLOCKS[min(len(BLOCKS) - 1, int(value / largest * (len(BLOCKS) - 1) + 0.5))] for value in values)
