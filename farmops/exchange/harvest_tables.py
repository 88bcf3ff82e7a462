"""The columns of a file of weighings."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from farmops.exchange.columns import Column, Row, Table, read_table
from farmops.quantities import MASS

__all__ = ["COLUMNS", "Row", "Table", "read_rows"]


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


def read_rows(path: str | Path, meant: Mapping[str, str] | None = None) -> Table:
    """The rows of a file of weighings; `meant` says of other heads what they mean.

    Columns: date, unit, bed, crop, weight; count, use and note if there are any. The head of the weights may name
    their unit: `weight (lb)`, `weight_kg`.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no such file, lacks a column, has one twice, or names no unit of weight.
    """
    return read_table(path, COLUMNS, meant)
