"""Reading: plain SQL through the driver, rows out as frozen dataclasses or bare values."""

from __future__ import annotations

import types
from collections.abc import Callable, Iterator
from dataclasses import fields
from datetime import UTC, date, datetime
from enum import StrEnum
from functools import lru_cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from farmops.records.dialects import Dialect

T = TypeVar("T")
Converter = Callable[[Any], Any]


class Reader:
    """Runs SELECTs on a driver connection. Statements name parameters as `:name` on every store."""

    def __init__(self, connection: Any, dialect: Dialect) -> None:
        self.connection = connection
        self.dialect = dialect

    def all(self, kind: type[T], sql: str, **parameters: Any) -> list[T]:
        """Every row as a `kind`, whose fields are the columns by name."""
        columns, found = self._run(sql, parameters)
        make: Callable[[tuple[Any, ...]], T] = maker(kind, columns)  # type: ignore[arg-type]
        return [make(row) for row in found]

    def one(self, kind: type[T], sql: str, **parameters: Any) -> T | None:
        """The first row as a `kind`, or None."""
        found = self.all(kind, sql, **parameters)
        return found[0] if found else None

    def value(self, sql: str, **parameters: Any) -> Any:
        """The first column of the first row, or None."""
        _, found = self._run(sql, parameters)
        return found[0][0] if found else None

    def rows(self, sql: str, **parameters: Any) -> Iterator[dict[str, Any]]:
        """Every row as a mapping of column to the driver's value."""
        columns, found = self._run(sql, parameters)
        return (dict(zip(columns, row, strict=True)) for row in found)

    def _run(self, sql: str, parameters: dict[str, Any]) -> tuple[tuple[str, ...], list[tuple[Any, ...]]]:
        cursor = self.connection.cursor()
        try:
            cursor.execute(self.dialect.sql(sql), self.dialect.parameters(parameters))
            return tuple(column[0] for column in cursor.description), cursor.fetchall()
        finally:
            cursor.close()


@lru_cache(maxsize=256)
def maker(kind: type, columns: tuple[str, ...]) -> Callable[[tuple[Any, ...]], Any]:
    """A function from a driver's row to a `kind`; columns that are no field are a defect and raise KeyError."""
    hints = get_type_hints(kind)
    known = {field.name for field in fields(kind)}
    converters = [(name, converter(hints[name])) for name in columns if name in known]
    if len(converters) != len(columns):
        raise KeyError(f"{kind.__name__} has no field for {sorted(set(columns) - known)}")

    def make(row: tuple[Any, ...]) -> Any:
        return kind(**{name: convert(value) for (name, convert), value in zip(converters, row, strict=True)})

    return make


def converter(hint: Any) -> Converter:
    """How a driver's value becomes a value of the annotated type; None stays None."""
    if get_origin(hint) in (Union, types.UnionType):
        (hint,) = (part for part in get_args(hint) if part is not type(None))
    convert = _of_type(hint)
    return lambda value: None if value is None else convert(value)


def _of_type(hint: Any) -> Converter:
    if hint is datetime:
        return instant
    if hint is date:
        return day
    if isinstance(hint, type) and issubclass(hint, StrEnum | bool | int | float | str):
        return hint
    raise TypeError(f"no column can become a {hint}")


def day(value: Any) -> date:
    """A day as drivers give it: ISO text on SQLite, a date on PostgreSQL."""
    return date.fromisoformat(value) if isinstance(value, str) else value


def instant(value: Any) -> datetime:
    """An instant in UTC as drivers give it: ISO text without a zone on SQLite, an aware one on PostgreSQL."""
    found: datetime = datetime.fromisoformat(value) if isinstance(value, str) else value
    return found.replace(tzinfo=UTC) if found.tzinfo is None else found.astimezone(UTC)
