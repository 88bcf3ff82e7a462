"""The columns of a file of weighings: found by their heads, in any order and letter case."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from farmops.exchange.csv_files import Line, Sheet, read_sheet
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain
from farmops.quantities import MASS

REQUIRED = ("date", "unit", "bed", "crop", "weight")
OPTIONAL = ("count", "use", "note")
WEIGHT_HEAD = re.compile(r"weight[ _]*(?:\((?P<round>.+)\)|\[(?P<square>.+)\]|(?<=[ _])(?P<bare>[a-z ]+))?")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the file: the line it begins on, its cells by column, and whether it has more cells than heads."""

    line: int
    cells: Mapping[str, str]
    overfull: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A file of weighings; `ignored` heads mean nothing here, `weights_in` is the unit the head of weights names."""

    name: str
    rows: tuple[Row, ...]
    ignored: tuple[str, ...]
    weights_in: str | None


def read_rows(path: str | Path) -> Table:
    """The rows of a file of weighings.

    Columns: date, unit, bed, crop, weight; count, use and note if there are any. The head of the weights may name
    their unit: `weight (lb)`, `weight_kg`.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no CSV file in UTF-8, lacks a column, has one twice, or names no unit of weight.
    """
    sheet = read_sheet(Path(path), lambda head: _column(head) is not None)
    columns = [_column(head) for head in sheet.heads]
    _check_columns(sheet, columns)
    ignored = tuple(plain(head) for head, column in zip(sheet.heads, columns, strict=True) if not column and head)
    return Table(sheet.name, tuple(_row(line, columns) for line in sheet.lines), ignored, _unit(sheet.heads))


def _folded(head: str) -> str:
    return " ".join(head.split()).lower()


def _column(head: str) -> str | None:
    folded = _folded(head)
    if WEIGHT_HEAD.fullmatch(folded):
        return "weight"
    return folded if folded in (*REQUIRED, *OPTIONAL) else None


def _unit(heads: Sequence[str]) -> str | None:
    match = next(found for head in heads if (found := WEIGHT_HEAD.fullmatch(_folded(head))))
    named = match["round"] or match["square"] or match["bare"]
    return MASS.unit(named).name if named else None


def _check_columns(sheet: Sheet, columns: Sequence[str | None]) -> None:
    counted = Counter(column for column in columns if column)
    absent = [name for name in REQUIRED if name not in counted]
    if absent:
        found = ", ".join(plain(head) for head in sheet.heads if head.strip())
        raise NotUnderstood(
            f"{sheet.name} has no column {' and no column '.join(absent)}. Found: {found}. "
            f"Needed: {', '.join(REQUIRED)}; {', '.join(OPTIONAL)} if you like."
        )
    twice = [name for name, times in counted.items() if times > 1]
    if twice:
        raise NotUnderstood(f"{sheet.name} has more than one column {' and '.join(twice)}. Keep one of each.")


def _row(line: Line, columns: Sequence[str | None]) -> Row:
    cells = {column: cell for column, cell in zip(columns, line.cells, strict=False) if column}
    return Row(line.number, cells, overfull=len(line.cells) > len(columns))
