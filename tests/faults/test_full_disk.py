"""A disk that fills up at any write: refused in words, nothing half done, and usable when there is space again."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from farmops.exchange.backups import backup, restore
from farmops.model.ids import new_id
from farmops.records import copies
from farmops.records.store import Store
from tests.faults.children import (
    ALL_DONE,
    REFUSED,
    backup_within,
    export_within,
    restore_within,
    start,
    upgrade_within,
    weigh,
    weigh_within,
)
from tests.faults.soundness import assert_sound, operations
from tests.profiles import count
from tests.records.test_stored import STORED, raw_version, rows

PATIENCE_S = 60
PAGE = 4096


def limits(most: int) -> list[int]:
    """Sizes of the largest file that the disk takes, from none up to what all of the work needs."""
    steps = count(ci=4, full=60)
    return [most * step // steps // PAGE * PAGE for step in range(steps)]


def ends(child_of: object, *arguments: object) -> int:
    """How a child ends that works under a limit."""
    child = start(child_of, *arguments)  # type: ignore[arg-type]
    child.join(PATIENCE_S)
    assert child.exitcode in (ALL_DONE, REFUSED), child.exitcode
    return int(child.exitcode)


def no_half_files(folder: Path) -> None:
    """Nothing is left of what could not be finished."""
    assert [one.name for one in folder.rglob("*") if ".part" in one.name or ".farmops-" in one.name] == []


def test_a_weighing_is_there_whole_or_not_at_all(growing_file: Store) -> None:
    place, told = Path(growing_file.place), set()
    for most in limits(100_000):
        growing_file.close()
        before, id = operations(growing_file), new_id()
        told.add(result := ends(weigh_within, str(place), most, id))
        assert operations(growing_file) == before + [id] * (result == ALL_DONE)
        assert_sound(growing_file)
    assert told == {REFUSED, ALL_DONE}
    weigh(growing_file, new_id())


def test_a_backup_is_there_whole_or_not_at_all(growing_file: Store) -> None:
    growing_file.close()
    size, before = Path(growing_file.place).stat().st_size, operations(growing_file)
    for most in limits(size):
        assert ends(backup_within, growing_file.place, most) == REFUSED
        assert copies.backups(growing_file.place) == []
        no_half_files(Path(growing_file.place).parent)
    assert operations(growing_file) == before
    assert backup(growing_file).operations == len(before)


def test_an_upgrade_is_done_whole_or_not_at_all(tmp_path: Path) -> None:
    old = Path(shutil.copy(STORED / "0001.db", tmp_path / "farm.db"))
    before, told = rows(old), set()
    for most in limits(2 * old.stat().st_size):
        told.add(result := ends(upgrade_within, str(old), most))
        if result == REFUSED:
            assert rows(old) == before
            assert copies.backups(str(old)) == []
        no_half_files(tmp_path)
    assert REFUSED in told
    Store(str(old)).upgrade()
    assert raw_version(old) != "0001"


def test_a_restore_is_done_whole_or_not_at_all(growing_file: Store) -> None:
    made = backup(growing_file).backup
    for _ in range(3):
        weigh(growing_file, new_id())
    before = operations(growing_file)
    growing_file.close()
    for most in limits(made.size):
        assert ends(restore_within, growing_file.place, most, str(made.file)) == REFUSED
        assert operations(growing_file) == before
        no_half_files(Path(growing_file.place).parent)
    assert_sound(growing_file)
    assert len(restore(growing_file, str(made.file)).lost) == 3


@pytest.mark.parametrize("name", ["out", "out.xlsx"])
def test_an_export_is_there_whole_or_not_at_all(growing_file: Store, tmp_path: Path, name: str) -> None:
    growing_file.close()
    for most in (0, 2_000):
        assert ends(export_within, growing_file.place, most, str(tmp_path / name)) == REFUSED
        assert not (tmp_path / name).exists()
        no_half_files(tmp_path)
    assert ends(export_within, growing_file.place, 1 << 30, str(tmp_path / name)) == ALL_DONE


def test_a_full_disk_is_not_taken_for_a_damaged_store(growing_file: Store) -> None:
    growing_file.close()
    ends(weigh_within, growing_file.place, 0, new_id())
    with closing(sqlite3.connect(growing_file.place)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


@pytest.mark.parametrize("work", [weigh_within, backup_within, upgrade_within, restore_within])
def test_the_work_itself_is_done_where_there_is_room(growing_file: Store, work: object) -> None:
    made = backup(growing_file).backup.file
    growing_file.close()
    more = {weigh_within: (new_id(),), restore_within: (str(made),)}.get(work, ())  # type: ignore[call-overload]
    assert ends(work, growing_file.place, 1 << 30, *more) == ALL_DONE
