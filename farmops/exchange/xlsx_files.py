"""Reading a workbook: the values on one of its sheets, row by row, whatever its file claims to hold."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Iterator
from datetime import date, datetime, time
from itertools import islice
from pathlib import Path
from typing import Any

from farmops.exchange.sheet_rows import MOST_COLUMNS, Line, Sheet, filled, shown
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

LARGEST_UNPACKED = 200_000_000
LARGEST_PART = 50_000_000
"""Bytes unpacked of a part that is held in memory at once; sheets are read row by row."""
MOST_PARTS = 1_000
MOST_SHEETS = 50
HEAD_WITHIN = 100
LONGEST_GAP = 1_000
"""Blank lines: a file can claim so many that passing them takes hours."""
SAVE_AS = "Save it anew as a workbook (.xlsx), or as CSV, UTF-8."


def read_workbook(path: Path, content: bytes, known: Callable[[str], bool]) -> Sheet:
    """The rows of the sheet whose head has the most columns that are `known`; of formulas what they came to.

    Raises NotUnderstood where it is no workbook, is damaged, unpacks to too much, or has no rows.
    """
    _check_parts(path, content)
    try:
        return _read(path, content, known)
    except NotUnderstood:
        raise
    except Exception as error:  # what a damaged workbook raises is anything: its reader trusts what it reads
        raise NotUnderstood(f"{shown(path)} is a damaged workbook. {SAVE_AS}") from error


def _check_parts(path: Path, content: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as parts:
            sizes = {one.filename: one.file_size for one in parts.infolist()}
    except (zipfile.BadZipFile, OSError, ValueError) as error:
        raise NotUnderstood(f"{shown(path)} is a damaged workbook. {SAVE_AS}") from error
    held = [size for name, size in sizes.items() if not name.startswith("xl/worksheets/")]
    if len(sizes) > MOST_PARTS or sum(sizes.values()) > LARGEST_UNPACKED or max(held, default=0) > LARGEST_PART:
        raise NotUnderstood(f"{shown(path)} unpacks to more than a file of records holds. {SAVE_AS}")
    if "xl/workbook.xml" not in sizes:
        raise NotUnderstood(f"{shown(path)} is no workbook of records. {SAVE_AS}")


def _read(path: Path, content: bytes, known: Callable[[str], bool]) -> Sheet:
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    try:
        sheets: list[Any] = [one for one in book.worksheets[:MOST_SHEETS] if hasattr(one, "reset_dimensions")]
        heads = [(one, head) for one in sheets if (head := _head(path, one)) is not None]
        if not heads:
            raise NotUnderstood(f"{shown(path)} is empty; the first line of a sheet names the columns.")
        sheet, head = max(heads, key=lambda one: sum(map(known, one[1].cells)))
        lines = tuple(filled(path, _rows(path, sheet, len(head.cells) + 1)))[1:]
        told = (f"Of {len(heads)} sheets, {plain(sheet.title)} is read.",) if len(heads) > 1 else ()
        return Sheet(shown(path), head.cells, lines, told, point=True)
    finally:
        book.close()


def _head(path: Path, sheet: Any) -> Line | None:
    return next(filled(path, islice(_rows(path, sheet, MOST_COLUMNS + 1), HEAD_WITHIN)), None)


def _rows(path: Path, sheet: Any, width: int) -> Iterator[tuple[int, list[str]]]:
    """The rows as text, without blank ones. What a sheet says of its own size is not believed."""
    sheet.reset_dimensions()
    last = 0
    for number, row in enumerate(sheet.iter_rows(max_col=width, values_only=True), 1):
        if any(value is not None for value in row):
            last = number
            yield number, [_text(value) for value in row]
        elif number - last > LONGEST_GAP:
            raise NotUnderstood(f"{shown(path)} has more than {LONGEST_GAP:,} blank lines after line {last}. {SAVE_AS}")


def _text(value: Any) -> str:
    """A value as it would be typed."""
    match value:
        case None:
            return ""
        case datetime():
            return value.date().isoformat() if value.time() == time() else value.strftime("%Y-%m-%d %H:%M")
        case date():
            return value.isoformat()
        case time():
            return value.strftime("%H:%M")
        case float():
            return repr(int(value)) if value.is_integer() else f"{value:.12g}"
        case _:
            return str(value)
