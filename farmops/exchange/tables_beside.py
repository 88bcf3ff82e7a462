"""A table of an export, with what the table beside it says of each row: the day and the buyer of a line of a sale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from farmops.exchange.sheets import Line, Sheet, read_sheet
from farmops.model.frozen import dataclass

NUMBER = "id"


@dataclass(frozen=True, slots=True)
class Gathered:
    """A column that an export keeps as rows of a file beside it: `WREN=2 ROOK=1`, from a row for each of the shares.

    `to` is the head of the number that points back to a row, `what` and `parts` those that make a word of it.
    """

    head: str
    file: str
    to: str
    what: str
    parts: str

    @property
    def heads(self) -> tuple[str, str, str]:
        """The heads that the file needs."""
        return self.to, self.what, self.parts


def gathered(path: Path, sheet: Sheet, wanted: Gathered | None) -> Sheet:
    """The rows of a sheet, each with what the rows of the file beside it say of its number, in one more column.

    Raises:
        NotUnderstood: the file beside it is no file of rows.
    """
    if wanted is None or NUMBER not in sheet.heads or not path.with_name(wanted.file).is_file():
        return sheet
    other = read_sheet(path.with_name(wanted.file), lambda text: text == wanted.to)
    if not set(wanted.heads) <= set(other.heads):
        return sheet
    to, what, parts = map(other.heads.index, wanted.heads)
    words: dict[str, list[str]] = {}
    for line in other.lines:
        words.setdefault(_cell(line, to), []).append(f"{_cell(line, what)}={_cell(line, parts)}")
    at, width = sheet.heads.index(NUMBER), len(sheet.heads)
    lines = [_longer(line, width, " ".join(words.get(_cell(line, at), ()))) for line in sheet.lines]
    return replace(sheet, heads=(*sheet.heads, wanted.head), lines=tuple(lines))


def _longer(line: Line, width: int, cell: str) -> Line:
    if len(line.cells) > width:
        return line
    return replace(line, cells=(*(_cell(line, at) for at in range(width)), cell))


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
