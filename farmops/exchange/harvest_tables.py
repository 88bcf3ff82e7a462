"""The columns of a file of weighings: a row for each, or a grower's own sheet with a column for each bed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from farmops.exchange.columns import Column, Row, Table, read_table, with_unit
from farmops.quantities import MASS

__all__ = ["COLUMNS", "Row", "Table", "read_rows"]
BED = re.compile(r"(?P<bed>[^\W_][\w.]*-[\w.-]+)(?: *[(\[].+[)\]])?")
"""The head of a column for a bed."""
UNPICKED = ("", "-", "0", "na", "n/a", "nan", "none")


def mass_unit(text: str) -> str:
    """The unit of weight that a head names. Raises NotUnderstood."""
    return MASS.unit(text).name


COLUMNS = (
    Column("date", needed=True),
    Column("unit", needed=True),
    Column("bed", needed=True),
    Column("crop", needed=True),
    Column("weight", needed=True, unit_of=mass_unit),
    Column("count"),
    Column("use"),
    Column("note"),
)


def read_rows(path: str | Path, meant: Mapping[str, str] | None = None, sheet: str | None = None) -> Table:
    """The rows of a file of weighings, of a workbook those on one `sheet`; `meant` says what other heads mean.

    A sheet with a column for each bed, `WREN-N` or `WREN-N (kg)`, gives a row for each weight in it; their crop is
    what grew there. Columns: date, unit, bed, crop, weight; count, use and note if there are any. The head of the
    weights may name their unit: `weight (lb)`, `weight_kg`.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no such file, lacks a column, has one twice, or names no unit of weight.
    """
    table = read_table(path, COLUMNS, meant, _wide, wanted=sheet)
    rows = tuple(part for row in table.rows for part in _parted(row, table.units))
    return replace(table, rows=rows)


def _wide(heads: Sequence[str]) -> Sequence[Column]:
    """The columns of a sheet with a date and a column for each bed; none for a sheet with a row for each weighing."""
    beds = [match["bed"] for head in heads if (match := BED.fullmatch(head))]
    if not beds or "weight" in heads or "bed" in heads:
        return ()
    dates = Column("date", needed=True, also=("day",))
    return (dates, Column("note"), *(Column(bed.upper(), unit_of=mass_unit) for bed in dict.fromkeys(beds)))


def _parted(row: Row, units: Mapping[str, str]) -> Iterator[Row]:
    """A row for each bed from which something was picked; a row of one weighing as it is."""
    beds = [name for name in row.cells if BED.fullmatch(name.lower())]
    if not beds:
        yield row
    for bed in beds:
        cell = row.cells[bed].strip()
        if cell.lower() not in UNPICKED:
            rest = {name: row.cells[name] for name in ("date", "note") if name in row.cells}
            weight = with_unit(cell, units.get(bed))
            yield Row(row.line, {**rest, "bed": bed, "weight": weight}, row.overfull, head=bed)
