"""Reading a CSV file: its text in whatever encoding, what parts its columns, and the line each row begins on."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from pathlib import Path

from farmops.exchange.sheet_rows import Line, Sheet, filled, shown
from farmops.model.errors import NotUnderstood

DELIMITERS = (",", ";", "\t")
SAVE_AS = "Save it as CSV, UTF-8."
UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")
LOOKED_AT = 400
"""Bytes from whose zeros UTF-16 without a mark is told."""


def read_csv(path: Path, content: bytes, known: Callable[[str], bool]) -> Sheet:
    """The rows of a CSV file parted by comma, semicolon or tab, whichever finds the most heads that are `known`.

    Raises NotUnderstood where it is no text, is empty or too large, or has a quotation mark that is never closed.
    """
    text, told = _text(path, content)
    first = next((line for line in io.StringIO(text) if line.strip()), "")
    if not first:
        raise NotUnderstood(f"{shown(path)} is empty; its first line names the columns.")
    delimiter = max(DELIMITERS, key=lambda sign: sum(map(known, _parted(first, sign))))
    head, *lines = _lines(path, text, delimiter)
    return Sheet(shown(path), head.cells, tuple(lines), told)


def _parted(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=delimiter))
    except csv.Error:
        return []


def _text(path: Path, content: bytes) -> tuple[str, tuple[str, ...]]:
    """The text, and how it was read where that had to be found out."""
    encoding, told = _encoding(content)
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        number = content.count(b"\n", 0, error.start) + 1
        raise NotUnderstood(
            f"{shown(path)} is no text in {told.partition(',')[0]}: see line {number}. {SAVE_AS}"
        ) from None
    if "\0" in text:
        raise NotUnderstood(f"{shown(path)} is no CSV file: it holds bytes that no text has. {SAVE_AS}")
    return text, ((f"{shown(path)} is read as {told}.",) if told else ())


def _encoding(content: bytes) -> tuple[str, str]:
    """The encoding of a text, and its name where it is not UTF-8."""
    if content.startswith(UTF_16_MARKS):
        return "utf-16", "UTF-16"
    start = content[:LOOKED_AT]
    for offset, encoding in ((1, "utf-16-le"), (0, "utf-16-be")):
        if start and start[offset::2].count(0) > len(start) // 3:
            return encoding, "UTF-16"
    try:
        content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return "cp1252", "Windows-1252, for it is no UTF-8: look at its accents"
    return "utf-8-sig", ""


def _lines(path: Path, text: str, delimiter: str) -> Iterator[Line]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True, strict=True)
    number = 1

    def rows() -> Iterator[tuple[int, list[str]]]:
        nonlocal number
        for cells in reader:
            yield number, cells
            number = reader.line_num + 1

    try:
        yield from filled(path, rows())
    except csv.Error as error:
        raise NotUnderstood(f"{shown(path)}, line {number}, is no CSV: {error}. Look at its quotation marks.") from None
