"""The object a command answers with, as tables: a sheet for each list in it, or one table with the lists folded in."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, fields, is_dataclass
from datetime import date
from enum import Enum
from pathlib import Path
from typing import Any

from farmops.exchange.files import check_place
from farmops.exchange.tables import CSV, KINDS, SVG, Table, Value, ending_of, write_tables
from farmops.model.codec import to_plain
from farmops.model.frozen import dataclass

SCHEMA, ANSWER, WHY = "schema", "answer", "why"
BETWEEN = "; "
OF_FIGURES = ("name", "value", "unit", "made", "formula", "reason", "note", "source")
Record = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Wrote:
    """A file with an answer: how many rows, and the lists that a CSV has no room for."""

    file: Path
    rows: int
    left_out: tuple[str, ...]

    @property
    def told(self) -> str:
        """What was written, in a line or two."""
        count = "no rows: there is nothing to tell yet" if not self.rows else _counted(self.rows)
        more = f" Not in it: {', '.join(self.left_out)}; a file that ends in .xlsx or .json has all."
        return f"Written: {self.file}, {count}.{more if self.left_out else ''}"


def write_answer(place: str, answer: Record, *, replace: bool = False) -> Wrote:
    """Write what `--json` prints as a file: CSV, JSON or XLSX by its ending.

    Raises:
        NotUnderstood: the ending is none of these.
        NotFound: there is no such folder.
        Refused: a file is there already, a workbook cannot hold so much, or the disk does not take it.
    """
    told = {key: value for key, value in answer.items() if key != SCHEMA}
    main, left_out = folded(told)
    file = write_tables(place, tables_of(told), answer, main=main, replace=replace)
    return Wrote(file, len(main.rows), left_out if ending_of(place) == CSV else ())


def check(place: str, *, replace: bool = False, drawn: bool = False) -> None:
    """Raises what writing to this place would, before anything is asked of the farm; `drawn` takes charts, too."""
    ending_of(place, (*KINDS, SVG) if drawn else KINDS)
    check_place(place, replace=replace)


def folded(answer: Record) -> tuple[Table, tuple[str, ...]]:
    """The answer as one table, and the names of what is not in it.

    The rows are those of its first list of objects, each with what the answer says of all of them; without such a list
    the answer is one row. Lists of objects within a row are JSON in its cell.
    """
    whole = _opened(answer)
    lists = [key for key, value in whole.items() if _is_list(value)]
    if not lists:
        return _table(ANSWER, [_one_row(whole)]), ()
    parts = [key for key, value in whole.items() if isinstance(value, Mapping)]
    said = _one_row({key: value for key, value in whole.items() if key not in (*lists, *parts)})
    rows = [{**said, **_one_row(_opened(one))} for one in whole[lists[0]]]
    return _table(lists[0], rows, tuple(said)), tuple(key for key in (*lists[1:], *parts) if whole[key])


def tables_of(answer: Record) -> list[Table]:
    """The answer as sheets: what it says once, then each list of objects, those within others beside them.

    An object within an object is dotted columns. The rows of a list within a list say first which row they are of,
    counted from 1 below the heads. Figures stand on one sheet, each part below what it is a part of.
    """
    book = _Book()
    book.take("", _opened(answer), {})
    return [book.table(name) for name, rows in book.sheets.items() if rows or name != ANSWER]


@dataclass(slots=True)
class _Book:
    """Rows by the sheet they stand on."""

    sheets: dict[str, list[dict[str, Any]]] = field(default_factory=dict)

    def take(self, path: str, record: Record, of: Mapping[str, Any]) -> None:
        """Lay a record down as a row, and the lists in it on sheets of their own."""
        rows = self.sheets.setdefault(path or ANSWER, [])
        rows.append(row := dict(of))
        place = {f"{path} row": len(rows)} if path else {}
        for name, value in _pieces(record):
            if isinstance(value, Mapping):
                self._explain(value, {"of": path or None, "row": place.get(f"{path} row")})
            elif _is_list(value) and (value or not path):
                self._list(f"{path}.{name}" if path else name, value, place)
            else:
                row[name] = _leaf(value)
        if not row:
            rows.pop()

    def table(self, name: str) -> Table:
        """A sheet; a list that is empty in some of its rows is no column of it."""
        rows = self.sheets[name]
        return _table(name, [{key: row[key] for key in row if f"{name}.{key}" not in self.sheets} for row in rows])

    def _list(self, path: str, entries: Sequence[Any], of: Mapping[str, Any]) -> None:
        self.sheets.setdefault(path, [])
        for one in entries:
            self.take(path, _opened(one), of)

    def _explain(self, why: Record, of: Mapping[str, Any]) -> None:
        for key, figure in ({"": why} if "formula" in why else why).items():
            rows = self.sheets.setdefault(WHY, [])
            rows += ({**of, "number": key or None, **one} for one in _explained(_opened(figure), 0))


def _explained(figure: Record, level: int) -> Iterator[dict[str, Any]]:
    """A figure, its parts and its records as rows, each a level below what it belongs to."""
    yield {"level": level, **{key: _leaf(figure.get(key)) for key in OF_FIGURES}}
    for part in figure.get("parts") or ():
        yield from _explained(_opened(part), level + 1)
    for one in map(_opened, figure.get("records") or ()):
        words = {"name": one["words"], "value": one["amount"], "unit": figure.get("unit"), "made": "record"}
        yield {"level": level + 1, **words, "kind": one["kind"], "id": one["id"]}


def _pieces(record: Record, prefix: str = "") -> Iterator[tuple[str, Any]]:
    """What a record holds, the objects in it dissolved into dotted names, but for its figures."""
    for key, value in record.items():
        if isinstance(value, Mapping) and key != WHY:
            yield from _pieces(value, f"{prefix}{key}.")
        else:
            yield f"{prefix}{key}", value


def _one_row(record: Record) -> dict[str, Value]:
    return {name: _in_cell(value) for name, value in _pieces(record)}


def _in_cell(value: Any) -> Value:
    """A value in one cell: what is an object or a list of them as JSON."""
    if isinstance(value, Mapping) or (_is_list(value) and value):
        return json.dumps(to_plain(value), ensure_ascii=False)
    return _leaf(value)


def _table(name: str, rows: Sequence[Record], heads: Sequence[str] = ()) -> Table:
    found = tuple(dict.fromkeys([*heads, *(head for row in rows for head in row)]))
    return Table(name, found, [[row.get(head) for head in found] for row in rows])


def _opened(value: Any) -> dict[str, Any]:
    """An object by its keys, the objects in it opened too."""
    if is_dataclass(value) and not isinstance(value, type):
        value = {one.name: getattr(value, one.name) for one in fields(value)}
    return {str(key): _opened(one) if _is_object(one) else one for key, one in value.items()}


def _is_object(value: Any) -> bool:
    return isinstance(value, Mapping) or (is_dataclass(value) and not isinstance(value, type))


def _is_list(value: Any) -> bool:
    """Whether it is a list of objects; an empty one may be."""
    return isinstance(value, list | tuple) and all(map(_is_object, value))


def _leaf(value: Any) -> Value:
    """A value for a cell; a list of words in one."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, list | tuple):
        return BETWEEN.join(str(to_plain(one)) for one in value) or None
    return value if value is None or isinstance(value, str | int | float | date) else str(value)


def _counted(rows: int) -> str:
    return "1 row" if rows == 1 else f"{rows:,} rows"
