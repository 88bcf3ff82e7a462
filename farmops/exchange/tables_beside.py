"""A table of an export, with what the table beside it says of each row: the day and the buyer of a line of a sale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from farmops.exchange.sheets import Line, Sheet, read_sheet

NUMBER = "id"


def joined(path: Path, sheet: Sheet, beside: Sequence[tuple[str, str]]) -> Sheet:
    """The rows of a sheet, each followed by the row of the file beside it to which its number points.

    `beside` names the heads of such numbers and the files, `("sale_id", "sale.csv")`; what is not there is not missed.

    Raises:
        NotUnderstood: the file beside it is no file of rows.
    """
    for head, name in beside:
        other = path.with_name(name)
        if head in sheet.heads and other.is_file():
            sheet = _followed(sheet, head, read_sheet(other, lambda text: text == NUMBER))
    return sheet


def _followed(sheet: Sheet, head: str, other: Sheet) -> Sheet:
    more = [at for at, text in enumerate(other.heads) if text not in sheet.heads]
    rows = {_cell(line, other.heads.index(NUMBER)): line for line in other.lines} if NUMBER in other.heads else {}
    at = sheet.heads.index(head)
    lines = [_line(line, len(sheet.heads), rows.get(_cell(line, at)), more) for line in sheet.lines]
    return replace(sheet, heads=(*sheet.heads, *(other.heads[one] for one in more)), lines=tuple(lines))


def _line(line: Line, width: int, other: Line | None, more: Sequence[int]) -> Line:
    if other is None or len(line.cells) > width:
        return line
    own = [_cell(line, at) for at in range(width)]
    return replace(line, cells=(*own, *(_cell(other, at) for at in more)))


def _cell(line: Line, at: int) -> str:
    """A cell; what ends a row and is empty may not be there."""
    return line.cells[at] if at < len(line.cells) else ""
