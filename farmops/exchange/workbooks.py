"""The whole farm as one workbook, a sheet for each table, to be looked at and reckoned with."""

from __future__ import annotations

import io
from datetime import datetime
from pathlib import Path
from typing import Any

from farmops.exchange.files import write_file
from farmops.exchange.stored_cells import BITES, GUARD
from farmops.model.text import plain
from farmops.records.reading import Reader
from farmops.records.whole import TABLES, kinds, rows

LONGEST = 32_000
"""Signs of the longest text in a cell; a workbook takes 32,767."""
LEFT_OUT = {"images", "result"}
"""Columns of the journal that are longer than a cell; the CSV files have them."""


def write_workbook(reader: Reader, target: Path) -> tuple[int, int]:
    """Write every table; returns how many tables and rows. Raises Refused where the disk does not take it."""
    from openpyxl import Workbook

    book, count = Workbook(write_only=True), 0
    for table in TABLES.values():
        sheet = book.create_sheet(table.name)
        names = [name for name in kinds(table) if name not in LEFT_OUT or table.name != "journal"]
        sheet.append(names)
        for row in rows(reader, table):
            sheet.append([_cell(row[name]) for name in names])
            count += 1
    content = io.BytesIO()
    book.save(content)
    write_file(str(target), content.getvalue())
    return len(TABLES), count


def _cell(value: Any) -> Any:
    """A value that a workbook can hold: instants without a zone, in UTC; text that is no formula and not too long."""
    if isinstance(value, datetime):
        return value.replace(tzinfo=None)
    if not isinstance(value, str):
        return value
    text = plain(value)[:LONGEST]
    return GUARD + text if text.startswith(BITES) else text
