"""A farm's store: opened, read in snapshots, written one transaction at a time."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import TYPE_CHECKING

from farmops.model.errors import FarmopsError, NoFarm, NotUnderstood, StoreUnavailable
from farmops.records.dialects import Dialect, Stamp, dialect_of
from farmops.records.reading import Reader
from farmops.records.version import is_current, version_of

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

    from farmops.records.transaction import Transaction


GONE = "{place} is not there any more. What was booked lies where it went: put its disk back, or restore a backup."


class Store:
    """One farm's database. Reading loads the driver alone; SQLAlchemy is loaded by the first write."""

    def __init__(self, place: str) -> None:
        self.place = place
        self.dialect: Dialect = dialect_of(place)
        self._written: object = None
        self.wrote = False
        """Whether anything was written through this object."""
        self.waits = False
        """Whether a write of it waits for another writer to end."""
        self._was_there = False

    @contextmanager
    def reading(self) -> Iterator[Reader]:
        """A reader on one consistent snapshot. An older store is upgraded first."""
        with self._in_words():
            connection = self.dialect.connect()
            try:
                reader = Reader(connection, self.dialect)
                if not is_current(reader):
                    connection.close()
                    self.upgrade()
                    connection = self.dialect.connect()
                    reader = Reader(connection, self.dialect)
                self._was_there = True
                yield reader
            finally:
                self.dialect.let_go(connection)

    @contextmanager
    def writing(self, operation: str) -> Iterator[Transaction]:
        """The one writer's transaction: committed and on disk when the block ends, gone when it raises."""
        self._meet()
        from farmops.records.transaction import Transaction

        with self._in_words(), self._ready() as connection:
            yield Transaction(connection, self.dialect, operation)
        self.wrote = True

    def _meet(self) -> None:
        """A file that is new to us is read first; connections to one that another has replaced are let go."""
        there = self.dialect.identity()
        if there is None or there != self._written:
            self.close()
            with self.reading():
                self._written = self.dialect.identity()

    @contextmanager
    def _ready(self) -> Iterator[Connection]:
        """A transaction on this program's schema; an older one, which a restore has brought back, is upgraded first."""
        with self._begun() as connection:
            ready = is_current(Reader(connection.connection.driver_connection, self.dialect))
            if ready:
                yield connection
        if not ready:
            self.upgrade()
            with self._begun() as connection:
                yield connection

    @contextmanager
    def _begun(self) -> Iterator[Connection]:
        """A transaction that has waited until nobody else writes."""
        engine, self.waits = self.engine, True
        try:
            with engine.begin() as connection:
                self.waits = False
                yield connection
        finally:
            self.waits = False

    def stamp(self) -> Stamp | None:
        """What moves with every change of the store, without opening it; None where only reading can tell."""
        return self.dialect.stamp()

    def advice(self) -> str | None:
        """What to know about the place where it is kept: a network drive, a synced folder; None where all is well."""
        return self.dialect.advice()

    def create(self) -> None:
        """Lay an empty schema; a store that has one already stays as it is."""
        self.dialect.create_place()
        self.dialect.create_file()
        self.upgrade()

    def upgrade(self) -> None:
        """Bring an older schema to the current one in one transaction, after a copy was made of a file."""
        with self._in_words():
            from farmops.records.migrate import upgrade

            upgrade(self)

    def has_schema(self) -> bool:
        """Whether the store exists and is not empty."""
        with self._in_words():
            try:
                connection = self.dialect.connect()
            except NoFarm:
                return False
            try:
                return version_of(Reader(connection, self.dialect)) is not None
            finally:
                self.dialect.let_go(connection)

    @cached_property
    def engine(self) -> Engine:
        """The SQLAlchemy engine, made when something is first written."""
        return self.dialect.engine()

    def close(self) -> None:
        """Let go of pooled connections."""
        self.dialect.close()
        if "engine" in self.__dict__:
            self.engine.dispose()

    @contextmanager
    def _in_words(self) -> Iterator[None]:
        try:
            yield
        except NoFarm as error:
            if self._was_there and self.dialect.identity() is None:
                raise StoreUnavailable(GONE.format(place=self.place)) from error
            raise
        except FarmopsError:
            raise
        except UnicodeEncodeError:
            raise NotUnderstood("What was typed holds signs that are no text. Nothing was changed.") from None
        except Exception as error:
            meaning = self.dialect.in_words(error) or self.dialect.in_words(getattr(error, "orig", None) or error)
            if meaning is None:
                raise
            raise meaning from error
