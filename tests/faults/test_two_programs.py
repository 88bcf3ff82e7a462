"""Two programs at one farm: two that undo, a backup while others book, a restore and an upgrade while others look."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from threading import Barrier

from farmops.exchange.backups import backup, restore
from farmops.farm.undo import undo
from farmops.model.errors import FarmopsError
from farmops.model.ids import new_id
from farmops.model.journal import Which
from farmops.records.store import Store
from farmops.records.version import CURRENT
from tests.faults.children import be_ready, restore_within, run_errands, start, upgrade_within, weigh
from tests.faults.errands import UNITS
from tests.faults.soundness import assert_whole, operations
from tests.faults.test_open_interface import shown, weigh_on_screen
from tests.profiles import count
from tests.records.test_stored import RELEASED, STORED, raw_version, wrong_in
from tests.tui.demo import running, until, until_seen
from tests.tui.stillness import be_still

be_still()
CROWD = 4
BACKUPS, EACH = count(ci=3, full=40), count(ci=30, full=600)
PATIENCE_S = 300
NO_LIMIT = 1 << 30


def at_once(store: Store, work: Callable[[Store], object]) -> list[str]:
    """What a crowd is told that does the same at the same moment, each in a store object of its own."""
    barrier = Barrier(CROWD)

    def one(_: int) -> str:
        own = Store(store.place)
        barrier.wait(PATIENCE_S)
        try:
            return str(work(own))
        except FarmopsError as error:
            return str(error)
        finally:
            own.close()

    with ThreadPoolExecutor(CROWD) as pool:
        return list(pool.map(one, range(CROWD)))


def test_several_that_undo_at_once_take_back_one_each(growing: Store) -> None:
    ids = [new_id() for _ in range(CROWD)]
    for id in ids:
        weigh(growing, id)
    taken = at_once(growing, lambda own: undo(own, Which(), by="Ada").operation)
    assert sorted(taken) == sorted(ids)
    with growing.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM harvest") == 0
    assert_whole(growing)


def test_an_operation_that_several_take_back_is_taken_back_once(growing: Store) -> None:
    weigh(growing, id := new_id())
    before = operations(growing)
    said = at_once(growing, lambda own: undo(own, Which(id), by="Ada").operation)
    assert said.count(id) == 1
    assert sum("is undone already" in words for words in said) == CROWD - 1
    assert len(operations(growing)) == len(before) + 1
    assert_whole(growing)


def test_a_backup_while_others_book_holds_all_that_was_acknowledged(busy_file: Store) -> None:
    children = [start(run_errands, busy_file.place, [new_id() for _ in range(EACH)], by) for by in UNITS]
    for _ in range(BACKUPS):
        acknowledged = operations(busy_file)
        made = Store(str(backup(busy_file).backup.file))
        assert operations(made)[: len(acknowledged)] == acknowledged
        assert_whole(made)
        made.close()
    for child in children:
        child.join(PATIENCE_S)
    assert [child.exitcode for child in children] == [0] * len(UNITS)
    assert_whole(busy_file)


async def test_a_restore_by_another_program_shows_and_is_booked_upon(growing_file: Store) -> None:
    made = backup(growing_file).backup.file
    weigh(growing_file, lost := new_id())
    before = len(operations(growing_file))
    be_ready()
    async with running(growing_file.place) as pilot:
        child = start(restore_within, growing_file.place, NO_LIMIT, str(made))
        await until(pilot, lambda: shown(pilot) == before - 1, "what was put back")
        child.join(PATIENCE_S)
        await pilot.press("h", "5", "space", "0", "enter")
        await until_seen(pilot, "Booked: 5 lb")
    booked = operations(growing_file)
    assert lost not in booked
    assert len(booked) == before
    assert_whole(growing_file)


async def test_two_interfaces_show_what_the_other_books(growing_file: Store) -> None:
    async with running(growing_file.place, by="Ada") as one, running(growing_file.place, by="Bea") as other:
        for here, there in ((one, other), (other, one)):
            await weigh_on_screen(here)
            last = len(operations(growing_file))
            await until(there, lambda there=there, last=last: shown(there) == last, "it")  # type: ignore[misc]
    assert_whole(growing_file)


def test_a_reader_looks_on_while_another_program_upgrades(tmp_path: Path) -> None:
    place = str(shutil.copy(STORED / f"{RELEASED[-2]}.db", tmp_path / "farm.db"))
    with closing(sqlite3.connect(place)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")  # as farmops keeps it; it was put away with another
    store = Store(place)
    connection = store.dialect.connect()
    before = connection.execute("SELECT COUNT(*) FROM harvest").fetchone()
    child = start(upgrade_within, place, NO_LIMIT)
    child.join(PATIENCE_S)
    assert child.exitcode == 0
    assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == (RELEASED[-2],)
    assert connection.execute("SELECT COUNT(*) FROM harvest").fetchone() == before
    connection.close()
    assert raw_version(Path(place)) == CURRENT
    assert not wrong_in(store)


def test_an_upgrade_waits_for_whoever_is_writing(tmp_path: Path) -> None:
    place = str(shutil.copy(STORED / f"{RELEASED[-2]}.db", tmp_path / "farm.db"))
    writer = Store(place).dialect.engine()
    with writer.begin() as connection:
        child = start(upgrade_within, place, NO_LIMIT)
        child.join(1.0)
        assert child.is_alive()
        connection.exec_driver_sql("UPDATE farm SET name = 'Upper Field'")
    child.join(PATIENCE_S)
    assert child.exitcode == 0
    with Store(place).reading() as reader:
        assert reader.value("SELECT name FROM farm") == "Upper Field"
    writer.dispose()


def test_a_restore_of_a_store_that_is_put_back_by_another_is_done_after_it(growing_file: Store) -> None:
    made = backup(growing_file).backup.file
    for _ in range(3):
        weigh(growing_file, new_id())
    said = at_once(growing_file, lambda own: restore(own, str(made)).farm)
    assert said == ["Hollow Lane Holding"] * CROWD
    assert_whole(growing_file)
