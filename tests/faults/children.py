"""Processes that book weighings: started from one that has everything imported, told what to do, and killed."""

from __future__ import annotations

import multiprocessing
import os
import resource
import signal
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from datetime import date, timedelta
from multiprocessing import forkserver
from multiprocessing.context import ForkServerContext
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from sqlalchemy import event
from sqlalchemy.orm import configure_mappers

from farmops.exchange.backups import backup, restore
from farmops.exchange.packages import export
from farmops.farm import harvests, operation
from farmops.farm.beds import add_bed
from farmops.farm.harvests import record_harvest
from farmops.farm.notes import change_note
from farmops.farm.plantings import add_crop, plant
from farmops.farm.recurring import book_time
from farmops.farm.units import add_unit
from farmops.main import run
from farmops.model.beds import NewBed
from farmops.model.errors import FarmopsError, Refused, StoreUnavailable
from farmops.model.harvests import Harvest, NewHarvest
from farmops.model.ids import new_id
from farmops.model.notes import NoteChange
from farmops.model.plantings import NewCrop, NewPlanting
from farmops.model.recurring import NewTime
from farmops.model.units import NewUnit
from farmops.model.values import Measured
from farmops.records import migrate
from farmops.records.store import Store
from tests.faults.errands import run_errand

configure_mappers()

PRELOADED = ["pytest", "psycopg", "sqlalchemy.dialects.postgresql.psycopg", "sqlalchemy.dialects.sqlite.pysqlite"]
DAY = date(2026, 5, 3)
PLANTING = 1


def processes() -> ForkServerContext:
    """Children that are forked from a process without threads which has loaded this module."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([__name__, *PRELOADED])
    return context


def be_ready() -> None:
    """Start what children are forked from, where that can wait no longer: an open interface takes the terminal."""
    processes()
    forkserver.ensure_running()


def start(target: Callable[..., None], *arguments: Any) -> BaseProcess:
    """A child that runs a function of this module."""
    child = processes().Process(target=target, args=arguments, daemon=True)
    child.start()
    return child


def plant_something(store: Store) -> None:
    """A unit with a bed in which chard grows: planting 1."""
    unit = add_unit(store, NewUnit("wren", DAY, chores=False), by="Ada")
    bed = add_bed(store, NewBed(unit.id, "N", DAY), by="Ada")
    crop = add_crop(store, NewCrop("chard"), by="Ada")
    assert plant(store, NewPlanting(bed.id, crop.id, DAY), by="Ada").id == PLANTING


def weigh(store: Store, id: str, *, by: str = "Ada") -> Harvest:
    """Book one weighing under an operation id; the same id is always the same weighing."""
    grams = int(id.replace("-", ""), 16) % 5000 + 1
    entry = NewHarvest(DAY, Measured(grams * 1000, f"{grams} g"), planting_id=PLANTING, sure=True)
    return record_harvest(store, entry, by=by, operation=id)


def book(place: str, ids: Sequence[str], by: str) -> None:
    """Book one weighing for each id; the child ends with 0 only if all went well."""
    store = Store(place)
    for id in ids:
        weigh(store, id, by=by)
    store.close()


def run_errands(place: str, ids: Sequence[str], by: str) -> None:
    """Run the errand of each id; the child ends with 0 only if none was refused and none had to be given up."""
    store = Store(place)
    for id in ids:
        run_errand(store, id, by=by)
    store.close()


def edit_note(place: str, note: int, field: str, values: Sequence[Any], by: str) -> None:
    """Change one field of a note again and again."""
    store = Store(place)
    for value in values:
        change_note(store, NoteChange(note, **{field: value}), by=by)
    store.close()


def pay_all(place: str, rent: int, times: int, path: str, by: str) -> None:
    """Pay each time of a recurring cost that nobody else was quicker to pay; says which."""
    store = Store(place)
    with Log(Path(path)).open() as say:
        for day in (DAY + timedelta(days=number) for number in range(times)):
            try:
                book_time(store, NewTime(rent, day, again=True), by=by)
                say("done", str(day))
            except Refused as error:
                say("refused", str(error))
    store.close()


class Log:
    """A file to which a child says what it began and what was acknowledged; it survives the child."""

    def __init__(self, path: Path) -> None:
        self.path = path

    @contextmanager
    def open(self) -> Iterator[Callable[[str, str], None]]:
        """A function that adds one line, on disk when it returns."""
        handle = os.open(self.path, os.O_WRONLY | os.O_APPEND | os.O_CREAT)

        def say(word: str, id: str) -> None:
            os.write(handle, f"{word} {id}\n".encode())
            os.fsync(handle)

        yield say
        os.close(handle)

    def of(self, word: str) -> list[str]:
        """The ids said with a word."""
        said = self.path.read_text().split("\n")[:-1] if self.path.exists() else []
        return [line.partition(" ")[2] for line in said if line.startswith(word)]

    def unanswered(self) -> list[str]:
        """What was begun and never acknowledged."""
        acknowledged = set(self.of("done"))
        return [id for id in dict.fromkeys(self.of("began")) if id not in acknowledged]


def book_until_killed(place: str, path: str, retried: Sequence[str], by: str = "Ada") -> None:
    """Retry what was left unanswered, then run errands of all kinds for ever."""
    store = Store(place)
    with Log(Path(path)).open() as say:
        for id in retried:
            run_errand(store, id, by=by)
            say("done", id)
        while True:
            id = new_id()
            say("began", id)
            run_errand(store, id, by=by)
            say("done", id)


def book_through_outages(place: str, path: str, by: str, enough: str) -> None:
    """Run errands until a file says that it is enough; what a server does not answer is tried until it does."""
    with Log(Path(path)).open() as say:
        store = Store(place)
        while not Path(enough).exists():
            id = new_id()
            say("began", id)
            while not _answered(store, id, by):
                say("unanswered", id)
                time.sleep(0.05)
            say("done", id)


def _answered(store: Store, id: str, by: str) -> bool:
    """Whether an errand was acknowledged; that a server is away is told in words and with its exit code."""
    try:
        run_errand(store, id, by=by)
    except StoreUnavailable as error:
        assert str(error).startswith("The database server does not answer: ")  # noqa: PT017 - as below
        return False
    return True


def die(*_: Any, **__: Any) -> None:
    """Nothing is tidied up after this."""
    os.kill(os.getpid(), signal.SIGKILL)


def _after(function: Callable[..., Any]) -> Callable[..., Any]:
    def run_and_die(*arguments: Any, **named: Any) -> None:
        function(*arguments, **named)
        die()

    return run_and_die


def die_before_the_row(store: Store) -> None:
    harvests.harvest_row = die  # type: ignore[assignment]


def die_after_the_row(store: Store) -> None:
    operation.Operation.finish = die  # type: ignore[method-assign]


def die_before_the_journal(store: Store) -> None:
    operation.Operation.enter_in_journal = die  # type: ignore[method-assign]


def die_after_the_journal(store: Store) -> None:
    operation.Operation.enter_in_journal = _after(operation.Operation.enter_in_journal)  # type: ignore[method-assign]


def die_before_the_commit(store: Store) -> None:
    event.listen(store.engine, "commit", die)


def die_after_the_commit(store: Store) -> None:
    store.engine.dialect.do_commit = _after(store.engine.dialect.do_commit)  # type: ignore[method-assign]


MOMENTS = {
    "before the row": die_before_the_row,
    "after the row": die_after_the_row,
    "before the journal": die_before_the_journal,
    "after the journal": die_after_the_journal,
    "before the commit": die_before_the_commit,
    "after the commit": die_after_the_commit,
}
KEPT = {"after the commit"}


def book_and_die(place: str, id: str, moment: str) -> None:
    """Begin one weighing and be killed at that moment of it."""
    store = Store(place)
    MOMENTS[moment](store)
    weigh(store, id)


def run_and_die(place: str, id: str, kind: str, moment: str) -> None:
    """Begin one errand of a kind and be killed at that moment of it."""
    store = Store(place)
    MOMENTS[moment](store)
    run_errand(store, id, kind=kind)


def upgrade_and_die(place: str) -> None:
    """Run every migration that is missing, and be killed before any of it is for good."""
    migrate._check_links = die  # type: ignore[assignment]
    Store(place).upgrade()


ALL_DONE, REFUSED = 0, 7


def book_while_there(place: str, path: str) -> None:
    """Book until the disk is pulled out; says what was told then."""
    store = Store(place)
    with Log(Path(path)).open() as say:
        try:
            while True:
                weigh(store, id := new_id())
                say("done", id)
        except StoreUnavailable as error:
            say("told", str(error))
            os._exit(REFUSED)


def _within(most: int, work: Callable[[], object]) -> None:
    """Work where no file gets larger than so many bytes; ends with REFUSED when that was told in words."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, resource.RLIM_INFINITY))
    try:
        work()
    except FarmopsError as error:
        assert "disk" in str(error) or "cannot be" in str(error), error  # noqa: PT017 - in a child, an exit code tells
        os._exit(REFUSED)


def weigh_within(place: str, most: int, id: str) -> None:
    """Weigh once where no file gets larger than that; the log of a store that was closed begins empty."""
    _within(most, lambda: weigh(Store(place), id))


def backup_within(place: str, most: int) -> None:
    """Make a backup where no file gets larger than that."""
    _within(most, lambda: backup(Store(place)))


def upgrade_within(place: str, most: int) -> None:
    """Upgrade a store where no file gets larger than that."""
    _within(most, Store(place).upgrade)


def restore_within(place: str, most: int, file: str) -> None:
    """Put a backup back where no file gets larger than that."""
    _within(most, lambda: restore(Store(place), file))


def export_within(place: str, most: int, out: str) -> None:
    """Write the whole farm as files where no file gets larger than that."""
    _within(most, lambda: export(Store(place), out))


def answer_within(more: int, words: Sequence[str], out: str) -> None:
    """Carry out a command with so many bytes of memory more than there are in use; what it says goes into a file."""
    used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    with open(out, "w", encoding="utf-8") as file, redirect_stdout(file), redirect_stderr(file):
        resource.setrlimit(resource.RLIMIT_AS, (used + more, resource.RLIM_INFINITY))
        code = run(words)
    os._exit(code)
