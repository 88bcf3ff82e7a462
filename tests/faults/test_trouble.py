"""A store that is held by someone, or a disk that is full: words and an exit code, and nothing half done."""

from __future__ import annotations

import logging
import shutil
import sqlite3
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import event

from farmops.farm.operation import Operation
from farmops.model.errors import StoreUnavailable
from farmops.model.ids import new_id
from farmops.records import dialects, store
from farmops.records.reading import Reader
from farmops.records.store import Store
from tests.faults.children import REFUSED, Log, book_while_there, start, weigh
from tests.faults.soundness import assert_sound, operations
from tests.servers import Server

EXIT_CODE = 3
PATIENCE_S = 60


def test_a_store_that_is_held_too_long_is_busy_in_words(growing: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dialects, "BUSY_SECONDS", 1)
    other, before = Store(growing.place), operations(growing)
    with growing.writing(new_id()):
        with pytest.raises(StoreUnavailable, match="busy: another program has been writing for 1 s") as busy:
            weigh(other, new_id())
        assert operations(other) == before
    assert busy.value.exit_code == EXIT_CODE
    weigh(other, new_id())
    assert len(operations(growing)) == len(before) + 1
    other.close()


def test_a_store_that_is_let_go_in_time_is_waited_for(growing: Store) -> None:
    other, id, booked = Store(growing.place), new_id(), threading.Event()

    def book() -> None:
        weigh(other, id)
        booked.set()

    thread = threading.Thread(target=book)
    with growing.writing(new_id()):
        thread.start()
        assert not booked.wait(0.3)
    thread.join()
    assert booked.is_set()
    assert operations(growing)[-1] == id
    other.close()


def test_a_writer_does_not_hold_up_readers(growing: Store) -> None:
    other = Store(growing.place)
    with growing.writing(new_id()), other.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM planting") == 1


def test_a_full_disk_is_told_and_what_was_there_stays(growing_file: Store) -> None:
    fill_up(growing_file)
    before, booked = operations(growing_file), []
    with pytest.raises(StoreUnavailable, match="The disk is full: nothing was written") as full:
        book_for_ever(growing_file, booked)
    assert full.value.exit_code == EXIT_CODE
    assert operations(growing_file) == before + booked
    assert_sound(growing_file)
    roomier = Store(growing_file.place)
    weigh(roomier, new_id())
    roomier.close()


def fill_up(store: Store) -> None:
    """From now on the file cannot grow by more than a few pages."""

    def limit(connection: sqlite3.Connection, _: Any) -> None:
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {pages + 2}")

    event.listen(store.engine, "connect", limit)
    store.close()


def book_for_ever(store: Store, booked: list[str]) -> None:
    while True:
        id = new_id()
        weigh(store, id)
        booked.append(id)


def test_a_disk_that_is_pulled_out_is_told_and_has_all_that_was_acknowledged(
    growing_file: Store, tmp_path: Path
) -> None:
    growing_file.close()
    disk, log = tmp_path / "disk", Log(tmp_path / "said")
    disk.mkdir()
    place = Path(shutil.move(growing_file.place, disk / "farm.db"))
    before = operations(Store(str(place)))
    child = start(book_while_there, str(place), str(log.path))
    deadline = time.monotonic() + PATIENCE_S
    while len(log.of("done")) < 3 and time.monotonic() < deadline:
        time.sleep(0.01)
    disk.rename(tmp_path / "pulled out")
    child.join(PATIENCE_S)
    assert child.exitcode == REFUSED
    assert log.of("told") == [
        f"{place} is not there any more. What was booked lies where it went: put its disk back, or restore a backup."
    ]
    assert not disk.exists()
    (tmp_path / "pulled out").rename(disk)
    back = Store(str(place))
    assert operations(back) == before + log.of("done")
    assert_sound(back)
    weigh(back, new_id())
    back.close()


BOOK_WITHIN_A_LIMIT = """
import resource, sys
from pathlib import Path
from farmops.model.errors import FarmopsError
from farmops.model.ids import new_id
from farmops.records.store import Store
from tests.faults.children import weigh
store = Store(sys.argv[1])
size = Path(sys.argv[1]).stat().st_size
resource.setrlimit(resource.RLIMIT_FSIZE, (size + 100_000, resource.RLIM_INFINITY))
try:
    while True:
        id = new_id()
        weigh(store, id)
        print(id, flush=True)
except FarmopsError as error:
    print(error.exit_code, error, file=sys.stderr)
"""


def test_a_disk_that_refuses_to_write_is_told_and_what_was_acknowledged_stays(growing_file: Store) -> None:
    before = operations(growing_file)
    growing_file.close()
    command = [sys.executable, "-c", BOOK_WITHIN_A_LIMIT, growing_file.place]
    root = Path(__file__).parents[2]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True)
    assert done.stderr.startswith("3 The disk")
    assert done.stdout
    assert operations(growing_file) == before + done.stdout.split()
    assert_sound(growing_file)


def hang_up_on_everyone_else(server: Server, store: Store) -> None:
    name = store.place.partition("@/")[2].partition("?")[0]
    server.admin.execute("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = %s", [name])


def test_a_server_that_hangs_up_between_two_weighings_is_called_again(
    growing_database: Store, postgres_server: Server
) -> None:
    weigh(growing_database, new_id())
    hang_up_on_everyone_else(postgres_server, growing_database)
    id = new_id()
    weigh(growing_database, id)
    assert operations(growing_database)[-1] == id


def test_a_server_that_hangs_up_while_the_schema_is_looked_at_is_told_in_words_alone(
    growing_database: Store,
    postgres_server: Server,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
) -> None:
    weigh(growing_database, new_id())
    assert logging.getLogger("sqlalchemy.pool").handlers
    look = store.is_current

    def hang_up(reader: Reader) -> bool:
        hang_up_on_everyone_else(postgres_server, growing_database)
        return look(reader)

    monkeypatch.setattr(store, "is_current", hang_up)
    with pytest.raises(StoreUnavailable, match="does not answer"):
        weigh(growing_database, new_id())
    assert caplog.text == ""
    monkeypatch.undo()
    weigh(growing_database, new_id())


def test_a_server_that_hangs_up_in_the_middle_is_told_and_nothing_is_booked(
    growing_database: Store, postgres_server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, id = operations(growing_database), new_id()
    finish = Operation.finish

    def hang_up(op: Operation) -> None:
        hang_up_on_everyone_else(postgres_server, growing_database)
        finish(op)

    monkeypatch.setattr(Operation, "finish", hang_up)
    with pytest.raises(StoreUnavailable, match="does not answer") as gone:
        weigh(growing_database, id)
    monkeypatch.undo()
    assert gone.value.exit_code == EXIT_CODE
    assert operations(growing_database) == before
    weigh(growing_database, id)
    assert operations(growing_database) == [*before, id]
    assert_sound(growing_database)
