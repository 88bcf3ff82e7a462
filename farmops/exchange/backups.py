"""Backups on request: made, listed, tried, and put back, with what would be lost by it."""

from __future__ import annotations

import os
import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from farmops import clock
from farmops.exchange import files_along, kept_files
from farmops.exchange.files import place_named
from farmops.facts import farm as farm_facts
from farmops.facts import journal as journal_facts
from farmops.facts.kept_files import kept_files as files_named
from farmops.model.backups import Backup, Kept, Lost, Made, Restored
from farmops.model.errors import FarmopsError, NoFarm, NotFound, Refused, StoreUnavailable
from farmops.model.journal import JournalLine
from farmops.model.text import plain
from farmops.records import copies
from farmops.records.dialects import BUSY_SECONDS
from farmops.records.location import is_url
from farmops.records.reading import Reader
from farmops.records.store import Store
from farmops.records.version import CURRENT, version_of

ON_A_SERVER = (
    "Not {done}: this farm lies on a database server, whose own tools do that: pg_dump and pg_restore. "
    "The lines to type stand in docs/backup.md."
)
ENDINGS = ("", "-wal", "-shm")
PAGES_A_STEP = 50
"""Fewer than any farm has, so that the first step of a restore is not its last."""


def backup(store: Store, to: str | None = None) -> Kept:
    """Copy the store beside itself, or to a file or into a folder that is named; look through the copy and open it.

    Beside the store, photos and receipts stay where they are: the copy names them there. To another folder they go
    along, each once.

    Raises:
        NoFarm: there is nothing to copy yet.
        NotFound: there is no such folder.
        Refused: the file is there already, or the farm lies on a server.
        StoreUnavailable: the store is damaged, or the disk does not take the copy.
    """
    _must_be_a_file(store, "made")
    with store.reading() as reader:
        farm_facts.farm(reader)
    if to is None:
        return _looked_into(store, copies.copy_beside(store.place, Made.ASKED))
    target = _target(store, to)
    copies.copy(store.place, target)
    return _looked_into(store, target)


def _must_be_a_file(store: Store, done: str) -> None:
    if is_url(store.place):
        raise Refused(ON_A_SERVER.format(done=done))


def _target(store: Store, to: str) -> Path:
    path = place_named(to)
    if path.is_dir():
        return copies.free_name(path, copies.name_of(store.place, Made.ASKED, clock.now()))
    if path.exists():
        raise Refused(f"{plain(str(path))} is there already. Name another file, or a folder.")
    if not path.parent.is_dir():
        raise NotFound(f"There is no folder {plain(str(path.parent))}. Make it first, or name another.")
    return path


def _looked_into(store: Store, file: Path) -> Kept:
    made = copies.backup_of(file, store.place)
    made = made or Backup(file, clock.now(), Made.ASKED, file.stat().st_size)
    with Store(str(file)).reading() as reader:
        farm_facts.farm(reader)
        operations, rows = journal_facts.last_seq(reader), sum(copies.counts(reader.connection).values())
        named = files_named(reader)
    here, there = kept_files.folder_of(store), file.parent / kept_files.folder_of(store).name
    if file.parent.resolve() in (here.parent.resolve(), copies.folder_of(store.place).resolve()):
        return Kept(made, operations, rows, 0, here if named else None, files_along.missing(here, named))
    copied = files_along.copy_all(here, there, named)
    return Kept(made, operations, rows, copied, there if named else None, files_along.missing(there, named))


def backups(store: Store) -> list[Backup]:
    """The backups that lie beside the store, the newest first. Raises Refused for a farm on a server."""
    _must_be_a_file(store, "listed")
    return copies.backups(store.place)


def restore(store: Store, file: str, *, rehearsed: bool = False, other_farm: bool = False) -> Restored:
    """Put a backup in the place of what is there, which is kept; `rehearsed` only tries it and says what would be lost.

    The backup is copied, looked through, upgraded where it is older, and opened, before anything is replaced. Programs
    that have the store open go on with what was put back.

    Raises:
        NotFound: there is no such file.
        Refused: it is damaged, from a newer program, no farm's, the store itself, or of another farm and that was not
            said to be meant; or the farm lies on a server.
        StoreUnavailable: what is there cannot be kept, or the disk does not take the backup.
    """
    _must_be_a_file(store, "restored")
    source = _there(store, file)
    store.dialect.create_place()
    with _tried(store, source) as (tried, schema):
        found = _compared(store, tried, source, schema)
        if not (rehearsed or other_farm) and _is_other(store, tried):
            raise Refused(
                f"Not restored: {plain(str(source))} is of another farm, {found.farm}. If that is meant: --other-farm"
            )
        if not rehearsed:
            store.close()
            kept = _put(store, Path(tried.place))
            lacking = _bring_files(store, source)
            return replace(found, kept=kept, lost=_lost_with(kept, tried, found), lacking=lacking)
    return found


def _there(store: Store, file: str) -> Path:
    path = place_named(file)
    if not os.path.isfile(path):
        raise NotFound(f"There is no file {plain(str(path))}. The backups there are: farmops backup --list")
    if os.path.exists(store.place) and path.samefile(store.place):
        raise Refused(f"Not restored: {plain(str(path))} is the farm's store itself.")
    return path


@contextmanager
def _tried(store: Store, source: Path) -> Iterator[tuple[Store, str]]:
    """A copy of the backup that was looked through and upgraded, with the schema it had. Raises Refused."""
    with TemporaryDirectory(prefix=".farmops-restore-", dir=Path(os.path.abspath(store.place)).parent) as folder:
        place = Path(folder) / "farm.db"
        tried = Store(str(place))
        try:
            copies.copy(str(source), place)
            schema = _schema_of(tried)
            with tried.reading() as reader:
                farm_facts.farm(reader)
        except (StoreUnavailable, NoFarm) as error:
            words = "it holds no farm." if isinstance(error, NoFarm) else str(error).replace(str(place), str(source))
            raise Refused(f"Not restored: {plain(words)} What is there was not touched.") from error
        try:
            yield tried, schema
        finally:
            tried.close()


def _schema_of(store: Store) -> str:
    with closing(store.dialect.connect()) as connection:
        return version_of(Reader(connection, store.dialect)) or "0"


def _compared(store: Store, tried: Store, source: Path, schema: str) -> Restored:
    """What the backup holds, and what was booked since and is not in it."""
    with tried.reading() as reader:
        lines = journal_facts.lines(reader)
        farm = farm_facts.farm(reader)
        named = files_named(reader)
    in_backup = {line.operation for line in lines}
    there = _lines_there(store)
    lost = tuple(_lost(line) for line in there or () if line.operation not in in_backup)
    here, along = kept_files.folder_of(store), _along(source)
    lacking = tuple(
        name for name in files_along.missing(here, named) if not any((one / name).is_file() for one in along)
    )
    last_at = lines[0].at if lines else None
    return Restored(farm.name, len(lines), last_at, schema, schema != CURRENT, lost, None, lacking, there is not None)


def _lost(line: JournalLine) -> Lost:
    return Lost(line.at, line.by, line.name, line.operation)


def _lines_there(store: Store) -> list[JournalLine] | None:
    """What was booked in the store that is to be replaced, newest first; None where it cannot be read."""
    if not os.path.exists(store.place):
        return []
    try:
        with store.reading() as reader:
            return journal_facts.lines(reader)
    except NoFarm:
        return []
    except (FarmopsError, sqlite3.Error, ValueError):
        return None


def _is_other(store: Store, tried: Store) -> bool:
    there = _opening(store)
    return there is not None and there != _opening(tried)


def _opening(store: Store) -> str | None:
    try:
        with store.reading() as reader:
            return journal_facts.opening(reader)
    except (FarmopsError, sqlite3.Error):
        return None


def _keep(store: Store) -> Path | None:
    """What is to be replaced, kept among the backups: as a backup where it is sound, else byte for byte."""
    if not os.path.exists(store.place):
        return None
    try:
        return copies.copy_beside(store.place, Made.REPLACED, chain=False)
    except StoreUnavailable:
        return _kept_as_it_is(store.place)


def _kept_as_it_is(place: str) -> Path:
    folder = copies.folder_of(place)
    target = copies.free_name(folder, copies.name_of(place, Made.REPLACED, clock.now()))
    try:
        for ending in ("", "-wal"):
            if os.path.exists(place + ending):
                with open(place + ending, "rb") as old, open(f"{target}{ending}", "xb", opener=_private) as kept:
                    shutil.copyfileobj(old, kept)
                    os.fsync(kept.fileno())
    except OSError as error:
        raise StoreUnavailable(
            f"Not restored: what is there could not be kept in {folder}: {error.strerror}. Nothing was changed."
        ) from error
    return target


def _private(name: str, flags: int) -> int:
    return os.open(name, flags, copies.OWNER_ALONE)


def _put(store: Store, made: Path) -> Path | None:
    """In one transaction of the store, which programs that have it open see; a file that is none is replaced.

    Returns where that which was there is kept: nothing is booked between the keeping and the putting.
    """
    place = Path(store.place)
    if place.exists():
        try:
            return _put_into(store, made)
        except sqlite3.DatabaseError as error:
            if getattr(error, "sqlite_errorcode", 0) & 0xFF not in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT):
                words = store.dialect.in_words(error)
                raise words or StoreUnavailable(f"{place} cannot be written; nothing was changed.") from error
    fresh = made.with_name("fresh.db")
    copies.copy(str(made), fresh)
    kept = _keep(store)
    for ending in ENDINGS[1:]:
        Path(f"{place}{ending}").unlink(missing_ok=True)
    os.replace(fresh, place)
    return kept


def _put_into(store: Store, made: Path) -> Path | None:
    """The first step takes the right to write, so what is kept after it is what is replaced."""
    until = time.monotonic() + BUSY_SECONDS
    kept: list[Path | None] = []

    def after_a_step(status: int, *_: int) -> None:
        if status == sqlite3.SQLITE_OK and not kept:
            kept.append(_keep(store))
        elif status != sqlite3.SQLITE_OK and time.monotonic() > until:
            raise StoreUnavailable(
                f"{store.place} is busy: another program has been writing for {BUSY_SECONDS} s. Try again."
            )

    with (
        closing(sqlite3.connect(made)) as source,
        closing(sqlite3.connect(store.place, timeout=BUSY_SECONDS)) as target,
    ):
        target.execute("PRAGMA synchronous = FULL")
        source.backup(target, pages=PAGES_A_STEP, progress=after_a_step)
    return kept[0]


def _lost_with(kept: Path | None, tried: Store, found: Restored) -> tuple[Lost, ...]:
    """What is in that which was kept, and not in the backup; what was found before, where it cannot be read."""
    there = _lines_there(Store(str(kept))) if kept else None
    if there is None:
        return found.lost
    with tried.reading() as reader:
        in_backup = {line.operation for line in journal_facts.lines(reader)}
    return tuple(_lost(line) for line in there if line.operation not in in_backup)


def _bring_files(store: Store, source: Path) -> tuple[str, ...]:
    """Photos and receipts that lie beside the backup and not beside the store; returns those that lie in neither."""
    with store.reading() as reader:
        named = files_named(reader)
    here = kept_files.folder_of(store)
    for folder in _along(source):
        files_along.copy_all(folder, here, named)
    return files_along.missing(here, named)


def _along(source: Path) -> list[Path]:
    return sorted(one for one in source.parent.glob("*-files") if one.is_dir())
