"""Reading: plain SQL through the driver, rows out as frozen dataclasses or bare values."""

from __future__ import annotations

import types
from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields
from datetime import UTC, date, datetime
from enum import StrEnum
from functools import lru_cache, partial
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from farmops.records.dialects import Dialect

T = TypeVar("T")
Column = Sequence[Any]
Converter = Callable[[Column], Column]


class Reader:
    """Runs SELECTs on a driver connection. Statements name parameters as `:name` on every store."""

    def __init__(self, connection: Any, dialect: Dialect) -> None:
        self.connection = connection
        self.dialect = dialect

    def all(self, kind: type[T], sql: str, **parameters: Any) -> list[T]:
        """Every row as a `kind`, whose fields are the columns by name."""
        columns, found = self._run(sql, parameters)
        make: Callable[[list[tuple[Any, ...]]], list[T]] = maker(kind, columns)  # type: ignore[arg-type]
        return make(found) if found else []

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
            return tuple([column[0] for column in cursor.description]), cursor.fetchall()
        finally:
            cursor.close()


@lru_cache(maxsize=256)
def maker(kind: type, columns: tuple[str, ...]) -> Callable[[list[tuple[Any, ...]]], list[Any]]:
    """A function from a driver's rows to objects of a `kind`; columns that are no field are a defect: KeyError.

    Values are converted column by column, for many columns hold what the field wants already.
    """
    hints = get_type_hints(kind)
    known = [field.name for field in fields(kind)]
    if not set(columns) <= set(known):
        raise KeyError(f"{kind.__name__} has no field for {sorted(set(columns) - set(known))}")
    convert = {name: converter(hints[name]) for name in columns}
    leading = known[: len(columns)]
    led = set(leading) == set(columns)

    def make(rows: list[tuple[Any, ...]]) -> list[Any]:
        made = {name: convert[name](values) for name, values in zip(columns, zip(*rows, strict=True), strict=True)}
        if led:
            return list(map(kind, *(made[name] for name in leading)))
        return [kind(**dict(zip(columns, values, strict=True))) for values in zip(*made.values(), strict=True)]

    return make


def converter(hint: Any) -> Converter:
    """How a column of a driver's values becomes one of the annotated type; None stays None."""
    if get_origin(hint) in (Union, types.UnionType):
        (hint,) = (part for part in get_args(hint) if part is not type(None))
    convert = _of_type(hint)
    as_they_are = {hint, type(None)} - {datetime}  # an instant may have another zone

    def converted(values: Column) -> Column:
        if set(map(type, values)) <= as_they_are:
            return values
        return [None if value is None else convert(value) for value in values]

    return converted


def _of_type(hint: Any) -> Callable[[Any], Any]:
    if hint is datetime:
        return instant
    if hint is date:
        return day
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return partial(_word, {word.value: word for word in hint}, hint)
    if isinstance(hint, type) and issubclass(hint, bool | int | float | str):
        return hint
    raise TypeError(f"no column can become a {hint}")


def _word(known: dict[str, StrEnum], kind: type[StrEnum], value: str) -> StrEnum:
    """The word of an enum; ValueError where it is none of them."""
    return known.get(value) or kind(value)


def day(value: Any) -> date:
    """A day as drivers give it: ISO text on SQLite, a date on PostgreSQL."""
    return date.fromisoformat(value) if isinstance(value, str) else value


def instant(value: Any) -> datetime:
    """An instant in UTC as drivers give it: ISO text without a zone on SQLite, an aware one on PostgreSQL."""
    found: datetime = datetime.fromisoformat(value) if isinstance(value, str) else value
    return found.replace(tzinfo=UTC) if found.tzinfo is None else found.astimezone(UTC)
