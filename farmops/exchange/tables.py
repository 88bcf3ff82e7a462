"""Tables as they go out: named columns of plain values, written as CSV, JSON or a workbook by the file's ending."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from farmops.exchange.files import write_file
from farmops.exchange.stored_cells import BITES, GUARD, cell
from farmops.model.codec import to_plain
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.frozen import dataclass
from farmops.model.text import plain, plain_json

if TYPE_CHECKING:
    from openpyxl import Workbook

Value = str | int | float | bool | date | None
"""What a cell holds; an instant is a `date` too."""
CSV, JSON, XLSX, SVG = ".csv", ".json", ".xlsx", ".svg"
KINDS = {CSV: "a table", JSON: "an object", XLSX: "a workbook"}
LONGEST_TEXT, MOST_ROWS, MOST_COLUMNS = 32_767, 1_048_576, 16_384
"""What a workbook takes at the most."""
LONGEST_TITLE = 31
NOT_IN_TITLES = str.maketrans(dict.fromkeys("[]:*?/\\'", " "))
TAKEN = {"history"}
"""Titles that spreadsheets keep for themselves."""
WIDEST, MEASURED = 48, 200
LARGEST_EXACT = 2**53
"""Whole numbers up to here are what they are in every spreadsheet."""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under heads; a head names the unit of its numbers."""

    name: str
    heads: tuple[str, ...]
    rows: Sequence[Sequence[Value]]


def ending_of(place: str, endings: Iterable[str] = KINDS) -> str:
    """The ending that says how a file is written. Raises NotUnderstood for one that is not known here."""
    known = tuple(endings)
    found = Path(place).suffix.lower()
    if found not in known:
        named = f"ends in {plain(found)}" if found else "has no ending"
        raise NotUnderstood(f"{plain(place)} {named}. Understood: {', '.join(known)}.")
    return found


def write_tables(
    place: str, tables: Sequence[Table], whole: Mapping[str, Any], *, main: Table | None = None, replace: bool = False
) -> Path:
    """Write a file by its ending, for its owner alone: CSV holds the `main` table, JSON the `whole`, XLSX all tables.

    Raises:
        NotUnderstood: the ending is none of these.
        NotFound: there is no such folder.
        Refused: a file is there already, a workbook cannot hold so much, or the disk does not take it.
    """
    return write_file(place, content_of(ending_of(place), tables, whole, main), replace=replace)


def content_of(ending: str, tables: Sequence[Table], whole: Mapping[str, Any], main: Table | None = None) -> bytes:
    """What such a file holds. Raises Refused where a workbook cannot hold it."""
    if ending == CSV:
        return as_csv(main or tables[0])
    if ending == JSON:
        text = json.dumps(to_plain(whole), ensure_ascii=False, indent=1)
        return (plain_json(text) + "\n").encode()
    return as_workbook(tables)


def as_object(title: str, tables: Sequence[Table]) -> dict[str, Any]:
    """Tables as one object: each a list of rows, by the heads."""
    rows = {one.name: [dict(zip(one.heads, row, strict=True)) for row in one.rows] for one in tables}
    return {"schema": 1, "title": title, **rows}


def as_csv(table: Table) -> bytes:
    """One table as CSV: UTF-8, a comma between cells, decimal points, days as 2026-05-03."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    if table.heads:
        writer.writerow([_text(head) for head in table.heads])
    writer.writerows([_in_csv(value) for value in row] for row in table.rows)
    return text.getvalue().encode()


def _in_csv(value: Value) -> str:
    return _text(value) if isinstance(value, str) else cell(value)


def _text(text: str) -> str:
    """Text that no spreadsheet computes and no terminal obeys."""
    shown = plain(text)
    return GUARD + shown if shown.startswith(BITES) else shown


def as_workbook(tables: Sequence[Table]) -> bytes:
    """A workbook with a sheet for each table: real numbers and days, heads that stay. Raises Refused for too much."""
    from openpyxl import Workbook

    for table in tables:
        _refuse_too_much(table)
    book = Workbook(write_only=True)
    for title, table in zip(titles([one.name for one in tables]), tables, strict=True):
        _write_sheet(book, title, table)
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def titles(names: Sequence[str]) -> list[str]:
    """Names as titles of sheets: no sign that is not taken there, not too long, each of its own."""
    found: list[str] = []
    for name in names:
        tidy = " ".join(plain(name).translate(NOT_IN_TITLES).split()) or "sheet"
        title, number = tidy[:LONGEST_TITLE], 1
        while title.lower() in TAKEN | {other.lower() for other in found}:
            number += 1
            title = f"{tidy[: LONGEST_TITLE - len(str(number)) - 1]} {number}"
        found.append(title)
    return found


def _write_sheet(book: Workbook, title: str, table: Table) -> None:
    sheet: Any = book.create_sheet(title)
    sheet.freeze_panes = "A2"
    for letter, width in _widths(table):
        sheet.column_dimensions[letter].width = width
    sheet.append([_head(sheet, head) for head in table.heads])
    for row in table.rows:
        sheet.append([_in_sheet(value) for value in row])


def _widths(table: Table) -> Iterator[tuple[str, int]]:
    from openpyxl.utils import get_column_letter

    for at, head in enumerate(table.heads):
        cells = (_in_csv(row[at]) for row in table.rows[:MEASURED] if at < len(row))
        yield get_column_letter(at + 1), min(WIDEST, max([len(head), *map(len, cells)]) + 2)


def _head(sheet: Any, text: str) -> Any:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font

    head = WriteOnlyCell(sheet, value=_text(text))
    head.font = Font(bold=True)
    return head


def _in_sheet(value: Value) -> Any:
    """A value that a workbook holds as what it is; instants in UTC, which a workbook does not name."""
    match value:
        case datetime():
            return value.astimezone(UTC).replace(tzinfo=None)
        case bool() | None:
            return value
        case int() if abs(value) > LARGEST_EXACT:
            return str(value)
        case str():
            return _text(value)
        case _:
            return value


def _refuse_too_much(table: Table) -> None:
    longest = max((len(_text(value)) for row in table.rows for value in row if isinstance(value, str)), default=0)
    if len(table.rows) >= MOST_ROWS or len(table.heads) > MOST_COLUMNS:
        what = f"{len(table.rows):,} rows of {len(table.heads):,} columns"
    elif longest > LONGEST_TEXT:
        what = f"a text of {longest:,} signs"
    else:
        return
    raise Refused(f"Not written: a workbook cannot hold {what}. Let the file end in {CSV} or {JSON}.")
