"""A transaction: the only way to write, which sees every row before and after."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from functools import partial
from typing import Any, TypeVar

from sqlalchemy import Connection, Table, UniqueConstraint, insert, select
from sqlmodel import Session

from farmops.model.errors import NotFound
from farmops.model.journal import Image
from farmops.records.base import Row
from farmops.records.dialects import Dialect
from farmops.records.journal import JournalRow
from farmops.records.reading import Reader
from farmops.records.rows import load_linked, row_of

R = TypeVar("R", bound=Row)
Values = dict[str, Any]
Known = tuple[Values | None, Values | None]

ENTERING = insert(JournalRow)
"""An entry into the journal, as each change makes one."""
MOST_AT_ONCE = 500
"""So many parameters any database takes."""


class Transaction:
    """Adds, gets, changes and removes rows for one operation, and keeps an image of each before and after."""

    def __init__(self, connection: Connection, dialect: Dialect, operation: str) -> None:
        self.operation = operation
        self.dialect = dialect
        self.connection = connection
        self.session = Session(bind=connection, autoflush=False)
        self.reader = Reader(connection.connection.driver_connection, dialect)
        self.written = 0
        """How often a row was written so far."""
        self._added: list[Row] = []  # the session alone would forget them and read each one again
        self._first: dict[tuple[str, int], Values | None] = {}
        self._last: dict[tuple[str, int], Values | None] = {}
        self._tried: dict[tuple[str, int], Known | None] | None = None

    def add(self, row: R) -> R:
        """Write a new row; it has its id afterwards."""
        self.add_all([row])
        return row

    def add_all(self, rows: Sequence[R]) -> None:
        """Write many new rows of one table at once."""
        for row in rows:
            row.operation = self.operation
        self.session.add_all(rows)
        self.flush()
        self._added += rows
        for row in rows:
            self._note(row, None, image(row))

    def flush(self) -> None:
        """Write what was changed in rows."""
        load_linked(type(row) for row in (*self.session.new, *self.session.dirty, *self.session.deleted))
        self.session.flush()

    def get(self, kind: type[R], id: int) -> R:
        """The row of that id. Raises NotFound."""
        row = self.session.get(kind, id)
        if row is None:
            raise _no(kind, id)
        return row

    def must_exist(self, kind: type[Row], id: int) -> None:
        """Raises NotFound where there is no row of that id; cheaper than getting one of which nothing else is asked."""
        if self.reader.value(f"SELECT 1 FROM {kind.table_name()} WHERE id = :id", id=id) is None:  # noqa: S608
            raise _no(kind, id)

    def change(self, row: R, **values: Any) -> R:
        """Write new values into a row; a row that already holds them stays untouched."""
        if all(getattr(row, name) == value for name, value in values.items()):
            return row
        before = image(row)
        for name, value in values.items():
            setattr(row, name, value)
        if image(row) != before:
            row.operation = self.operation
        self.flush()
        self._note(row, before, image(row))
        return row

    def remove(self, row: Row) -> None:
        """Delete a row; its image stays in the journal."""
        before = image(row)
        self.session.delete(row)
        self.flush()
        self._note(row, before, None)

    def restore(self, wanted: Image) -> None:
        """Bring a row to the image `after`, whatever operation it names; for undo and redo alone."""
        table = row_of(wanted.table).__table__  # type: ignore[attr-defined]
        if wanted.after is None:
            self.connection.execute(table.delete().where(table.c.id == wanted.id))
        elif wanted.before is None:
            self.connection.execute(table.insert(), values_of(table, wanted.after))
        else:
            self.connection.execute(
                table.update().where(table.c.id == wanted.id).values(values_of(table, wanted.after))
            )
        self.session.expire_all()
        self._keep((wanted.table, wanted.id), wanted.before, wanted.after)

    @contextmanager
    def attempt(self) -> Iterator[Callable[[], list[Image]]]:
        """What is written within is kept when the block ends and taken back alone when it raises.

        Gives what tells the images of the rows that were written within.
        """
        self._tried = {}
        added = len(self._added)
        try:
            with self.session.begin_nested():
                yield lambda: self._images(self._tried or ())
        except BaseException:
            del self._added[added:]
            for key, known in self._tried.items():
                self._forget(key, known)
            raise
        finally:
            self._tried = None

    def _forget(self, key: tuple[str, int], known: Known | None) -> None:
        if known is None:
            del self._first[key], self._last[key]
        else:
            self._first[key], self._last[key] = known

    def append_to_journal(self, entry: Values) -> None:
        """Write an entry of the journal, which has no image of its own."""
        self.connection.execute(ENTERING, entry)

    def defer_links(self) -> None:
        """Check links between rows when the transaction ends, because rows come back one by one."""
        self.dialect.defer_links(self.connection)

    def current(self, table: str, id: int) -> Values | None:
        """The image of a row as it stands, or None."""
        return self.standing(table, [id]).get(id)

    def standing(self, table: str, ids: Iterable[int]) -> dict[int, Values]:
        """The images of rows as they stand, by id; those that are not there are left out."""
        kind, wanted = row_of(table), list(ids)
        target: Table = kind.__table__  # type: ignore[attr-defined]
        found: dict[int, Values] = {}
        for at in range(0, len(wanted), MOST_AT_ONCE):
            query = select(target).where(target.c.id.in_(wanted[at : at + MOST_AT_ONCE]))
            found |= {row["id"]: _image(kind, row.__getitem__) for row in self.connection.execute(query).mappings()}
        return found

    def pointing_at(self, table: str, id: int) -> list[tuple[str, int, str]]:
        """Rows that point to a row: table, id and the operation that last wrote them."""
        from farmops.records.tables import BY_TABLE

        found = []
        for other in BY_TABLE.values():
            target: Table = other.__table__  # type: ignore[attr-defined]
            columns = [key.parent for key in target.foreign_keys if key.column.table.name == table]
            for column in columns:
                query = select(target.c.id, target.c.operation).where(column == id).order_by(target.c.id)
                found += [(target.name, row[0], row[1]) for row in self.connection.execute(query)]
        return found

    def clashing_with(self, table: str, values: Mapping[str, Any], id: int) -> list[str]:
        """Operations that wrote another row with the same value where only one may have it."""
        target: Table = row_of(table).__table__  # type: ignore[attr-defined]
        typed = values_of(target, values)
        found: list[str] = []
        for constraint in target.constraints:
            if isinstance(constraint, UniqueConstraint) and all(typed.get(c.name) is not None for c in constraint):
                same = [column == typed[column.name] for column in constraint]
                found += self.connection.execute(select(target.c.operation).where(*same, target.c.id != id)).scalars()
        return found

    def links(self, table: str, values: Mapping[str, Any]) -> list[tuple[str, int]]:
        """Table and id of every row that an image points to."""
        load_linked([row_of(table)])
        target: Table = row_of(table).__table__  # type: ignore[attr-defined]
        pointed = [(key.column.table.name, values.get(key.parent.name)) for key in target.foreign_keys]
        return [(name, id) for name, id in pointed if id is not None]

    @property
    def images(self) -> list[Image]:
        """Every row this transaction touched, as it was before and as it is now; unchanged ones left out."""
        return self._images(self._first)

    def _images(self, keys: Iterable[tuple[str, int]]) -> list[Image]:
        both = ((*key, self._first[key], self._last[key]) for key in keys)
        return [Image(table, id, before, after) for table, id, before, after in both if before != after]

    def _note(self, row: Row, before: Values | None, after: Values | None) -> None:
        self._keep((row.table_name(), row.id), before, after)

    def _keep(self, key: tuple[str, int], before: Values | None, after: Values | None) -> None:
        if self._tried is not None and key not in self._tried:
            self._tried[key] = (self._first[key], self._last[key]) if key in self._first else None
        self.written += 1
        self._first.setdefault(key, before)
        self._last[key] = after


def _no(kind: type[Row], id: int) -> NotFound:
    return NotFound(f"There is no {kind.table_name().replace('_', ' ')} {id}.")


def image(row: Row) -> Values:
    """The stored columns of a row in JSON's types, without those that are derived."""
    return _image(type(row), partial(getattr, row))


def _image(kind: type[Row], value_of: Callable[[str], Any]) -> Values:
    columns = kind.__table__.columns  # type: ignore[attr-defined]
    return {c.name: _plain(value_of(c.name)) for c in columns if c.name not in kind.derived}


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat(timespec="microseconds")
    return value.isoformat() if isinstance(value, date) else value


def values_of(table: Table, stored: Mapping[str, Any]) -> Values:
    """The values of an image in the types of their columns."""
    return {name: _typed(table.c[name].type.python_type, value) for name, value in stored.items()}


def _typed(kind: type, value: Any) -> Any:
    return kind.fromisoformat(value) if value is not None and issubclass(kind, date) else value
