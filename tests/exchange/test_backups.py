"""A backup is a sound copy for its owner alone; a restore is tried, keeps what it replaces and says what is lost."""

from __future__ import annotations

import shutil
import sqlite3
import stat
import threading
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange import backups as exchange
from farmops.exchange import kept_files
from farmops.exchange.backups import backup, backups, restore
from farmops.facts import harvests
from farmops.farm import daily
from farmops.farm.farm import open_farm
from farmops.farm.notes import add_note
from farmops.model.backups import Backup, Made
from farmops.model.errors import NoFarm, NotFound, Refused, StoreUnavailable
from farmops.model.farm import NewFarm
from farmops.model.ids import new_id
from farmops.model.notes import NewNote
from farmops.quantities import METRIC, US
from farmops.records import copies, dialects
from farmops.records.store import Store
from tests.faults.children import DAY, plant_something, weigh
from tests.faults.soundness import assert_sound, operations
from tests.frozen import frozen


@pytest.fixture(autouse=True)
def _daily(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(daily.VARIABLE, raising=False)


@pytest.fixture
def growing(sqlite_store: Store) -> Store:
    """A file in which something was weighed."""
    open_farm(sqlite_store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
    plant_something(sqlite_store)
    weigh(sqlite_store, new_id())
    return sqlite_store


def weighed(store: Store) -> int:
    with store.reading() as reader:
        return len(harvests.harvests(reader, DAY, DAY))


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def photo(store: Store, tmp_path: Path, content: bytes) -> str:
    """A note with a photo; returns the name under which the photo is kept."""
    taken = tmp_path / "taken.jpg"
    taken.write_bytes(content)
    add_note(store, NewNote(DAY, file=kept_files.keep(store, str(taken))), by="Ada")
    return kept_files.keep(store, str(taken)).file


def spoil(place: Path | str, at: int, size: int = 64) -> None:
    """Overwrite some bytes of a file."""
    with open(place, "r+b") as file:
        file.seek(at)
        file.write(b"\x5a" * size)


def test_a_backup_lies_beside_the_store_and_is_the_store(growing: Store) -> None:
    made = backup(growing)
    assert made.backup.file.parent == Path(growing.place).parent / "farm-backups"
    assert (made.backup.made, made.operations, made.lacking) == (Made.ASKED, 6, ())
    assert (mode(made.backup.file), mode(made.backup.file.parent)) == (0o600, 0o700)
    copy = Store(str(made.backup.file))
    assert_sound(copy)
    assert operations(copy) == operations(growing)
    assert backups(growing) == [made.backup]
    copy.close()


def test_a_backup_holds_what_is_still_in_the_log_of_the_store(growing: Store) -> None:
    with sqlite3.connect(growing.place) as reading:
        reading.execute("BEGIN")
        reading.execute("SELECT COUNT(*) FROM journal").fetchone()  # keeps the log from being written back
        weigh(growing, new_id())
        made = backup(growing)
    assert weighed(Store(str(made.backup.file))) == 2


def test_a_backup_waits_for_nobody_and_nobody_waits_for_it(growing: Store) -> None:
    with growing.writing(new_id()):
        made = backup(growing)
    assert made.operations == 6


def test_a_backup_opens_from_a_folder_that_may_only_be_read(growing: Store, tmp_path: Path) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    made = backup(growing, str(folder))
    assert [one.name for one in folder.iterdir()] == [made.backup.file.name]
    assert made.backup.file.read_bytes()[18:20] == b"\x01\x01"  # no log that must be written beside it
    assert Path(growing.place).read_bytes()[18:20] == b"\x02\x02"


def test_two_backups_of_one_second_are_two_files(growing: Store) -> None:
    with frozen("2026-10-14"):
        assert len({backup(growing).backup.file, backup(growing).backup.file}) == 2
    assert len(backups(growing)) == 2


def test_a_backup_goes_nowhere_that_is_taken_or_not_there(growing: Store, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("mine")
    with pytest.raises(Refused, match="is there already"):
        backup(growing, str(tmp_path / "taken"))
    with pytest.raises(NotFound, match="There is no folder"):
        backup(growing, str(tmp_path / "nowhere" / "farm.db"))
    with pytest.raises(Refused, match="is there already"):
        backup(growing, growing.place)
    assert (tmp_path / "taken").read_text() == "mine"


def test_nothing_is_backed_up_before_there_is_a_farm(sqlite_store: Store) -> None:
    with pytest.raises(NoFarm):
        backup(sqlite_store)
    assert backups(sqlite_store) == []


def break_the_chain(place: str) -> None:
    with sqlite3.connect(place) as connection:
        connection.execute("UPDATE journal SET actor = 'Eve' WHERE seq = 3")


def orphan_a_row(place: str) -> None:
    with sqlite3.connect(place) as connection:
        connection.execute("DELETE FROM bed")


def damage_a_page(place: str) -> None:
    with sqlite3.connect(place) as connection:
        (page,) = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'harvest'").fetchone()
    spoil(place, (page - 1) * 4096)


@pytest.mark.parametrize("harm", [break_the_chain, orphan_a_row, damage_a_page])
def test_a_store_that_is_not_whole_is_not_backed_up_as_if_it_were(growing: Store, harm: Callable[[str], None]) -> None:
    growing.close()
    harm(growing.place)
    with pytest.raises(StoreUnavailable, match="damaged"):
        backup(growing)
    assert list(copies.folder_of(growing.place).iterdir()) == []


def test_photos_stay_where_they_are_beside_the_store_and_go_along_elsewhere(growing: Store, tmp_path: Path) -> None:
    kept, away = photo(growing, tmp_path, b"a bed in May"), tmp_path / "stick"
    away.mkdir()
    beside, elsewhere, again = backup(growing), backup(growing, str(away)), backup(growing, str(away))
    assert (beside.copied, beside.folder) == (0, kept_files.folder_of(growing))
    assert (elsewhere.copied, again.copied, elsewhere.folder) == (1, 0, away / "farm-files")
    assert (away / "farm-files" / kept).read_bytes() == b"a bed in May"
    assert mode(away / "farm-files" / kept) == 0o600


def test_a_photo_that_is_gone_is_said_to_be_missing(growing: Store, tmp_path: Path) -> None:
    kept = photo(growing, tmp_path, b"a bed in June")
    (kept_files.folder_of(growing) / kept).unlink()
    assert backup(growing).lacking == (kept,)


def test_a_restore_brings_back_what_was_and_says_what_was_booked_since(growing: Store) -> None:
    made, before = backup(growing), operations(growing)
    weigh(growing, id := new_id(), by="Bo")
    tried = restore(growing, str(made.backup.file), rehearsed=True)
    assert operations(growing) == [*before, id]
    found = restore(growing, str(made.backup.file))
    assert [(one.by, one.name, one.operation) for one in found.lost] == [("Bo", "harvest", id)] * 1
    assert (tried.lost, tried.kept) == (found.lost, None)
    assert (found.farm, found.operations, found.upgraded) == ("Hollow Lane Holding", 6, False)
    assert operations(growing) == before
    assert_sound(growing)
    assert found.kept is not None
    assert restore(growing, str(found.kept)).lost == ()
    assert operations(growing) == [*before, id]


def test_programs_that_have_the_store_open_go_on_with_what_was_put_back(growing: Store) -> None:
    made, other = backup(growing), Store(growing.place)
    weigh(other, new_id())
    assert weighed(other) == 2
    with other.reading() as reader:
        restore(growing, str(made.backup.file))
        assert len(harvests.harvests(reader, DAY, DAY)) == 2
    assert weighed(other) == 1
    weigh(other, new_id())
    assert weighed(growing) == 2
    assert_sound(growing)
    other.close()


def test_a_restore_waits_for_whoever_is_writing(growing: Store) -> None:
    made, done = backup(growing), threading.Event()

    def bring_back() -> None:
        restore(Store(growing.place), str(made.backup.file))
        done.set()

    thread = threading.Thread(target=bring_back)
    with growing.writing(new_id()):
        thread.start()
        assert not done.wait(0.3)
    thread.join()
    assert done.is_set()


def test_nothing_is_booked_between_the_keeping_and_the_putting(growing: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    made, other, keep, tried = backup(growing), Store(growing.place), exchange._keep, []
    weigh(other, booked := new_id())

    def keep_while_somebody_books(store: Store) -> Path | None:
        monkeypatch.setattr(dialects, "BUSY_SECONDS", 0.2)
        with pytest.raises(StoreUnavailable, match="busy"):
            weigh(Store(other.place), new_id())
        monkeypatch.undo()
        tried.append(True)
        return keep(store)

    monkeypatch.setattr(exchange, "_keep", keep_while_somebody_books)
    found = restore(growing, str(made.backup.file))
    assert tried
    assert [one.operation for one in found.lost] == [booked]
    assert found.kept is not None
    assert operations(Store(str(found.kept)))[-1] == booked
    other.close()


def cut(place: Path) -> None:
    place.write_bytes(place.read_bytes()[:10_000])


def no_store(place: Path) -> None:
    place.write_text("day,unit\n")


def another_database(place: Path) -> None:
    place.unlink()
    with sqlite3.connect(place) as connection:
        connection.execute("CREATE TABLE hens (name TEXT)")


def from_a_newer_program(place: Path) -> None:
    with sqlite3.connect(place) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")


def with_a_broken_chain(place: Path) -> None:
    break_the_chain(str(place))


WRONG = [
    (cut, "damaged"),
    (no_store, "not a farm's store"),
    (another_database, "is a database, but not a farm's store"),
    (from_a_newer_program, "newer farmops"),
    (with_a_broken_chain, "the chain of the journal is broken"),
]


@pytest.mark.parametrize(("harm", "words"), WRONG)
def test_what_is_no_sound_backup_replaces_nothing(growing: Store, harm: Callable[[Path], None], words: str) -> None:
    file, before = backup(growing).backup.file, operations(growing)
    harm(file)
    with pytest.raises(Refused, match=words) as told:
        restore(growing, str(file))
    assert str(file) in str(told.value)
    assert operations(growing) == before
    assert [one.file for one in backups(growing)] == [file]
    assert not list(Path(growing.place).parent.glob(".farmops-restore-*"))


def test_an_empty_store_is_no_backup(growing: Store, sqlite_template: Path, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="it holds no farm"):
        restore(growing, str(shutil.copy(sqlite_template, tmp_path / "empty.db")))


def test_the_backup_of_another_farm_needs_a_word(growing: Store, tmp_path: Path) -> None:
    other = Store(str(tmp_path / "other.db"))
    other.create()
    open_farm(other, NewFarm("Reed End", METRIC, "Europe/Lisbon"), by="Bo")
    made = backup(other)
    with pytest.raises(Refused, match=r"is of another farm, Reed End\. If that is meant: --other-farm"):
        restore(growing, str(made.backup.file))
    assert restore(growing, str(made.backup.file), other_farm=True).farm == "Reed End"
    other.close()


@pytest.mark.parametrize("at", [0, 4096, 16 * 4096])
def test_a_damaged_store_gives_way_to_its_backup_and_is_kept_as_it_is(growing: Store, at: int) -> None:
    file, before = backup(growing).backup.file, operations(growing)
    growing.close()
    spoil(growing.place, at, 4096)
    damaged = Path(growing.place).read_bytes()
    found = restore(growing, str(file))
    assert operations(growing) == before
    assert_sound(growing)
    assert found.kept is not None
    assert found.kept.read_bytes() == damaged
    assert mode(found.kept) == 0o600


def test_a_lost_store_comes_back_with_its_photos(growing: Store, tmp_path: Path) -> None:
    kept, away = photo(growing, tmp_path, b"a bed in July"), tmp_path / "stick"
    away.mkdir()
    file = backup(growing, str(away)).backup.file
    new = Store(str(tmp_path / "new" / "farm.db"))
    found = restore(new, str(file))
    assert (found.lost, found.kept, found.lacking) == ((), None, ())
    assert operations(new) == operations(growing)
    assert (kept_files.folder_of(new) / kept).read_bytes() == b"a bed in July"
    assert mode(Path(new.place)) == 0o600
    new.close()


def test_the_store_itself_and_what_is_not_there_are_no_backups(growing: Store) -> None:
    with pytest.raises(Refused, match="is the farm's store itself"):
        restore(growing, growing.place)
    with pytest.raises(NotFound, match="farmops backup --list"):
        restore(growing, "nowhere.db")


def test_a_farm_on_a_server_is_left_to_the_tools_of_the_server(postgres_store: Store) -> None:
    for ask in (lambda: backup(postgres_store), lambda: backups(postgres_store), lambda: restore(postgres_store, "x")):
        with pytest.raises(Refused, match="pg_dump and pg_restore"):
            ask()
    assert daily.keep_daily(postgres_store) is None


def made_daily(store: Store) -> list[Backup]:
    return [one for one in backups(store) if one.made is Made.DAILY]


def test_one_backup_a_day_is_made_by_itself(growing: Store) -> None:
    for day, hour in ((14, "12:00"), (14, "18:00"), (15, "03:00"), (15, "05:00")):
        with frozen(date(2026, 10, day), hour):
            assert daily.keep_daily(growing) is None
    assert [f"{one.at:%d %H:%M}" for one in made_daily(growing)] == ["15 05:00", "14 12:00"]  # days of New York


def test_only_those_made_by_themselves_are_thinned(growing: Store) -> None:
    with frozen("2026-05-04"):
        asked = backup(growing).backup
        daily.keep_daily(growing)
    file = made_daily(growing)[0].file
    for number in range(5, 31):
        shutil.copy(file, file.with_name(f"farm-202605{number:02}T160000Z-daily.db"))
    (file.parent / "farm-notes.txt").write_text("mine")
    left = file.parent / ".farm-20260504T120000Z-daily.db.part"
    left.write_text("half")
    with frozen("2026-10-14"):
        assert len(daily.thin(growing.place, date(2026, 10, 14), "America/New_York")) == 11
    assert [one.at.day for one in made_daily(growing)] == [*range(30, 16, -1), 11, 4]
    assert {asked.file, file} < {one.file for one in backups(growing)}
    assert (file.parent / "farm-notes.txt").read_text() == "mine"


def test_a_daily_backup_that_fails_is_told_and_nothing_is_thrown(growing: Store) -> None:
    copies.folder_of(growing.place).write_text("in the way")
    said = daily.keep_daily(growing)
    assert said is not None
    assert said.startswith("What you booked is safe, but today's backup was not made.")


def test_no_daily_backup_is_made_where_that_is_switched_off(growing: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(daily.VARIABLE, "off")
    assert daily.keep_daily(growing) is None
    assert backups(growing) == []
