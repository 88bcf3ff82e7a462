"""A clock that is set back, runs ahead, or changes its hour: the journal keeps the order of booking, and says so."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.exchange.backups import backups
from farmops.farm import daily
from farmops.farm.farm import change_farm
from farmops.farm.harvests import record_harvest
from farmops.farm.undo import undo
from farmops.main import run
from farmops.model.backups import Made
from farmops.model.errors import OutOfRange
from farmops.model.farm import FarmChange
from farmops.model.harvests import NewHarvest
from farmops.model.ids import new_id
from farmops.model.journal import Which
from farmops.model.values import Measured
from farmops.records.store import Store
from farmops.reports.round import round_of
from tests.faults.children import PLANTING, weigh
from tests.faults.errands import ERRANDS, run_errand
from tests.faults.soundness import assert_whole, operations
from tests.frozen import frozen

INSTANTS = (
    ("2026-10-14", "16:00:00"),
    ("2026-10-12", "09:00:00"),
    ("2099-01-01", "00:00:00"),
    ("2026-11-01", "05:59:59"),
    ("2026-11-01", "05:59:58"),
    ("2026-11-01", "06:00:01"),
    ("2027-03-14", "07:00:00"),
    ("2026-10-15", "03:30:00"),
)
"""In New York: a day, two days before it, far ahead, the hour that comes twice, the hour that is left out."""


def test_what_is_booked_after_the_clock_was_set_back_comes_after(busy: Store) -> None:
    booked = operations(busy)
    with frozen(*INSTANTS[0]) as clock:
        for turn, (day, at) in enumerate(INSTANTS):
            clock.move_to(f"{day} {at}")
            for kind in list(ERRANDS)[turn::6]:
                booked.append(id := new_id())
                run_errand(busy, id, kind=kind)
        assert_whole(busy)
        assert operations(busy) == booked
        assert undo(busy, Which(), by="Ada").operation == booked[-1]
        assert_whole(busy)


def test_a_clock_that_is_far_behind_books_nothing_on_the_days_to_come(growing: Store) -> None:
    before = operations(growing)
    with frozen("1999-12-31"), pytest.raises(OutOfRange, match="2026-05-03"):
        weigh(growing, new_id())
    assert operations(growing) == before


def test_another_time_zone_changes_the_day_and_no_due_day(busy: Store) -> None:
    with frozen("2026-10-14", "16:00"):
        before = round_of(busy).on
        change_farm(busy, FarmChange(time_zone="Pacific/Auckland"), by="Ada")
        assert (before, round_of(busy).on) == (date(2026, 10, 14), date(2026, 10, 15))
        assert_whole(busy)


def test_a_clock_that_was_set_back_is_told_once(growing: Store) -> None:
    with frozen("2026-12-14") as clock:
        weigh(growing, new_id())
        assert daily.clock_set_back(growing) is None
        clock.move_to("2026-12-14 15:55")
        weigh(growing, new_id())
        assert daily.clock_set_back(growing) is None
        clock.move_to("2026-12-12 14:00")
        weigh(growing, new_id())
        said = daily.clock_set_back(growing)
        assert said is not None
        assert "it is 2026-12-12 09:00 now, and what was booked before that bears 2026-12-14 10:55" in said
        weigh(growing, new_id())
        assert daily.clock_set_back(growing) is None


def test_a_command_tells_of_a_clock_that_was_set_back(growing_file: Store, capsys: pytest.CaptureFixture[str]) -> None:
    growing_file.close()
    command = ["--farm", growing_file.place, "--by", "Ada", "notes", "add", "rain"]
    with frozen("2026-12-14") as clock:
        for day, told in (("2026-12-14", False), ("2026-12-13", True), ("2026-12-13", False)):
            clock.move_to(f"{day} 16:00")
            assert run(command) == 0
            assert ("One of them is wrong: look at the clock" in capsys.readouterr().err) is told


def test_a_day_of_a_clock_far_ahead_throws_no_backup_away(growing_file: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(daily.VARIABLE, raising=False)
    days = [f"2026-10-{number:02}" for number in range(1, 15)]
    with frozen(days[0]) as clock:
        for day in [*days, "2099-01-01", "2026-10-15", "2026-10-13"]:
            clock.move_to(f"{day} 16:00")
            entry = NewHarvest(date(2026, 5, 3), Measured(1000, "1 g"), planting_id=PLANTING, sure=True)
            record_harvest(growing_file, entry, by="Ada")
            assert daily.keep_daily(growing_file) is None
    made = sorted(f"{one.at:%Y-%m-%d}" for one in backups(growing_file) if one.made is Made.DAILY)
    assert made == [*days, "2026-10-15", "2099-01-01"]
