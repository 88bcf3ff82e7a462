"""Reading a workbook: the values on one of its sheets, row by row, whatever its file claims to hold."""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, datetime, time
from functools import partial
from itertools import islice
from pathlib import Path
from typing import IO, Any

from farmops.exchange.sheet_rows import MOST_COLUMNS, Line, Sheet, filled, shown
from farmops.model.errors import NotUnderstood
from farmops.model.text import plain

LARGEST_UNPACKED = 200_000_000
LARGEST_STRINGS = 50_000_000
"""Bytes unpacked of the texts that the cells share, which are held in memory at once."""
LARGEST_PART = 2_000_000
"""Bytes unpacked of any other part that is read whole, such as the styles; pictures are not read."""
MOST_TAGS = 10_000_000
MOST_TAGS_OF_A_ROW = 50_000
"""Of a sheet, whose rows are read one by one, and what stands outside of rows as a whole."""
BLOCK = 1 << 20
ROW = re.compile(rb"<(?:[\w.-]+:)?row[\s/>]")
OTHER_LETTERS = re.compile(rb"encoding\s*=\s*[\"'](?!utf-8[\"'])", re.IGNORECASE)
MOST_PARTS = 1_000
STRINGS = "xl/sharedStrings.xml"
MOST_SHEETS, MOST_NAMED = 50, 10
HEAD_WITHIN = 100
LONGEST_GAP = 1_000
"""Blank lines: a file can claim so many that passing them takes hours."""
SAVE_AS = "Save it anew as a workbook (.xlsx), or as CSV, UTF-8."


def read_workbook(path: Path, content: bytes, known: Callable[[str], bool], wanted: str | None = None) -> Sheet:
    """The rows of the `wanted` sheet, else of the one whose head has the most columns that are `known`.

    Of formulas what they came to. Raises NotUnderstood where it is no workbook, is damaged, unpacks to too much, has no
    rows, or no such sheet.
    """
    check_parts(path, content)
    try:
        return _read(path, content, known, wanted)
    except NotUnderstood:
        raise
    except Exception as error:  # what a damaged workbook raises is anything: its reader trusts what it reads
        raise NotUnderstood(f"{shown(path)} is a damaged workbook. {SAVE_AS}") from error


def check_parts(path: Path, content: bytes) -> None:
    """Raises NotUnderstood where it is no workbook, or unpacks to more than memory should hold."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as parts:
            _check_sizes(path, {one.filename: one.file_size for one in parts.infolist()})
            for name in parts.namelist():
                if _is_sheet(name):
                    _check_sheet(path, parts.open(name))
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, RuntimeError, EOFError, zlib.error) as error:
        raise NotUnderstood(f"{shown(path)} is a damaged workbook. {SAVE_AS}") from error


def _is_sheet(name: str) -> bool:
    return name.startswith("xl/worksheets/") and name.endswith(".xml")


def _check_sizes(path: Path, sizes: Mapping[str, int]) -> None:
    kept = {name: size for name, size in sizes.items() if name.endswith((".xml", ".rels")) and not _is_sheet(name)}
    strings = kept.pop(STRINGS, 0)
    too_large = strings > LARGEST_STRINGS or max(kept.values(), default=0) > LARGEST_PART
    if len(sizes) > MOST_PARTS or sum(sizes.values()) > LARGEST_UNPACKED or too_large:
        raise NotUnderstood(f"{shown(path)} unpacks to more than a file of records holds. {SAVE_AS}")
    if "xl/workbook.xml" not in sizes:
        raise NotUnderstood(f"{shown(path)} is no workbook of records. {SAVE_AS}")


def _check_sheet(path: Path, part: IO[bytes]) -> None:
    """What its reader would make of a sheet is bounded by its tags, which are counted before it begins."""
    tags = of_row = 0
    for number, block in enumerate(iter(partial(part.read, BLOCK), b"")):
        if b"<!DOCTYPE" in block or b"\0" in block or (number == 0 and OTHER_LETTERS.search(block[:200])):
            raise NotUnderstood(f"{shown(path)} is a damaged workbook. {SAVE_AS}")
        first, *rest = (one.count(b"<") for one in ROW.split(block))
        longest, of_row = max(of_row + first, *rest, 0), rest[-1] if rest else of_row + first
        tags += first + sum(rest)
        if longest > MOST_TAGS_OF_A_ROW:
            raise NotUnderstood(f"{shown(path)} has a row of more than {MOST_COLUMNS:,} columns. {SAVE_AS}")
        if tags > MOST_TAGS:
            raise NotUnderstood(f"{shown(path)} has more cells than are read at once. Part it into several files.")


def _read(path: Path, content: bytes, known: Callable[[str], bool], wanted: str | None) -> Sheet:
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    try:
        sheets: list[Any] = [one for one in book.worksheets[:MOST_SHEETS] if hasattr(one, "reset_dimensions")]
        chosen = sheets if wanted is None else [_called(path, sheets, wanted)]
        heads = [(one, head) for one in chosen if (head := _head(path, one)) is not None]
        if not heads:
            which = f"The sheet {plain(wanted)} of {shown(path)}" if wanted else shown(path)
            raise NotUnderstood(f"{which} is empty; the first line of a sheet names the columns.")
        sheet, head = max(heads, key=lambda one: sum(map(known, one[1].cells)))
        lines = tuple(filled(path, _rows(path, sheet, len(head.cells) + 1)))[1:]
        return Sheet(shown(path), head.cells, lines, _told(sheet, sheets), point=True)
    finally:
        book.close()


def _called(path: Path, sheets: Sequence[Any], wanted: str) -> Any:
    """The sheet of a name, in any letter case."""
    named = {" ".join(one.title.split()).lower(): one for one in sheets}
    found = named.get(" ".join(wanted.split()).lower())
    if found is None:
        raise NotUnderstood(f"{shown(path)} has no sheet {plain(wanted)}. Its sheets: {_named(sheets)}.")
    return found


def _told(sheet: Any, sheets: Sequence[Any]) -> tuple[str, ...]:
    """Which of several sheets is read, and which could be."""
    others = [one for one in sheets if one is not sheet]
    return (f"Of {len(sheets)} sheets {plain(sheet.title)} is read, not {_named(others)}.",) if others else ()


def _named(sheets: Sequence[Any]) -> str:
    more = f" and {len(sheets) - MOST_NAMED} more" if len(sheets) > MOST_NAMED else ""
    return ", ".join(plain(one.title) for one in sheets[:MOST_NAMED]) + more


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
