"""The whole farm as one workbook, a sheet for each table: to be looked at, reckoned with, and taken in again."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Table

from farmops import __version__, clock
from farmops.exchange.files import write_file
from farmops.exchange.stored_cells import cell, value_of
from farmops.exchange.xlsx_files import check_parts
from farmops.facts import farm as farm_facts
from farmops.model.errors import Refused
from farmops.model.text import plain
from farmops.records.reading import Reader
from farmops.records.version import CURRENT
from farmops.records.whole import TABLES, kinds, rows

ABOUT, LONG_TEXTS = "about", "long_texts"
LONG_HEADS = ("table", "row", "column", "part", "text")
LONGEST = 32_000
"""Signs of the longest text in a cell; a workbook takes 32,767. What is longer stands in parts elsewhere."""
MOST_ROWS = 1_048_575
FIRST_DAY = date(1900, 3, 1)
"""Spreadsheets disagree about the days before."""
LARGEST_EXACT = 2**53
NOT_TAKEN = re.compile(r"[\x00-\x08\x0b-\x1f\ud800-\udfff\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")
ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
WORDS = (
    "Each sheet is a table of the farm, each row a record: weights in mg, volumes in ml, areas in mm2, money in cents.",
    "A text that begins like a formula has an apostrophe before it. Instants are in UTC, as text.",
    f"Texts of more than {LONGEST:,} signs, such as large entries of the journal, stand in parts on {LONG_TEXTS}.",
    "farmops import package makes the same farm of it. It lacks photos and receipts: an export to a folder has them.",
)


def write_workbook(reader: Reader, target: Path) -> tuple[int, int]:
    """Write every table; returns how many tables and rows. Raises Refused for more rows than a sheet has."""
    from openpyxl import Workbook

    book, count = Workbook(write_only=True), 0
    _write_about(book.create_sheet(ABOUT), reader)
    long: list[tuple[Any, ...]] = []
    for table in TABLES.values():
        count += _write_table(book.create_sheet(table.name), reader, table, long)
    sheet = book.create_sheet(LONG_TEXTS)
    for row in (LONG_HEADS, *long):
        sheet.append(row)
    content = io.BytesIO()
    book.save(content)
    write_file(str(target), content.getvalue())
    return len(TABLES), count


def _write_about(sheet: Any, reader: Reader) -> None:
    given = reader.dialect.numbers_given(reader, [name for name in TABLES if name != "journal"])
    about = {
        "farm": in_cell(farm_facts.farm(reader).name),
        "made": cell(clock.now()),
        "farmops": __version__,
        "schema": CURRENT,
        "numbers given": json.dumps(given),
    }
    sheet.column_dimensions["A"].width = max(map(len, about)) + 2
    for pair in about.items():
        sheet.append(pair)
    for words in WORDS:
        sheet.append(("", words))


def _write_table(sheet: Any, reader: Reader, table: Table, long: list[tuple[Any, ...]]) -> int:
    sheet.freeze_panes = "A2"
    columns, count = [*kinds(table)], 0
    sheet.append(columns)
    for count, row in enumerate(rows(reader, table), 1):
        if count > MOST_ROWS:
            raise Refused(f"Not written: {table.name} has more rows than a sheet. Name a folder: CSV files have room.")
        sheet.append([_laid(table.name, count, name, in_cell(row[name]), long) for name in columns])
    return count


def _laid(table: str, number: int, column: str, value: Any, long: list[tuple[Any, ...]]) -> Any:
    """A value for its cell; one that is too long goes in parts to the long ones."""
    if not isinstance(value, str) or len(value) <= LONGEST:
        return value
    parts = [value[at : at + LONGEST] for at in range(0, len(value), LONGEST)]
    long += [(table, number, column, at, f"|{part}") for at, part in enumerate(parts, 1)]
    return None


def in_cell(value: Any) -> Any:
    """A value as a workbook keeps it to the last digit: as what it is where that is exact, else as text."""
    match value:
        case datetime():
            return cell(value)
        case bool() | None:
            return value
        case date():
            return value if value >= FIRST_DAY else cell(value)
        case int():
            return value if abs(value) <= LARGEST_EXACT else cell(value)
        case float():
            return value if float(f"{value:.16g}") == value else cell(value)
        case _:
            return NOT_TAKEN.sub(lambda found: f"_x{ord(found[0]):04X}_", cell(value))


def of_cell(kind: type[Any], kept: Any) -> Any:
    """The value that `in_cell` kept. Raises ValueError."""
    if kept is None:
        return None
    if isinstance(kept, str):
        return value_of(kind, ESCAPED.sub(lambda found: chr(int(found[1], 16)), kept))
    if issubclass(kind, str | datetime):
        raise ValueError(kept)
    if issubclass(kind, date):
        return kept.date()
    return kind(kept)


class TakenApart:
    """A workbook of a whole farm, read sheet by sheet.

    Raises Refused where it is none, or of another schema; its tables raise it where they cannot be read.
    """

    def __init__(self, place: Path) -> None:
        from openpyxl import load_workbook

        try:
            content = place.read_bytes()
            check_parts(place, content)
            self.book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
            self.about = {str(row[0]): row[1] for row in self._rows(ABOUT, 2) if row[0]}
        except Refused:
            raise
        except Exception as error:  # what a damaged workbook raises is anything
            raise Refused(f"Not taken in: {plain(str(place))} is no workbook of a whole farm.") from error
        self._long = self._long_texts()

    @property
    def schema(self) -> str:
        """The schema it was written with."""
        return str(self.about.get("schema"))

    @property
    def given(self) -> dict[str, int]:
        """The highest number that each table has given out. Raises Refused."""
        try:
            found = json.loads(str(self.about.get("numbers given")))
            return {str(name): int(number) for name, number in found.items() if name in TABLES}
        except (ValueError, AttributeError, TypeError, RecursionError) as error:
            raise Refused("Not taken in: its first sheet is not as it was written.") from error

    def tables(self) -> dict[str, Iterator[Mapping[str, Any]]]:
        """Every table, row by row."""
        return {name: self._table(name) for name in TABLES}

    def _rows(self, sheet: str, width: int) -> Iterator[tuple[Any, ...]]:
        if sheet not in self.book.sheetnames:
            raise Refused(f"Not taken in: the sheet {sheet} is missing from the workbook.")
        found: Any = self.book[sheet]
        found.reset_dimensions()
        for row in found.iter_rows(max_col=width, values_only=True):
            yield tuple(row) + (None,) * (width - len(row))

    def _table(self, name: str) -> Iterator[Mapping[str, Any]]:
        columns, number = kinds(TABLES[name]), 0
        found = self._rows(name, len(columns) + 1)
        try:
            if next(found, ())[:-1] != (*columns,):
                raise Refused(f"Not taken in: the sheet {name} has other columns than this program knows.")
            for number, row in enumerate(found, 1):
                cells = zip(columns.items(), row, strict=False)
                yield {key: of_cell(kind, self._long.get((name, number, key), kept)) for (key, kind), kept in cells}
        except Refused:
            raise
        except Exception as error:  # what a damaged workbook raises is anything
            raise Refused(f"Not taken in: the sheet {name} cannot be read near row {number + 1}.") from error

    def _long_texts(self) -> dict[tuple[str, int, str], str]:
        found: dict[tuple[str, int, str], str] = {}
        for table, number, column, _, text in self._rows(LONG_TEXTS, len(LONG_HEADS)):
            if number != LONG_HEADS[1]:
                key = (str(table), int(number), str(column))
                found[key] = found.get(key, "") + str(text)[1:]
        return found
