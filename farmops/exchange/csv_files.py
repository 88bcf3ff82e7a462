"""Reading a CSV file: its text, what parts its columns, and the line each row begins on."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from farmops.model.errors import NotFound, NotUnderstood
from farmops.model.text import plain

DELIMITERS = (",", ";", "\t")
SAVE_AS = "Save it as CSV, UTF-8."


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a file and the number of the line it begins on, counted from 1."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A file's head and the rows below it; blank rows are left out."""

    name: str
    heads: tuple[str, ...]
    lines: tuple[Line, ...]


def read_sheet(path: Path, known: Callable[[str], bool]) -> Sheet:
    """The rows of a CSV file parted by comma, semicolon or tab, whichever finds the most heads that are `known`.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: the file is no text in UTF-8, is empty, or has a quotation mark that is never closed.
    """
    text = _text(path)
    first = next((line for line in text.splitlines() if line.strip()), "")
    if not first:
        raise NotUnderstood(f"{_name(path)} is empty; its first line names the columns.")
    delimiter = max(DELIMITERS, key=lambda sign: sum(map(known, next(csv.reader([first], delimiter=sign)))))
    head, *lines = _lines(path, text, delimiter)
    return Sheet(_name(path), head.cells, tuple(lines))


def _name(path: Path) -> str:
    return plain(path.name)


def _text(path: Path) -> str:
    try:
        content = path.read_bytes()
    except OSError as error:
        raise NotFound(f"{plain(str(path))} cannot be read: {error.strerror or error}.") from None
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        number = content.count(b"\n", 0, error.start) + 1
        raise NotUnderstood(f"{_name(path)} is no text in UTF-8: see line {number}. {SAVE_AS}") from None
    if "\0" in text:
        raise NotUnderstood(f"{_name(path)} is no CSV file: it holds bytes that no text has. {SAVE_AS}")
    return text


def _lines(path: Path, text: str, delimiter: str) -> Iterator[Line]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True, strict=True)
    number = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield Line(number, _trimmed(cells))
            number = reader.line_num + 1
    except csv.Error as error:
        raise NotUnderstood(f"{_name(path)}, line {number}, is no CSV: {error}. Look at its quotation marks.") from None


def _trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    """The cells without the empty ones at the end that spreadsheets add."""
    last = max(at for at, cell in enumerate(cells) if cell.strip())
    return tuple(cells[: last + 1])
