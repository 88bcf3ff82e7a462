"""The care sheet: what is due when, bags of feed on the short side, and what would be looked for in vain."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest

from farmops.exchange.care_text import feed_words
from farmops.farm.absences import go_away
from farmops.farm.chores import pause
from farmops.farm.contacts import add_contact
from farmops.farm.farm import add_person
from farmops.farm.units import change_unit
from farmops.model.absences import NewAbsence
from farmops.model.chores import ChoreClass, NewPause
from farmops.model.contacts import NewContact
from farmops.model.errors import Refused
from farmops.model.farm import NewPerson
from farmops.model.units import Unit, UnitChange
from farmops.records.store import Store
from farmops.reports.care import CareSheet, care_sheet
from farmops.reports.rations import rations_on
from farmops.science.rations import GROW_OUT_TABLE, HELPER_SHARE, helpers_temperatures, ration
from tests.farmhand import ADA, TODAY, a_chore, a_unit, on, read, settle, stock
from tests.frozen import frozen
from tests.labels import common_practice

OLD, FIRST, LAST = on(10, 1), on(10, 19), on(10, 25)
TROUT = helpers_temperatures(best_low_c=14, best_high_c=16, lethal_low_c=10, lethal_high_c=18)


@pytest.fixture(autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    """A unit with 40 trout of 100 g at 15 C."""
    unit = a_unit(farm_store)
    stock(farm_store, unit, "T-1", on(10, 1), 40, species="rainbow trout", mean="100 g")
    read(farm_store, unit, on(10, 14), temperature="15 C")
    return unit


def looked(store: Store, title: str = "Look round", rule: str = "day", start: date = OLD, **more: Any) -> Any:
    return a_chore(store, title, rule, start, **{"grade": ChoreClass.LIFE_SUPPORT, **more})


def due(sheet: CareSheet) -> dict[str, list[tuple[int, str]]]:
    """Each chore with the days of October and the places."""
    return {line.chore.title: [(one.day.day, ",".join(one.places)) for one in line.due] for line in sheet.lines}


def test_what_cannot_wait_stands_on_the_days_on_which_it_is_due(farm_store: Store, wren: Unit):
    looked(farm_store)
    looked(farm_store, "Clear the intake", "3 days after", on(10, 16), unit_id=wren.id)
    looked(farm_store, "Wash crates", "Sat", on(10, 1), grade=ChoreClass.FOOD_SAFETY)
    looked(farm_store, "Oil the door", "day", on(10, 1), grade=ChoreClass.UPKEEP)
    assert due(care_sheet(farm_store, FIRST, LAST)) == {
        "Look round": [(day, "all") for day in range(19, 26)],
        "Clear the intake": [(19, "WREN"), (22, "WREN"), (25, "WREN")],
        "Wash crates": [(24, "all")],
    }


def test_the_same_work_in_several_units_is_one_line(farm_store: Store, wren: Unit):
    rook = a_unit(farm_store, "ROOK")
    for unit, start in ((wren, on(10, 19)), (rook, on(10, 20))):
        looked(farm_store, "Clear the intake", "2 days after", start, unit_id=unit.id, minutes=5)
    looked(farm_store, "Clear the intake", "day", on(10, 20), unit_id=rook.id, minutes=6)
    sheet = care_sheet(farm_store, FIRST, on(10, 22))
    assert [[(one.day.day, one.places) for one in line.due] for line in sheet.lines] == [
        [(19, ("WREN",)), (20, ("ROOK",)), (21, ("WREN",)), (22, ("ROOK",))],
        [(20, ("ROOK",)), (21, ("ROOK",)), (22, ("ROOK",))],
    ]
    assert [sheet.minutes_on(day) for day in sheet.days] == [5, 11, 11, 11]


def test_what_is_done_today_is_due_in_its_turn(farm_store: Store, wren: Unit):
    intake = looked(farm_store, "Clear the intake", "7 days after", on(10, 14), unit_id=wren.id)
    assert due(care_sheet(farm_store, FIRST, LAST)) == {"Clear the intake": [(21, "WREN")]}
    settle(farm_store, intake, on(10, 13))
    assert due(care_sheet(farm_store, FIRST, LAST)) == {"Clear the intake": [(20, "WREN")]}


def test_without_a_day_it_is_for_the_absence_that_comes_next(farm_store: Store, wren: Unit):
    ada, bo, ivy = (add_person(farm_store, NewPerson(name), by=ADA) for name in ("Ada", "Bo", "Ivy"))
    assert (care_sheet(farm_store).first, care_sheet(farm_store).last) == (TODAY, TODAY)
    own = looked(farm_store, "Rake", "day", on(10, 1), grade=ChoreClass.UPKEEP, person_id=ivy.id)
    go_away(farm_store, NewAbsence(ada.id, on(11, 1), on(11, 3)), by=ADA)
    go_away(farm_store, NewAbsence(bo.id, FIRST, LAST, ivy.id), by=ADA)
    sheet = care_sheet(farm_store)
    assert (sheet.first, sheet.last, [one.person for one in sheet.absences]) == (FIRST, LAST, ["Bo"])
    assert [line.chore.id for line in sheet.lines] == [own.id]
    assert due(care_sheet(farm_store, on(11, 1))) == {}
    with frozen(on(10, 22)):
        assert (care_sheet(farm_store).first, care_sheet(farm_store).last) == (on(10, 22), LAST)


def test_a_sheet_of_weeks_comes_apart_into_weeks_that_stand_alone(farm_store: Store, wren: Unit):
    looked(farm_store)
    sheet = care_sheet(farm_store, FIRST, on(11, 1))
    assert [(week.first, week.last) for week in sheet.weeks] == [(FIRST, LAST), (on(10, 26), on(11, 1))]
    assert [due(week)["Look round"][0][0] for week in sheet.weeks] == [19, 26]
    assert [bag.number for week in sheet.weeks for bag in week.bags] == list(range(1, 15))
    assert all(week.stop and week.never and week.cautions for week in sheet.weeks)


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [(LAST, FIRST, "before it begins"), (FIRST, FIRST + timedelta(days=31), "at most 31 days")],
)
def test_a_span_that_cannot_be_is_refused(farm_store: Store, first: date, last: date, words: str):
    with pytest.raises(Refused, match=words):
        care_sheet(farm_store, first, last)


@common_practice("a helper feeds from bags that are weighed before, rather too little")
def test_the_bags_hold_four_fifths_of_the_ration(farm_store: Store, wren: Unit):
    sheet = care_sheet(farm_store, FIRST, on(10, 20))
    most = ration(40, 100, 15, temperatures=TROUT, table=GROW_OUT_TABLE).grams
    assert most == pytest.approx(80)
    assert [one.label for one in sheet.bags] == ["bag 1: WREN Mon 64 g", "bag 2: WREN Tue 64 g"]
    (unit,) = sheet.units
    assert unit.fish == "40 rainbow trout"
    assert unit.feed is not None
    assert unit.feed.stop == "no feed at 53.6 °F and colder, or 62.6 °F and warmer"
    assert unit.feed.remarks == ("worked out at 59.0 °F, read on 2026-10-14",)


def test_cool_water_makes_smaller_bags_and_cold_water_none(farm_store: Store, wren: Unit):
    read(farm_store, wren, on(10, 14), temperature="13 C")
    assert care_sheet(farm_store, FIRST).bags[0].grams == 32
    read(farm_store, wren, on(10, 14), temperature="12 C")
    sheet = care_sheet(farm_store, FIRST)
    assert sheet.bags == ()
    assert sheet.units[0].feed is not None
    assert sheet.units[0].feed.why == "no feed at 53.6 °F"


def test_water_that_stops_the_feed_has_no_bags(farm_store: Store, wren: Unit):
    read(farm_store, wren, on(10, 14), nitrite="1 ion")
    sheet = care_sheet(farm_store, FIRST)
    assert (sheet.bags, sheet.units[0].feed and sheet.units[0].feed.grams) == ((), 0)
    assert "; no feed, nitrite is out of its limits; see water; no feed at 53.6 °F" in feed_words(sheet.units[0])


@pytest.mark.parametrize(("temperature", "grams"), [("22 C", 16), ("14 C", 8)])
def test_what_the_round_feeds_the_sheet_feeds_at_the_same_temperatures(farm_store: Store, temperature: str, grams: int):
    rook = a_unit(farm_store, "ROOK")
    stock(farm_store, rook, "P-1", on(10, 1), 10, species="yellow perch", mean="100 g")
    read(farm_store, rook, on(10, 14), temperature=temperature)
    (ration,) = rations_on(farm_store, on(10, 14)).lots
    assert ration.grams == pytest.approx(grams / HELPER_SHARE, abs=1)
    assert care_sheet(farm_store, FIRST).bags[0].grams == grams


def test_an_old_temperature_is_to_be_read_again(farm_store: Store, wren: Unit):
    rook = a_unit(farm_store, "ROOK")
    stock(farm_store, rook, "T-2", on(10, 1), 40, species="rainbow trout", mean="100 g")
    read(farm_store, rook, on(10, 6), temperature="15 C")
    feed = care_sheet(farm_store, FIRST).units[1].feed
    assert feed is not None
    assert feed.remarks == ("worked out at 59.0 °F, read on 2026-10-06: read it again before filling bags",)


@pytest.mark.parametrize(
    ("species", "mean", "temperature", "why"),
    [
        ("mudskipper", "100 g", "15 C", "how warm mudskipper want it to eat is not in the tables"),
        ("rainbow trout", "100 g", None, "no water temperature was read"),
        (
            "mudskipper",
            "100 g",
            None,
            "how warm mudskipper want it to eat is not in the tables; no water temperature was read",
        ),
        ("rainbow trout", "20 g", "15 C", "mean weight 20 g is outside the feeding table, which covers 50 g and more"),
    ],
)
def test_what_cannot_be_worked_out_is_a_blank_with_its_reason(
    farm_store: Store, species: str, mean: str, temperature: str | None, why: str
):
    rook = a_unit(farm_store, "ROOK")
    stock(farm_store, rook, "F-1", on(10, 1), 10, species=species, mean=mean)
    if temperature:
        read(farm_store, rook, on(10, 14), temperature=temperature)
    sheet = care_sheet(farm_store, FIRST)
    assert [one.label for one in sheet.bags] == ["bag 1: ROOK Mon ____ g"]
    assert sheet.units[0].feed is not None
    assert sheet.units[0].feed.why == why
    assert f"how much ROOK is fed: {why}" in sheet.lacking


def test_tilapia_are_fed_by_their_own_table(farm_store: Store):
    rook = a_unit(farm_store, "ROOK")
    stock(farm_store, rook, "N-1", on(10, 1), 10, species="nile tilapia", mean="50 g")
    read(farm_store, rook, on(10, 14), temperature="28 C")
    feed = care_sheet(farm_store, FIRST).units[0].feed
    assert feed is not None
    assert (feed.grams, feed.portions) == (13, 3)


def test_a_unit_has_bags_on_the_days_on_which_its_feed_is_due(farm_store: Store, wren: Unit):
    feed = looked(
        farm_store, "Feed", "Mon Thu", on(10, 1), unit_id=wren.id, grade=ChoreClass.FISH_CARE, template_key="feed"
    )
    assert [one.day.day for one in care_sheet(farm_store, FIRST, LAST).bags] == [19, 22]
    pause(farm_store, NewPause(feed.id, on(10, 14)), by=ADA)
    assert care_sheet(farm_store, FIRST, LAST).bags == ()


def test_what_would_be_looked_for_in_vain_is_told(farm_store: Store, wren: Unit):
    lacking = care_sheet(farm_store, FIRST).lacking
    assert [words.split(":")[0] for words in lacking] == [
        "nobody to call",
        "where the breaker of WREN is",
        "where the valve of WREN is",
    ]
    add_contact(farm_store, NewContact("Dr Reed", "555 0100", "vet"), by=ADA)
    change_unit(farm_store, UnitChange(wren.id, breaker="No. 3", valve="red tap"), by=ADA)
    assert care_sheet(farm_store, FIRST).lacking == ()
