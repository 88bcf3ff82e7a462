"""Reading a file of rows, CSV or workbook: its head, its rows, and the line each begins on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from farmops.exchange.csv_files import read_csv
from farmops.exchange.plain_files import content_of
from farmops.exchange.sheet_rows import LARGEST_FILE, Line, Sheet, shown
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

__all__ = ["Line", "Sheet", "read_sheet"]

ZIPPED = b"PK\x03\x04"
"""How a workbook begins, whatever its name."""


def read_sheet(path: Path, known: Callable[[str], bool], wanted: str | None = None) -> Sheet:
    """The rows of a file, parted as most heads are `known`; of a workbook the `wanted` sheet, else the one with most.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no plain file, neither text nor a workbook, empty, or larger than any file of records; or
            there is no such sheet.
    """
    content = content_of(path, LARGEST_FILE, "Part it into several.")
    if content.startswith(ZIPPED):
        from farmops.exchange.xlsx_files import read_workbook

        return read_workbook(path, content, known, wanted)
    if wanted is not None:
        raise NotUnderstood(f"{shown(path)} is no workbook, so it has no sheet {plain(wanted)}. Name none.")
    return read_csv(path, content, known)
