"""How long each unit has without power: by what is known now, on the short side, or what is missing to say it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from farmops.farm.farm import change_farm
from farmops.farm.incidents import begin_incident, end_incident, tick_steps
from farmops.model.errors import NotFound
from farmops.model.farm import FarmChange
from farmops.model.harvests import Use
from farmops.model.incidents import Ending, NewIncident, Phase, Tick
from farmops.model.units import Unit, UnitKind, UnitState
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports.power_cut import Standing, UnitTime, standing_now, standing_of
from farmops.reports.power_cut_words import TIME_IS_UP, basis_words, left_words, minutes_words, since_words
from farmops.science.oxygen import minutes_without_power
from tests.farmhand import ADA, TODAY, a_unit, length, on, read, stock, volume, weigh
from tests.frozen import frozen

NOON = datetime(2026, 10, 14, 16, tzinfo=UTC)
GALLONS_250_L = 946.353


@pytest.fixture(autouse=True)
def clock() -> Iterator[Any]:
    """It is noon in New York on 14 October 2026."""
    with frozen(TODAY) as moving:
        yield moving


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    """250 gal with 50 perch of 20 g, at 20 C this morning."""
    unit = a_unit(farm_store, tank=volume("250 gal"))
    stock(farm_store, unit, since=on(10, 1))
    read(farm_store, unit, on(10, 14), temperature="20 C")
    return unit


def time(store: Store, code: str = "WREN") -> UnitTime:
    return next(one for one in standing_now(store).times if one.unit.code == code)


def expected(**more: Any) -> float:
    known = {"volume_l": GALLONS_250_L, "biomass_kg": 1.0, "mean_g": 20.0, "temperature_c": 20.0, "limit_mg_per_l": 4.0}
    return minutes_without_power(**{**known, **more}).minutes


def test_minutes_follow_from_fish_water_and_temperature(farm_store: Store, wren: Unit):
    assert time(farm_store).minutes == pytest.approx(expected())
    assert time(farm_store).remarks == ()


def test_the_height_of_the_farm_counts(farm_store: Store, wren: Unit):
    change_farm(farm_store, FarmChange(altitude=length("5000 ft")), by=ADA)
    assert time(farm_store).minutes == pytest.approx(expected(altitude_m=1524.0))


def test_the_minutes_run_down_by_the_clock_of_the_farm(farm_store: Store, wren: Unit, clock: Any):
    begin_incident(farm_store, NewIncident(began_at=NOON - timedelta(minutes=10)), by=ADA)
    first = time(farm_store).left(standing_now(farm_store).now)
    assert first == pytest.approx(expected() - 10)
    clock.tick(timedelta(minutes=7, seconds=30))
    found = standing_now(farm_store)
    assert found.times[0].left(found.now) == pytest.approx(expected() - 17.5)
    clock.tick(timedelta(days=1))
    found = standing_now(farm_store)
    assert found.times[0].left(found.now) == 0
    assert left_words(found.times[0], found.now, "America/New_York") == TIME_IS_UP


def test_before_it_begins_nothing_has_run_down(farm_store: Store, wren: Unit):
    found = standing_now(farm_store)
    assert found.incident is None
    assert found.times[0].left(found.now) == pytest.approx(expected())


def test_air_stops_the_clock_of_its_unit(farm_store: Store, wren: Unit):
    begin_incident(farm_store, NewIncident(began_at=NOON - timedelta(minutes=10)), by=ADA)
    tick_steps(farm_store, Tick(("air",), wren.id), by="Bo")
    found = standing_now(farm_store)
    assert found.times[0].left(found.now) is None
    assert left_words(found.times[0], found.now, "America/New_York") == "air since 12:00, Bo"


def test_oxygen_that_was_read_since_is_where_the_minutes_count_from(farm_store: Store, wren: Unit):
    read(farm_store, wren, on(10, 14), minute=11 * 60 + 30, oxygen="9.5")
    begin_incident(farm_store, NewIncident(began_at=NOON - timedelta(minutes=20)), by=ADA)
    assert time(farm_store).minutes == pytest.approx(expected())
    read(farm_store, wren, on(10, 14), minute=11 * 60 + 50, oxygen="6.0")
    after = time(farm_store)
    assert after.minutes == pytest.approx(expected(measured_mg_per_l=6.0))
    assert after.since == NOON - timedelta(minutes=10)


def test_oxygen_without_an_hour_says_nothing_of_now(farm_store: Store, wren: Unit):
    begin_incident(farm_store, NewIncident(began_at=NOON - timedelta(minutes=20)), by=ADA)
    read(farm_store, wren, on(10, 14), oxygen="9.5")
    assert time(farm_store).minutes == pytest.approx(expected())


def test_fish_that_were_taken_out_breathe_no_more_and_those_left_weigh_what_the_last_weighed(
    farm_store: Store, wren: Unit
):
    perch = stock(farm_store, wren, "PERCH-25", on(4, 1), 30)
    weigh(farm_store, perch, "1 lb", on(9, 1), Use.SOLD, number=10)
    basis = time(farm_store).basis
    assert basis is not None
    assert (basis.number, basis.mean_g) == (70, 20.0)
    assert basis.biomass_kg == pytest.approx(50 * 0.020 + 20 * 0.045359)


def test_the_most_demanding_fish_sets_the_limit(farm_store: Store, wren: Unit):
    stock(farm_store, wren, "T-1", on(10, 1), 10, species="rainbow trout")
    assert time(farm_store).minutes == pytest.approx(expected(biomass_kg=1.2, limit_mg_per_l=6.0))


@pytest.mark.parametrize(
    ("day", "words"),
    [(on(10, 10), ("the temperature is of 2026-10-10: in warmer water there is less time",)), (on(10, 12), ())],
)
def test_an_older_temperature_is_told(farm_store: Store, wren: Unit, day: Any, words: tuple[str, ...]):
    rook = a_unit(farm_store, "ROOK", tank=volume("250 gal"))
    stock(farm_store, rook, "P-2", on(10, 1))
    read(farm_store, rook, day, temperature="20 C")
    assert time(farm_store, "ROOK").remarks == words


def test_fish_weighed_long_ago_are_told_to_be_heavier(farm_store: Store):
    rook = a_unit(farm_store, "ROOK", tank=volume("250 gal"))
    stock(farm_store, rook, "P-2", on(9, 1))
    read(farm_store, rook, on(10, 14), temperature="20 C")
    assert time(farm_store, "ROOK").remarks == ("weighed on 2026-09-01: grown since, there is less time",)


@pytest.mark.parametrize(
    ("tank", "temperature", "day", "missing"),
    [
        (None, "20 C", on(10, 14), ["how much water the tank holds is not known"]),
        ("250 gal", None, None, ["no water temperature was read"]),
        (None, None, None, ["how much water", "no water temperature"]),
        ("250 gal", "20 C", on(9, 13), ["the last water temperature is of 2026-09-13"]),
        ("250 gal", "37.5 C", on(10, 14), ["temperature 37.5 C is outside 0 to 36 C"]),
    ],
)
def test_what_is_missing_is_said_and_no_number_made_up(
    farm_store: Store, wren: Unit, tank: str | None, temperature: str | None, day: Any, missing: list[str]
):
    rook = a_unit(farm_store, "ROOK", tank=volume(tank) if tank else None)
    stock(farm_store, rook, "P-2", on(10, 1))
    if temperature:
        read(farm_store, rook, day, temperature=temperature)
    found = time(farm_store, "ROOK")
    assert found.minutes is None
    assert found.left(NOON) is None
    assert len(found.missing) == len(missing)
    for words, part in zip(found.missing, missing, strict=True):
        assert words.startswith(part)
    assert left_words(found, NOON, "UTC").startswith(f"cannot be said: {missing[0]}")


def test_those_that_cannot_be_said_come_first_then_the_least_time_then_those_with_air(farm_store: Store, wren: Unit):
    for code, tank, number in (("ROOK", "250 gal", 90), ("TEAL", None, 9), ("LARK", "250 gal", 200)):
        unit = a_unit(farm_store, code, tank=volume(tank) if tank else None)
        stock(farm_store, unit, f"{code}-1", on(10, 1), number)
        read(farm_store, unit, on(10, 14), temperature="20 C")
    begin_incident(farm_store, NewIncident(), by=ADA)
    lark = next(one.unit for one in standing_now(farm_store).times if one.unit.code == "LARK")
    assert [one.unit.code for one in standing_now(farm_store).times] == ["TEAL", "LARK", "ROOK", "WREN"]
    tick_steps(farm_store, Tick(("air",), lark.id), by=ADA)
    assert [one.unit.code for one in standing_now(farm_store).times] == ["TEAL", "ROOK", "WREN", "LARK"]


def steps(found: Standing, phase: Phase) -> list[tuple[str, str | None]]:
    return [(one.step.key, one.unit.code if one.unit else None) for one in found.of(phase)]


def test_every_unit_that_holds_water_is_seen_running_again(farm_store: Store, wren: Unit):
    a_unit(farm_store, "TEAL", kind=UnitKind.HYDROPONIC)
    a_unit(farm_store, "LARK", state=UnitState.BUILDING)
    found = standing_now(farm_store)
    assert steps(found, Phase.DURING)[:2] == [("air", "WREN"), ("feed-off", None)]
    after = ["ground-fault", "pump", "bubbles", "siphon", "heater"]
    teal = ["ground-fault", "pump", "siphon"]
    assert steps(found, Phase.AFTER) == [*((step, "WREN") for step in after), *((step, "TEAL") for step in teal)]
    assert not found.all_running


def test_what_is_over_shows_what_was_done(farm_store: Store, wren: Unit, clock: Any):
    cut = begin_incident(farm_store, NewIncident(), by=ADA)
    tick_steps(farm_store, Tick(("air",), wren.id), by="Bo")
    clock.tick(timedelta(minutes=95))
    end_incident(farm_store, Ending(all_running=True), by=ADA)
    found = standing_of(farm_store, cut.id)
    assert (found.over, found.times, found.all_running) == (True, (), True)
    assert steps(found, Phase.DURING) == [("air", "WREN")]
    assert since_words(found) == "Power cut from 12:00 to 13:35, 95 min"
    assert standing_now(farm_store).incident is None
    with pytest.raises(NotFound, match="There is no incident 7"):
        standing_of(farm_store, 7)


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0.0, "0 min"),
        (0.9, "0 min"),
        (43.99, "43 min"),
        (119.9, "119 min"),
        (120, "2 h 00 min"),
        (200, "3 h 20 min"),
        (1500, "25 h"),
    ],
)
def test_minutes_are_rounded_down(minutes: float, words: str):
    assert minutes_words(minutes) == words


def test_what_it_rests_on_is_told_in_the_measures_of_the_farm(farm_store: Store, wren: Unit):
    basis = time(farm_store).basis
    assert basis is not None
    assert basis_words(basis, US) == "50 fish of 0.71 oz, 250 gal at 68.0 °F; oxygen not below 4 mg/L"
