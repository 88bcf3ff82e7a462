"""A power cut: begun, worked through step by step, ended with what follows by itself, one at a time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from farmops.facts import chores as chore_facts
from farmops.facts import incidents as incident_facts
from farmops.farm.incidents import begin_incident, change_incident, end_incident, tick_steps
from farmops.farm.removal import remove_record
from farmops.model.chores import ChoreClass, SettledAs
from farmops.model.errors import FarmopsError, NotFound, OutOfRange, Refused
from farmops.model.incidents import Ended, Ending, Incident, IncidentChange, NewIncident, Tick, Ticked
from farmops.model.journal import Removal
from farmops.model.units import Unit, UnitKind, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import (
    ADA,
    BOB,
    TODAY,
    a_chore,
    a_unit,
    counted,
    do_again,
    everything_stored,
    on,
    stock,
    take_back,
)
from tests.frozen import frozen

NOON = datetime(2026, 10, 14, 16, tzinfo=UTC)
SEEN = ("ground-fault", "pump", "bubbles", "siphon", "heater")


@pytest.fixture(autouse=True)
def clock() -> Iterator[Any]:
    """It is noon in New York on 14 October 2026."""
    with frozen(TODAY) as moving:
        yield moving


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    """A unit with perch."""
    unit = a_unit(farm_store)
    stock(farm_store, unit)
    return unit


def begin(store: Store, at: datetime | None = None, *, by: str = ADA) -> Incident:
    return begin_incident(store, NewIncident(began_at=at), by=by)


def tick(store: Store, *steps: str, unit: Unit | None = None, at: datetime | None = None, by: str = ADA) -> None:
    tick_steps(store, Tick(steps, unit.id if unit else None, at), by=by)


def end(store: Store, at: datetime | None = None, **more: Any) -> Ended:
    return end_incident(store, Ending(at, **{"all_running": True, **more}), by=ADA)


def ticked(store: Store, incident: Incident) -> list[Ticked]:
    with store.reading() as reader:
        return incident_facts.ticked(reader, incident.id)


def test_it_begins_now_unless_another_hour_is_said(farm_store: Store, wren: Unit):
    assert begin(farm_store).began_at == NOON
    take_back(farm_store)
    assert begin(farm_store, NOON - timedelta(hours=3)).began_at == NOON - timedelta(hours=3)


def test_only_one_lasts_at_a_time(farm_store: Store, wren: Unit):
    begin(farm_store)
    before = everything_stored(farm_store), counted(farm_store)
    with pytest.raises(Refused, match="a power cut is open since 12:00"):
        begin(farm_store, by=BOB)
    assert (everything_stored(farm_store), counted(farm_store)) == before
    end(farm_store)
    begin(farm_store)
    assert len(lists.incidents(farm_store)) == 2


def test_the_end_of_one_is_not_taken_back_while_another_lasts(farm_store: Store, wren: Unit):
    begin(farm_store)
    ended = end(farm_store)
    begin(farm_store, by=BOB)
    with pytest.raises(Refused, match=r"would break a rule.*a power cut is open"):
        take_back(farm_store)
    assert ended.incident.ended_at == NOON


def test_steps_are_ticked_with_who_and_when(farm_store: Store, wren: Unit, clock: Any):
    cut = begin(farm_store)
    clock.tick(timedelta(minutes=4))
    tick(farm_store, "air", unit=wren, by=BOB)
    tick(farm_store, "feed-off", "COVERS", at=NOON + timedelta(minutes=1))
    assert [(one.step, one.unit, one.at - NOON, one.actor) for one in ticked(farm_store, cut)] == [
        ("feed-off", None, timedelta(minutes=1), ADA),
        ("covers", None, timedelta(minutes=1), ADA),
        ("air", "WREN", timedelta(minutes=4), BOB),
    ]


def test_it_is_not_ended_before_everything_was_seen_running(farm_store: Store, wren: Unit):
    begin(farm_store)
    tick(farm_store, "pump", "siphon", unit=wren)
    with pytest.raises(Refused, match="WREN: ground-fault device, air pump, heater"):
        end(farm_store, all_running=False)
    tick(farm_store, "ground-fault", "bubbles", "heater", unit=wren)
    assert end(farm_store, all_running=False).incident.ended_at == NOON


def test_saying_that_all_was_seen_ticks_what_is_left(farm_store: Store, wren: Unit):
    a_unit(farm_store, "TEAL", kind=UnitKind.HYDROPONIC)
    a_unit(farm_store, "LARK", state=UnitState.RESTING)
    cut = begin(farm_store)
    tick(farm_store, "pump", unit=wren, by=BOB)
    end(farm_store)
    found = [(one.unit, one.step, one.actor) for one in ticked(farm_store, cut)]
    assert found.count(("WREN", "pump", BOB)) == 1
    assert {(unit, step) for unit, step, _ in found} == {
        *(("WREN", step) for step in SEEN),
        *(("TEAL", step) for step in ("ground-fault", "pump", "siphon")),
    }


def test_the_feeds_of_today_are_left_out_with_the_reason(farm_store: Store, wren: Unit):
    feed = a_chore(farm_store, "Feed the perch", "day", on(10, 14), unit_id=wren.id, grade=ChoreClass.FISH_CARE)
    other = a_chore(farm_store, "Feed sacks: look for mice", "day", on(10, 14), unit_id=wren.id)
    later = a_chore(farm_store, "Feed greens", "day", on(10, 15), unit_id=wren.id, grade=ChoreClass.FISH_CARE)
    begin(farm_store)
    assert end(farm_store).feeds_left_out == ("Feed the perch, WREN",)
    with farm_store.reading() as reader:
        (line,) = chore_facts.settled(reader, feed.id)
        untouched = [chore_facts.settled(reader, one.id) for one in (other, later)]
        following = chore_facts.chore(reader, feed.id)
    assert (line.kind, line.on_day, line.reason) == (SettledAs.SKIPPED, on(10, 14), "power cut: no feed on this day")
    assert untouched == [[], []]
    assert following is not None
    assert following.next_due == on(10, 15)


def test_a_feed_of_the_templates_is_left_out_too(farm_store: Store):
    unit = a_unit(farm_store, "ROOK", on(10, 14), chores=True)
    stock(farm_store, unit, since=on(10, 14))
    begin(farm_store)
    assert "Feed the fish, ROOK" in end(farm_store).feeds_left_out


def test_the_water_is_tested_daily_for_a_week_where_fish_live(farm_store: Store, wren: Unit):
    a_unit(farm_store, "TEAL", kind=UnitKind.HYDROPONIC)
    begin(farm_store)
    given = end(farm_store).chores_given
    assert given == ("No feed on the day of the power cut, WREN", "Test ammonia, nitrite after the power cut, WREN")
    with farm_store.reading() as reader:
        test = next(one for one in chore_facts.chores(reader) if one.title.startswith("Test ammonia"))
    assert (test.unit, test.next_due, test.grade) == ("WREN", on(10, 14), ChoreClass.LIFE_SUPPORT)
    assert "COUNT=7" in test.rule_text
    assert (test.readings or "").split(",")[0] == "ammonia"


def test_a_cut_that_was_over_days_ago_leaves_todays_feed_alone(farm_store: Store, wren: Unit):
    a_chore(farm_store, "Feed the perch", "day", on(10, 14), unit_id=wren.id, grade=ChoreClass.FISH_CARE)
    begin(farm_store, NOON - timedelta(days=20))
    ended = end(farm_store, NOON - timedelta(days=20, hours=-2))
    assert (ended.feeds_left_out, ended.incident.ended_at) == ((), NOON - timedelta(days=20, hours=-2))
    with farm_store.reading() as reader:
        assert [one.title for one in chore_facts.chores(reader)] == ["Feed the perch"]


def test_what_followed_is_taken_back_with_the_end(farm_store: Store, wren: Unit):
    a_chore(farm_store, "Feed the perch", "day", on(10, 14), unit_id=wren.id, grade=ChoreClass.FISH_CARE)
    begin(farm_store)
    before = everything_stored(farm_store)
    end(farm_store)
    after = everything_stored(farm_store)
    take_back(farm_store)
    assert everything_stored(farm_store) == before
    do_again(farm_store)
    assert everything_stored(farm_store) == after


def test_when_it_began_and_ended_can_be_corrected(farm_store: Store, wren: Unit):
    cut = begin(farm_store)
    earlier = NOON - timedelta(minutes=25)
    assert change_incident(farm_store, IncidentChange(cut.id, began_at=earlier), by=ADA).began_at == earlier
    end(farm_store)
    changed = change_incident(
        farm_store, IncidentChange(cut.id, ended_at=NOON - timedelta(minutes=5), note="wind"), by=ADA
    )
    assert (changed.ended_at, changed.note) == (NOON - timedelta(minutes=5), "wind")


def test_it_is_removed_with_its_steps(farm_store: Store, wren: Unit):
    before = everything_stored(farm_store)
    cut = begin(farm_store)
    tick(farm_store, "air", unit=wren)
    remove_record(farm_store, Removal("incidents", cut.id), by=ADA)
    assert everything_stored(farm_store) == before


@pytest.mark.parametrize(
    ("kind", "words", "function", "entry"),
    [
        (Refused, "Nothing to tick: no power cut is open", tick_steps, Tick(("air",), 1)),
        (Refused, "Nothing to end: no power cut is open", end_incident, Ending()),
        (OutOfRange, "lies ahead", begin_incident, NewIncident(began_at=NOON + timedelta(seconds=1))),
        (OutOfRange, "more than 30 days back", begin_incident, NewIncident(began_at=NOON - timedelta(days=31))),
        (NotFound, "There is no incident 9", change_incident, IncidentChange(9, note="x")),
    ],
)
def test_what_cannot_be_is_refused(
    farm_store: Store, wren: Unit, kind: type[FarmopsError], words: str, function: Any, entry: Any
):
    with pytest.raises(kind, match=words):
        function(farm_store, entry, by=ADA)


@pytest.mark.parametrize(
    ("kind", "words", "function", "entry"),
    [
        (NotFound, "There is no step dance. Known: air, feed-off", tick_steps, Tick(("dance",))),
        (Refused, "Air is ticked unit by unit. Name one with --unit", tick_steps, Tick(("air",))),
        (Refused, "Covers and quiet is for the whole farm, not for WREN", tick_steps, Tick(("covers",), 1)),
        (Refused, "TEAL has nothing to see of that: Air pump", tick_steps, Tick(("bubbles",), 2)),
        (NotFound, "There is no unit 9", tick_steps, Tick(("air",), 9)),
        (Refused, "Look at every level was ticked by Ada at 12:00", tick_steps, Tick(("covers", "levels"))),
        (Refused, "before the power cut began", tick_steps, Tick(("covers",), at=NOON - timedelta(minutes=1))),
        (Refused, "before the power cut began", end_incident, Ending(NOON - timedelta(minutes=1), all_running=True)),
        (Refused, "it lasts still", change_incident, IncidentChange(1, ended_at=NOON)),
        (OutOfRange, "lies ahead", change_incident, IncidentChange(1, began_at=NOON + timedelta(minutes=1))),
    ],
)
def test_while_it_lasts_what_cannot_be_is_refused_and_nothing_is_written(
    farm_store: Store, wren: Unit, kind: type[FarmopsError], words: str, function: Any, entry: Any
):
    a_unit(farm_store, "TEAL", kind=UnitKind.HYDROPONIC)
    begin(farm_store)
    tick(farm_store, "levels")
    before = everything_stored(farm_store), counted(farm_store)
    with pytest.raises(kind, match=words):
        function(farm_store, entry, by=ADA)
    assert (everything_stored(farm_store), counted(farm_store)) == before


def test_it_cannot_end_before_it_began(farm_store: Store, wren: Unit):
    cut = begin(farm_store, NOON - timedelta(hours=1))
    end(farm_store)
    with pytest.raises(Refused, match="it would end at 10:30, before it began at 11:00"):
        change_incident(farm_store, IncidentChange(cut.id, ended_at=NOON - timedelta(minutes=90)), by=ADA)
