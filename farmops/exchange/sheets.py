"""Reading a file of rows, CSV or workbook: its head, its rows, and the line each begins on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from farmops.exchange.csv_files import read_csv
from farmops.exchange.plain_files import content_of
from farmops.exchange.sheet_rows import LARGEST_FILE, Line, Sheet

__all__ = ["Line", "Sheet", "read_sheet"]

ZIPPED = b"PK\x03\x04"
"""How a workbook begins, whatever its name."""


def read_sheet(path: Path, known: Callable[[str], bool]) -> Sheet:
    """The rows of a file, parted and, in a workbook, on the sheet with the most heads that are `known`.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is no plain file, neither text nor a workbook, empty, or larger than any file of records.
    """
    content = content_of(path, LARGEST_FILE, "Part it into several.")
    if content.startswith(ZIPPED):
        from farmops.exchange.xlsx_files import read_workbook

        return read_workbook(path, content, known)
    return read_csv(path, content, known)
