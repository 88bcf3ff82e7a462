"""Why a chore stands on the round: what holds since when, what was used, what would end it."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.farm.chores import change_chore, pause
from farmops.farm.plantings import change_planting
from farmops.model.beds import Bed
from farmops.model.chores import ChoreChange, ChoreClass, NewPause, SettledAs
from farmops.model.plantings import PlantingChange
from farmops.model.units import Unit, UnitState
from farmops.model.usage import Counter
from farmops.records.store import Store
from farmops.reports.reasons import short_day
from farmops.reports.round import Fold, Round, RoundLine, round_of
from farmops.reports.row import row_of
from tests.farmhand import ADA, a_bed, a_chore, a_crop, a_unit, enters, foretell, mass, on, plant, settle, use, weigh

DAY = on(10, 14)
HOUR = 60


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    return a_unit(farm_store)


@pytest.fixture
def north(farm_store: Store, wren: Unit) -> Bed:
    return a_bed(farm_store, wren)


def line(store: Store, day: date = DAY, days: int = 1) -> RoundLine | None:
    """The only line of a round."""
    lines = round_of(store, day, days=days).lines
    assert len(lines) <= 1
    return lines[0] if lines else None


def told(store: Store, day: date = DAY) -> str | None:
    found = line(store, day)
    return found.why if found else None


def test_picking_says_what_is_ready_since_when_and_is_open_but_not_late(farm_store: Store, north: Bed):
    chard = plant(farm_store, north, a_crop(farm_store, library_key="chard"), on(9, 16))
    a_chore(farm_store, "Pick what is ready", "when planting ready", on(3, 1), bed_id=north.id, grade=ChoreClass.CROP)
    found = line(farm_store)
    assert found is not None
    assert (found.due, found.days_late, found.missed) == (on(10, 11), 0, 0)
    assert found.why == "CHARD ready since Sun 11 Oct"
    assert found.ends == "a weighing from it, or clearing"
    assert [section.title for section in round_of(farm_store, DAY).sections] == ["No set hour"]
    assert told(farm_store, on(10, 11)) == "CHARD ready"
    weigh(farm_store, chard, "1 lb", DAY)
    assert line(farm_store) is None


def test_two_plantings_that_are_ready_are_one_line(farm_store: Store, north: Bed):
    for crop, day in (("chard", on(9, 16)), ("basil", on(9, 1))):
        plant(farm_store, north, a_crop(farm_store, crop, library_key=crop), day)
    a_chore(farm_store, "Pick what is ready", "when planting ready", on(3, 1), bed_id=north.id)
    found = line(farm_store)
    assert found is not None
    assert found.why == "BASIL ready since Tue 6 Oct; CHARD ready since Sun 11 Oct"
    assert found.ends == "a weighing from it, or clearing"


def test_life_support_is_late_while_it_holds_and_is_not_settled(farm_store: Store, wren: Unit):
    enters(farm_store, wren, UnitState.CYCLING, on(10, 12))
    a_chore(farm_store, "Test", "when unit cycling", on(3, 1), unit_id=wren.id, grade=ChoreClass.LIFE_SUPPORT)
    found = round_of(farm_store, DAY)
    assert [(one.days_late, one.why) for one in found.overdue_life_support] == [(2, "WREN cycling since Mon 12 Oct")]


def test_what_has_gone_by_is_not_asked_for_and_what_comes_stands_ahead(farm_store: Store):
    a_chore(farm_store, "Cover the beds", "when frost to come", on(3, 1))
    foretell(farm_store, on(10, 3), low="20 F")
    foretell(farm_store, on(10, 17), low="30 F")
    assert line(farm_store) is None
    assert line(farm_store, days=2) is None
    found = line(farm_store, days=3)
    assert found is not None
    assert found.due == on(10, 16)
    assert found.why == "frost to come, low of 30.0 °F on Sat 17 Oct from Fri 16 Oct"
    assert [section.title for section in round_of(farm_store, DAY, days=3).sections] == ["Fri 2026-10-16"]
    assert row_of(farm_store, DAY).cards[0].due == 0
    assert told(farm_store, on(10, 17)) == "frost to come, low of 30.0 °F on Sat 17 Oct since Fri 16 Oct"


def test_a_late_chore_that_rests_stands_on_the_day_it_goes_on(farm_store: Store):
    chore = a_chore(farm_store, "Sweep", "7 days after", on(10, 12))
    pause(farm_store, NewPause(chore.id, on(10, 13), on(10, 15)), by=ADA)
    assert line(farm_store, days=2) is None
    found = line(farm_store, days=3)
    assert found is not None
    assert (found.due, found.days_late, found.why) == (on(10, 16), 0, None)


def strip(store: Store, unit: Unit, rule: str = "480 pump hours") -> None:
    a_chore(store, "Strip the pump", rule, on(9, 1), unit_id=unit.id)


def undated(found: Round) -> list[tuple[str, str, str]]:
    return [(one.where, one.chore.title, one.why) for one in found.undated]


def test_a_chore_by_use_that_nothing_gives_a_day_is_told_on_every_round(farm_store: Store, wren: Unit):
    strip(farm_store, wren)
    assert undated(round_of(farm_store, DAY)) == [("WREN", "Strip the pump", "no pump hours booked yet")]
    use(farm_store, wren, Counter.PUMP_HOURS, 100 * HOUR, on(9, 10))
    why = "100 pump hours since Tue 1 Sep; the next record tells when"
    assert undated(round_of(farm_store, DAY, unit="wren")) == [("WREN", "Strip the pump", why)]
    use(farm_store, wren, Counter.PUMP_HOURS, 240 * HOUR, on(9, 20))
    assert undated(round_of(farm_store, DAY)) == []
    assert line(farm_store, on(9, 25)) is None
    assert told(farm_store, on(9, 26)) == "340 pump hours since Tue 1 Sep, of 480 pump hours"


def test_one_that_rests_or_is_put_off_or_has_a_latest_day_does_not_wait_for_a_record(farm_store: Store, wren: Unit):
    other = a_unit(farm_store, "ROOK")
    for unit in (wren, other, wren):
        strip(farm_store, unit)
    pause(farm_store, NewPause(1, on(9, 1)), by=ADA)
    settle(farm_store, 3, DAY, SettledAs.DEFERRED, until=on(11, 1))
    strip(farm_store, wren, "480 pump hours or 12 weeks")
    assert [where for where, *_ in undated(round_of(farm_store, DAY))] == ["ROOK"]
    assert undated(round_of(farm_store, DAY, unit="ROOK")) == [("ROOK", "Strip the pump", "no pump hours booked yet")]


def test_late_by_use_is_late_and_says_how_much_was_used(farm_store: Store, wren: Unit):
    a_chore(farm_store, "Empty the bin", "5 lb fed", on(9, 1), unit_id=wren.id, grade=ChoreClass.FISH_CARE)
    use(farm_store, wren, Counter.FEED, mass("5 lb 4 oz").exact, on(10, 10))
    found = line(farm_store)
    assert found is not None
    assert (found.days_late, found.ends) == (4, None)
    assert found.why == "5 lb 4 oz fed since Tue 1 Sep, of 5 lb fed"


def test_latest_day_reached_says_what_was_used_so_far(farm_store: Store, wren: Unit):
    strip(farm_store, wren, "480 pump hours or 4 weeks")
    assert told(farm_store) == "no pump hours booked yet"
    use(farm_store, wren, Counter.PUMP_HOURS, 10 * HOUR, on(9, 2))
    assert told(farm_store) == "10 pump hours since Tue 1 Sep; the next record tells when"


def test_a_day_of_another_year_names_it():
    assert short_day(on(1, 5), DAY) == "Mon 5 Jan"
    assert short_day(date(2025, 1, 5), DAY) == "Sun 5 Jan 2025"


def test_a_planting_past_its_time_is_looked_at_until_it_is_cleared(farm_store: Store, north: Bed):
    old = plant(farm_store, north, a_crop(farm_store, "LETTUCE", library_key="lettuce"), on(8, 1))
    a_chore(farm_store, "Pick or clear", "when planting overdue", on(3, 1), bed_id=north.id)
    assert told(farm_store) == "LETTUCE past its time since Thu 3 Sep"
    change_planting(farm_store, PlantingChange(old.id, cleared_day=DAY), by=ADA)
    assert line(farm_store) is None


def test_several_places_on_one_line_say_why_for_each_and_until_when_once(farm_store: Store):
    for code in ("WREN", "ROOK", "TEAL"):
        unit = a_unit(farm_store, code, since=on(10, 12), state=UnitState.CYCLING)
        a_chore(farm_store, "Test daily", "when unit cycling", on(3, 1), unit_id=unit.id)
    ((fold,),) = [section.items for section in round_of(farm_store, DAY).sections]
    assert isinstance(fold, Fold)
    assert fold.reason == (
        "WREN cycling since Mon 12 Oct; ROOK cycling since Mon 12 Oct; TEAL cycling since Mon 12 Oct, "
        "until its next state"
    )
    use(farm_store, unit, Counter.PUMP_HOURS, HOUR, on(10, 1))
    for number in (1, 2, 3):
        change_chore(farm_store, ChoreChange(number, rule="10 siphon cycles or 1 day", start_day=on(10, 1)), by=ADA)
    ((fold,),) = [section.items for section in round_of(farm_store, DAY).sections]
    assert fold.reason == "; ".join(f"{code}: no siphon cycles booked yet" for code in ("WREN", "ROOK", "TEAL"))
