"""The one place that knows how SQLite and PostgreSQL differ, for reading and for writing."""

from __future__ import annotations

import os
import re
import sqlite3
from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from datetime import date
from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING, Any, cast
from weakref import finalize

from farmops.model.errors import DAMAGED, FarmopsError, NoFarm, OutOfRange, Refused, StoreDamaged, StoreUnavailable
from farmops.records.location import is_url

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

    from farmops.records.reading import Reader

BUSY_SECONDS = 30
FIRST_STEP = "No farm here yet. Open one with: farmops farm open NAME, or look around with: farmops demo --print"
FULL_DISK = "The disk is full: nothing was written. Free some space and try again."
TOO_LARGE = "A number is larger than any that a store keeps."
SQLITE_WORDS = {
    sqlite3.SQLITE_BUSY: "{place} is busy: another program has been writing for {seconds} s. Try again.",
    sqlite3.SQLITE_LOCKED: "{place} is busy. Try again.",
    sqlite3.SQLITE_FULL: FULL_DISK,
    sqlite3.SQLITE_READONLY: "{place} may only be read, not written. Check its permissions.",
    sqlite3.SQLITE_CANTOPEN: "{place} cannot be opened. Check the folder and its permissions.",
    sqlite3.SQLITE_NOTADB: "{place} is not a farm's store. If it was one, put a backup back: farmops restore FILE",
    sqlite3.SQLITE_CORRUPT: DAMAGED,
    sqlite3.SQLITE_IOERR: "The disk under {place} does not answer as it should: {said}.",
}
OF_DAMAGE = (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT)
LEAST_ROOM = 64 * 1024
"""Bytes that must be free beside a file so that it can be read: its index of the log takes half of that."""
PLACEHOLDER = re.compile(r"(?<![:\w]):([a-z_][a-z0-9_]*)")


Stamp = tuple[tuple[int, int, int] | None, ...]


class Dialect(ABC):
    """How one kind of store is reached, locked and spoken to."""

    name: str

    def __init__(self, place: str) -> None:
        self.place = place

    @abstractmethod
    def connect(self) -> Any:
        """A driver connection that only reads, in one consistent snapshot. Raises NoFarm, StoreUnavailable."""

    def let_go(self, connection: Any) -> None:
        """What `connect` gave is not needed any more."""
        connection.close()

    def close(self) -> None:  # noqa: B027 - a file keeps none
        """Close the connections that are kept for the next reading."""

    @abstractmethod
    def engine(self) -> Engine:
        """A SQLAlchemy engine whose every transaction is one writer's alone."""

    @abstractmethod
    def begin_writing(self, connection: Connection) -> None:
        """Wait for the right to write; nobody else writes until the transaction ends."""

    @abstractmethod
    def defer_links(self, connection: Connection) -> None:
        """Check links between rows at commit, not at each statement."""

    @abstractmethod
    def sql(self, text: str) -> str:
        """The statement, written with `:name` placeholders, as the driver wants it."""

    @abstractmethod
    def value(self, value: Any) -> Any:
        """A parameter as the driver wants it."""

    @abstractmethod
    def in_words(self, error: BaseException) -> FarmopsError | None:
        """What a driver's error means to a user, or None when it is a defect of the program."""

    @abstractmethod
    def damage(self, reader: Reader) -> list[str]:
        """What the database finds wrong with its own pages and indexes, in sentences; empty where it finds nothing."""

    @abstractmethod
    def numbers_given(self, reader: Reader, tables: Sequence[str]) -> dict[str, int]:
        """The highest id that each table has given out, as the database remembers it; the next one is larger."""

    @abstractmethod
    def give_after(self, connection: Connection, given: Mapping[str, int]) -> None:
        """Let each table give no id up to the one named."""

    def identity(self) -> object:
        """What tells this store from another one at the same place; None where there is none."""
        return self.place

    def stamp(self) -> Stamp | None:
        """What moves with every change of the store and costs next to nothing; None where only reading can tell."""
        return None

    def advice(self) -> str | None:
        """What to know about the place where it is kept, or None."""
        return None

    def create_place(self) -> None:  # noqa: B027 - a server needs nothing
        """Make room for a store that does not exist yet."""

    def create_file(self) -> None:  # noqa: B027 - a server has none
        """Begin a store that does not exist yet."""

    def parameters(self, given: Mapping[str, Any]) -> dict[str, Any]:
        """All parameters as the driver wants them."""
        return {name: self.value(value) for name, value in given.items()}


class Sqlite(Dialect):
    """A file: write-ahead log, full sync, one writer at a time."""

    name = "sqlite"

    def connect(self) -> sqlite3.Connection:
        """A connection that refuses to write, inside a read transaction."""
        if not os.path.exists(self.place):
            raise NoFarm(f"{FIRST_STEP}\nIt would lie in {self.place}; if that is on a disk or stick, put it in first.")
        connection = self._open("query_only = ON", untouched=self._cannot_be_touched())
        connection.execute("BEGIN")
        return connection

    def _cannot_be_touched(self) -> bool:
        """Whether it lies whole on a medium that takes no writing, so that nobody changes it while it is read."""
        if not hasattr(os, "statvfs") or os.path.exists(f"{self.place}-wal"):
            return False
        return bool(os.statvfs(self.place).f_flag & os.ST_RDONLY)

    def _open(self, *pragmas: str, untouched: bool = False) -> sqlite3.Connection:
        """A connection; the log needs a file beside the store even to read, unless that is `untouched`."""
        connection = sqlite3.connect(
            _uri_of(self.place) if untouched else self.place,
            timeout=BUSY_SECONDS,
            isolation_level=None,
            check_same_thread=False,
            uri=untouched,
        )
        try:
            for pragma in ("synchronous = FULL", "foreign_keys = ON", "trusted_schema = OFF", *pragmas):
                connection.execute(f"PRAGMA {pragma}")
        except BaseException:
            connection.close()
            raise
        return connection

    def _open_to_write(self) -> sqlite3.Connection:
        """The journal is a property of the file, so it is not asked for before the file is known to be ours.

        A write-ahead log on a disk of this machine; elsewhere the journal that leaves one whole file behind.
        """
        from farmops.records.disks import Lies, lies

        return self._open(f"journal_mode = {'WAL' if lies(self.place) is Lies.HERE else 'DELETE'}")

    def advice(self) -> str | None:
        """A file on a network drive or in a synced folder is less safe."""
        from farmops.records.disks import advice

        return advice(self.place)

    def identity(self) -> object:
        """Which file it is."""
        try:
            found = os.stat(self.place)
        except OSError:
            return None
        return found.st_dev, found.st_ino

    def stamp(self) -> Stamp:
        """Which files the store and its log are, their sizes and when they were written; None for one not there."""
        return tuple(_stamp_of(path) for path in (self.place, f"{self.place}-wal"))

    def damage(self, reader: Reader) -> list[str]:
        """Each page, cell and index entry is looked at, each row held against the constraints of its table.

        Then the columns, links and indexes of the tables are held against those of a fresh file.
        """
        found = [str(row["integrity_check"]) for row in reader.rows("PRAGMA integrity_check")]
        wrong = [words.removeprefix("*** in database main ***").strip() for words in found if words != "ok"]
        return [f"The file is damaged: {words}." for words in wrong or self._laid_otherwise(reader)]

    def _laid_otherwise(self, reader: Reader) -> list[str]:
        from farmops.records.migrate import LAYOUT, layout

        there = {(row["name"], row["part"]) for row in reader.rows(LAYOUT)}
        return [f"{table} is not laid out as it was" for table in sorted({name for name, _ in there ^ layout()})]

    def numbers_given(self, reader: Reader, tables: Sequence[str]) -> dict[str, int]:
        """From AUTOINCREMENT's own table."""
        given = {row["name"]: int(row["seq"]) for row in reader.rows("SELECT name, seq FROM sqlite_sequence")}
        return {table: given.get(table, 0) for table in tables}

    def give_after(self, connection: Connection, given: Mapping[str, int]) -> None:
        """In AUTOINCREMENT's own table."""
        for table, number in given.items():
            connection.exec_driver_sql("DELETE FROM sqlite_sequence WHERE name = ?", (table,))
            connection.exec_driver_sql("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", (table, number))

    def create_place(self) -> None:
        """The folder of the file, and those above it."""
        try:
            os.makedirs(os.path.dirname(os.path.abspath(self.place)), exist_ok=True)
        except OSError as error:
            raise StoreUnavailable(f"{self.place} cannot be made: {error.strerror}.") from error

    def create_file(self) -> None:
        """The file, empty and for its owner alone; what SQLite puts beside it is like it."""
        try:
            os.close(os.open(self.place, os.O_CREAT | os.O_RDWR, 0o600))
        except OSError as error:
            words = f"{self.place} cannot be opened: {error.strerror}. Check the folder and its permissions."
            raise StoreUnavailable(words) from error

    def engine(self) -> Engine:
        """An engine that begins with BEGIN IMMEDIATE, so that no read is out of date when its row is written."""
        from sqlalchemy import QueuePool, create_engine, event

        engine = create_engine("sqlite://", creator=self._open_to_write, poolclass=QueuePool, max_overflow=-1)
        event.listen(engine, "begin", self.begin_writing)
        return engine

    def begin_writing(self, connection: Connection) -> None:
        """BEGIN IMMEDIATE waits for other writers, at most BUSY_SECONDS."""
        driver = cast("sqlite3.Connection", connection.connection.driver_connection)
        if not driver.in_transaction:
            driver.execute("BEGIN IMMEDIATE")

    def defer_links(self, connection: Connection) -> None:
        """Until the end of this transaction."""
        connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")

    def sql(self, text: str) -> str:
        """SQLite takes `:name` as it stands."""
        return text

    def value(self, value: Any) -> Any:
        """Days as ISO text, enums as their word."""
        if isinstance(value, Enum):
            return value.value
        return value.isoformat() if isinstance(value, date) else value

    def in_words(self, error: BaseException) -> FarmopsError | None:
        """Busy, full, read-only, damaged, not a store; a broken rule is refused by its name."""
        if isinstance(error, OverflowError) and "SQLite INTEGER" in str(error):
            return OutOfRange(TOO_LARGE)
        if not isinstance(error, sqlite3.Error):
            return None
        said = str(error)
        if isinstance(error, sqlite3.IntegrityError):
            return Refused(f"The store refuses this record: {said}.")
        code = (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF
        words = FULL_DISK if code == sqlite3.SQLITE_IOERR and self._has_no_room() else SQLITE_WORDS.get(code)
        kind = StoreDamaged if code in OF_DAMAGE else StoreUnavailable
        return kind(words.format(place=self.place, seconds=BUSY_SECONDS, said=said)) if words else None

    def _has_no_room(self) -> bool:
        """Whether the disk is so full that not even what reading needs fits beside the store."""
        import shutil

        try:
            return shutil.disk_usage(os.path.dirname(os.path.abspath(self.place))).free < LEAST_ROOM
        except OSError:
            return False


def _uri_of(path: str) -> str:
    """A file as SQLite opens it where nothing can be written, not even beside it."""
    from pathlib import Path

    return f"{Path(path).absolute().as_uri()}?immutable=1"


def _stamp_of(path: str) -> tuple[int, int, int] | None:
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_ino, found.st_size, found.st_mtime_ns


class Postgres(Dialect):
    """A server: an advisory lock makes one writer at a time of many."""

    name = "postgresql"

    def __init__(self, place: str) -> None:
        super().__init__(place)
        self._idle: list[Any] = []
        finalize(self, _close_all, self._idle)

    def connect(self) -> Any:
        """A read-only transaction that sees one snapshot, on a connection that was let go if there is one."""
        psycopg = self._driver()
        while self._idle:
            connection = self._idle.pop()
            try:
                connection.execute("SELECT")
            except psycopg.OperationalError:
                connection.close()  # the server has ended it since
            else:
                return connection
        return self._connect_anew(psycopg)

    def _connect_anew(self, psycopg: Any) -> Any:
        try:
            connection = psycopg.connect(self._conninfo(), connect_timeout=BUSY_SECONDS)
        except psycopg.ProgrammingError as error:
            raise StoreUnavailable(f"The URL of the store is not understood: {str(error).strip()}") from error
        connection.read_only = True
        connection.isolation_level = psycopg.IsolationLevel.REPEATABLE_READ
        return connection

    def let_go(self, connection: Any) -> None:
        """Its snapshot is given up; to connect and to learn the tables anew takes longer than most readings."""
        try:
            connection.rollback()
        except self._driver().OperationalError:
            connection.close()
        if not connection.closed:
            self._idle.append(connection)

    def close(self) -> None:
        """Close the connections that are kept for the next reading."""
        _close_all(self._idle)

    def _conninfo(self) -> str:
        return self.place.replace("postgresql+psycopg://", "postgresql://", 1)

    def _driver(self) -> Any:
        try:
            import psycopg
        except ImportError:
            raise StoreUnavailable("A PostgreSQL store needs: pip install 'farmops[postgres]'") from None
        return psycopg

    def engine(self) -> Engine:
        """An engine on psycopg; each transaction takes the writer's lock first."""
        from logging import NullHandler, getLogger

        from sqlalchemy import create_engine, event

        self._driver()
        getLogger("sqlalchemy.pool").addHandler(NullHandler())  # that a server went away is told in words alone
        engine = create_engine(
            self._conninfo().replace("postgresql://", "postgresql+psycopg://", 1), pool_pre_ping=True
        )
        event.listen(engine, "begin", self.begin_writing)
        return engine

    def begin_writing(self, connection: Connection) -> None:
        """One lock per schema, so that farms in one database do not wait for each other."""
        connection.exec_driver_sql(f"SET LOCAL lock_timeout = '{BUSY_SECONDS}s'")
        connection.exec_driver_sql("SELECT pg_advisory_xact_lock(hashtext('farmops ' || current_schema()))")

    def damage(self, reader: Reader) -> list[str]:
        """A server looks after its own pages."""
        return []

    def numbers_given(self, reader: Reader, tables: Sequence[str]) -> dict[str, int]:
        """From the sequence of each table."""
        given = "SELECT CASE WHEN is_called THEN last_value ELSE 0 END FROM"
        return {table: int(reader.value(f"{given} {table}_id_seq")) for table in tables}

    def give_after(self, connection: Connection, given: Mapping[str, int]) -> None:
        """In the sequence of each table."""
        for table, number in given.items():
            if number:
                connection.exec_driver_sql("SELECT setval(CAST(%s AS regclass), %s)", (f"{table}_id_seq", number))

    def defer_links(self, connection: Connection) -> None:
        """Until the end of this transaction."""
        connection.exec_driver_sql("SET CONSTRAINTS ALL DEFERRED")

    def sql(self, text: str) -> str:
        """psycopg wants `%(name)s`."""
        return pyformat(text)

    def value(self, value: Any) -> Any:
        """Enums as their word; days stay days."""
        return value.value if isinstance(value, Enum) else value

    def in_words(self, error: BaseException) -> FarmopsError | None:
        """Busy, unreachable, full; a broken rule is refused by its name."""
        psycopg = self._driver()
        if not isinstance(error, psycopg.Error):
            return None
        if isinstance(error, psycopg.errors.NumericValueOutOfRange):
            return OutOfRange(TOO_LARGE)
        if isinstance(error, psycopg.IntegrityError | psycopg.DataError):
            return Refused(f"The store refuses this record: {error.diag.message_primary or error}.")
        if isinstance(error, psycopg.errors.LockNotAvailable):
            return StoreUnavailable(
                f"The store is busy: another program has been writing for {BUSY_SECONDS} s. Try again."
            )
        if isinstance(error, psycopg.errors.DiskFull):
            return StoreUnavailable(FULL_DISK)
        if isinstance(error, psycopg.errors.InsufficientPrivilege | psycopg.errors.ReadOnlySqlTransaction):
            return StoreUnavailable(f"The database does not allow this: {error.diag.message_primary}.")
        if isinstance(error, psycopg.OperationalError):
            return StoreUnavailable(f"The database server does not answer: {str(error).strip()}")
        return None


def _close_all(connections: list[Any]) -> None:
    while connections:
        connections.pop().close()


@lru_cache(maxsize=512)
def pyformat(text: str) -> str:
    """A statement with `:name` placeholders in psycopg's `%(name)s` form."""
    return PLACEHOLDER.sub(r"%(\1)s", text.replace("%", "%%"))


def dialect_of(place: str) -> Dialect:
    """The dialect of a file or of a URL."""
    return Postgres(place) if is_url(place) else Sqlite(place)
