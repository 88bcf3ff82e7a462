"""Copies of a SQLite store: consistent while others write, held against their original, for their owner alone."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path

from farmops import clock
from farmops.model.backups import Backup, Made
from farmops.model.errors import StoreUnavailable
from farmops.records.chain import breaks, entries
from farmops.records.dialects import BUSY_SECONDS, Sqlite
from farmops.records.reading import Reader

OWNER_ALONE = 0o600
STAMP = "%Y%m%dT%H%M%SZ"
DAMAGED = "{place} is damaged: {why}."


def folder_of(place: str) -> Path:
    """Where the backups of a store lie: in a folder of its name beside it."""
    path = Path(place)
    return path.with_name(f"{path.stem}-backups")


def name_of(place: str, made: Made, at: datetime) -> str:
    """The name of a backup: of the store, of the instant, and of why it was made."""
    path = Path(place)
    return f"{path.stem}-{at.astimezone(UTC).strftime(STAMP)}-{made.value}{path.suffix}"


def backup_of(file: Path, place: str) -> Backup | None:
    """What the name of a file says of it; None where it is no backup of the store at that place."""
    stem, suffix = Path(place).stem, Path(place).suffix
    if not file.name.startswith(f"{stem}-") or file.suffix != suffix:
        return None
    rest = file.stem.removeprefix(f"{stem}-").split("-")
    try:
        at = datetime.strptime(rest[0], STAMP).replace(tzinfo=UTC)
        return Backup(file, at, Made(rest[1]), file.stat().st_size)
    except (ValueError, IndexError, OSError):
        return None


def backups(place: str) -> list[Backup]:
    """The backups of a store that lie beside it, the newest first."""
    folder = folder_of(place)
    files = [file for file in folder.iterdir() if file.is_file()] if folder.is_dir() else []
    found = [one for file in files if (one := backup_of(file, place))]
    return sorted(found, key=lambda one: (one.at, one.file.name), reverse=True)


def copy_beside(place: str, made: Made, *, chain: bool = True) -> Path:
    """A copy of a store in the folder of its backups; returns where it lies. Raises StoreUnavailable."""
    folder = folder_of(place)
    with _in_words(str(folder)):
        folder.mkdir(mode=0o700, exist_ok=True)
    target = free_name(folder, name_of(place, made, clock.now()))
    copy(place, target, chain=chain)
    return target


def free_name(folder: Path, name: str) -> Path:
    """The name in a folder, with a number where it is taken."""
    path, number = folder / name, 1
    while path.exists():
        number += 1
        path = folder / f"{Path(name).stem}-{number}{Path(name).suffix}"
    return path


def copy(place: str, target: Path, *, chain: bool = True) -> None:
    """Copy a store, as it is at one instant, into a file that is whole or not there; others go on writing.

    The copy is held against what it was made from; with `chain` its journal is proved unbroken too. Raises
    StoreUnavailable when the store cannot be read or is damaged, or the copy cannot be written.
    """
    part = target.with_name(f".{target.name}.part")
    with _in_words(str(target), place):
        os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_RDWR, OWNER_ALONE))
        try:
            _copy_into(place, part, chain=chain)
            os.replace(part, target)
            _sync(target.parent)
        except BaseException:
            for left in (part, Path(f"{part}-journal"), Path(f"{part}-wal"), Path(f"{part}-shm")):
                left.unlink(missing_ok=True)
            raise


def _copy_into(place: str, part: Path, *, chain: bool) -> None:
    with closing(sqlite3.connect(place, timeout=BUSY_SECONDS, isolation_level=None)) as source:
        source.execute("BEGIN")
        source.execute("SELECT 1 FROM sqlite_master").fetchone()  # what is read from now on is of this instant
        with closing(sqlite3.connect(part, isolation_level=None)) as made:
            source.backup(made)
            made.execute("PRAGMA journal_mode = DELETE")  # opens from a folder that may only be read, too
            why = flaw(made, chain=chain) or ("rows were lost on the way" if counts(source) != counts(made) else None)
            if why is not None:
                raise StoreUnavailable(DAMAGED.format(place=place, why=why))


def flaw(connection: sqlite3.Connection, *, chain: bool = True) -> str | None:
    """Why a copy is not to be trusted, or None."""
    if connection.execute("PRAGMA integrity_check").fetchone() != ("ok",):
        return "pages are damaged"
    if connection.execute("PRAGMA foreign_key_check").fetchone() is not None:
        return "records belong to others that are not there"
    if chain and "journal" in counts(connection) and breaks(entries(Reader(connection, Sqlite("")))):
        return "the chain of the journal is broken"
    return None


def counts(connection: sqlite3.Connection) -> dict[str, int]:
    """How many rows each table has."""
    listing = "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
    tables = [name for (name,) in connection.execute(listing)]
    return {name: connection.execute(f'SELECT COUNT(*) FROM "{name}"').fetchone()[0] for name in tables}  # noqa: S608


def _sync(folder: Path) -> None:
    """The name of a new file is on disk when this returns, where a system can promise that."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextmanager
def _in_words(target: str, source: str = "") -> Iterator[None]:
    """What goes wrong while a copy is made, told of the file that it is about. Raises StoreUnavailable."""
    try:
        yield
    except sqlite3.Error as error:
        of_source = getattr(error, "sqlite_errorcode", 0) & 0xFF in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT)
        place = source if of_source else target
        raise Sqlite(place).in_words(error) or StoreUnavailable(f"{place} cannot be read or written.") from error
    except OSError as error:
        raise StoreUnavailable(f"{target} cannot be made: {error.strerror or 'the disk refuses'}.") from error
