"""The round: what is due on a day, in the order a person walks."""

from __future__ import annotations

import pytest

from farmops.farm.chores import pause
from farmops.model.beds import Bed, BedKind
from farmops.model.chores import Chore, ChoreClass, NewPause, PartOfDay, SettledAs
from farmops.model.errors import NotFound
from farmops.model.units import UnitState
from farmops.records.store import Store
from farmops.reports.round import Round, round_of
from tests.farmhand import ADA, TODAY, a_bed, a_chore, a_unit, enters, on, settle, stock

DAY = on(10, 14)


def titles(found: Round) -> dict[str, list[str]]:
    return {section.title: [f"{line.where} {line.chore.title}" for line in section.lines] for section in found.sections}


@pytest.fixture
def row(farm_store: Store) -> Store:
    """FINCH stands before WREN in the row, though WREN was there first."""
    wren = a_unit(farm_store, "WREN", on(3, 1), position=2)
    finch = a_unit(farm_store, "FINCH", on(3, 1), position=1)
    bed = a_bed(farm_store, wren, kind=BedKind.RAFT)
    morning, evening = PartOfDay.MORNING, PartOfDay.EVENING
    a_chore(farm_store, "Sweep", "day", DAY)
    a_chore(farm_store, "Order seed", "once", on(10, 10), grade=ChoreClass.PAPERWORK)
    a_chore(farm_store, "Rinse pad", "day", DAY, unit_id=wren.id, part=morning)
    a_chore(farm_store, "Pick", "day", DAY, bed_id=bed.id, grade=ChoreClass.CROP, part=morning)
    a_chore(farm_store, "Wash crates", "day", DAY, unit_id=wren.id, grade=ChoreClass.FOOD_SAFETY, part=morning)
    a_chore(farm_store, "Test water", "day", on(10, 11), unit_id=wren.id, grade=ChoreClass.LIFE_SUPPORT)
    a_chore(farm_store, "Net solids", "7 days after", on(10, 1), unit_id=finch.id)
    a_chore(farm_store, "Look again", "day", DAY, grade=ChoreClass.LIFE_SUPPORT, part=evening)
    a_chore(farm_store, "Look round", "day", on(10, 13), grade=ChoreClass.LIFE_SUPPORT, part=morning)
    a_chore(farm_store, "Close vents", "day", DAY, unit_id=wren.id, part=evening)
    a_chore(farm_store, "Shade", "day", DAY, unit_id=finch.id, part=PartOfDay.MIDDAY)
    a_chore(farm_store, "Rinse pad", "day", DAY, unit_id=finch.id, part=morning)
    a_chore(farm_store, "Paint", "once", on(10, 16), unit_id=finch.id)
    return farm_store


def test_the_round_in_walking_order(row: Store):
    assert titles(round_of(row, DAY)) == {
        "All units": ["all Look round"],
        "Late": ["WREN Test water", "FINCH Net solids", "all Order seed"],
        "Morning": ["FINCH Rinse pad", "WREN Wash crates", "WREN-N Pick", "WREN Rinse pad"],
        "Midday": ["FINCH Shade"],
        "Evening": ["all Look again", "WREN Close vents"],
        "No set hour": ["all Sweep"],
    }


def test_how_late_and_how_many_missed_stand_on_one_line(row: Store):
    late = {line.chore.title: (line.days_late, line.missed) for line in round_of(row, DAY).late}
    assert late == {"Look round": (1, 0), "Test water": (3, 2), "Net solids": (13, 0), "Order seed": (4, 0)}
    fourth = {line.chore.title: line.missed for line in round_of(row, on(10, 15)).late}
    assert fourth["Test water"] == 3


def test_the_days_ahead_come_after_the_day_itself(row: Store):
    ahead = titles(round_of(row, DAY, days=3))
    assert list(ahead)[-1] == "Fri 2026-10-16"
    assert ahead["Fri 2026-10-16"] == ["FINCH Paint"]
    assert "Fri 2026-10-16" not in titles(round_of(row, DAY, days=2))
    assert all(line.due <= DAY for line in round_of(row, DAY, days=3).due)


def test_one_unit_with_its_beds(row: Store):
    found = round_of(row, DAY, unit=" wren ")
    assert {line.chore.unit for line in found.lines} == {"WREN"}
    assert "WREN-N Pick" in titles(found)["Morning"]
    with pytest.raises(NotFound, match=r"There is no unit OWL\. Known: FINCH, WREN\."):
        round_of(row, DAY, unit="OWL")


def test_without_a_day_it_is_the_farms_today(row: Store):
    assert round_of(row).on == TODAY


def test_what_was_settled_today_leaves_the_lines_and_stands_by_itself(row: Store):
    done = next(line.chore for line in round_of(row, DAY).lines if line.chore.title == "Shade")
    settle(row, done, DAY)
    settle(row, 1, DAY, SettledAs.SKIPPED, reason="rain", by="Bob")
    found = round_of(row, DAY)
    assert "Midday" not in titles(found)
    assert [(one.where, one.chore.title, one.settled.kind, one.settled.actor) for one in found.settled] == [
        ("FINCH", "Shade", SettledAs.DONE, "Ada"),
        ("all", "Sweep", SettledAs.SKIPPED, "Bob"),
    ]
    assert [one.chore.title for one in round_of(row, DAY, unit="FINCH").settled] == ["Shade"]


def test_minutes_are_those_of_the_day(row: Store):
    assert round_of(row, DAY, days=9).minutes == round_of(row, DAY).minutes == 12 * 5


def test_nothing_is_due_on_a_farm_without_chores(farm_store: Store):
    a_unit(farm_store)
    found = round_of(farm_store, DAY)
    assert (found.sections, found.lines, found.settled, found.minutes, found.units) == ((), (), (), 0, 1)


def test_what_is_suspended_is_absent(farm_store: Store):
    unit = a_unit(farm_store)
    rests: Chore = a_chore(farm_store, "Sweep", "day", on(10, 1))
    a_chore(farm_store, "Rinse", "day", on(10, 1), unit_id=unit.id, states=(UnitState.RUNNING,))
    a_chore(farm_store, "Mow", "day", on(10, 1), months=(5,))
    assert [line.chore.title for line in round_of(farm_store, DAY).lines] == ["Sweep", "Rinse"]
    pause(farm_store, NewPause(rests.id, on(10, 1)), by=ADA)
    enters(farm_store, unit, UnitState.RESTING, on(10, 1))
    assert round_of(farm_store, DAY).lines == ()


def test_feeding_is_absent_until_there_are_fish(farm_store: Store):
    unit = a_unit(farm_store, since=on(10, 1), chores=True)
    assert "Feed the fish" not in {line.chore.title for line in round_of(farm_store, DAY).lines}
    stock(farm_store, unit, since=DAY)
    feeding = next(line for line in round_of(farm_store, DAY).lines if line.chore.title == "Feed the fish")
    assert (feeding.due, feeding.days_late, feeding.where) == (DAY, 0, "WREN")


def test_fish_keep_their_chores_while_the_unit_rests(farm_store: Store):
    unit = a_unit(farm_store)
    running = (UnitState.RUNNING,)
    a_chore(farm_store, "Feed", "day", DAY, unit_id=unit.id, states=running, grade=ChoreClass.FISH_CARE)
    enters(farm_store, unit, UnitState.RESTING, on(10, 1))
    assert round_of(farm_store, DAY).lines == ()
    stock(farm_store, unit, since=DAY)
    assert [line.chore.title for line in round_of(farm_store, DAY).lines] == ["Feed"]


def test_the_place_of_a_line_is_its_bed_before_its_unit(row: Store):
    bed: Bed = a_bed(row, a_unit(row, "TERN"))
    a_chore(row, "Thin", "once", DAY, bed_id=bed.id)
    assert "TERN-N Thin" in titles(round_of(row, DAY))["No set hour"]
