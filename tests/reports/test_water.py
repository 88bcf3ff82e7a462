"""The water of the units: latest readings judged for those who live there, what is typed judged as it is typed."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from farmops.farm.fish import stock as stock_fish
from farmops.farm.own_limits import set_own_limit
from farmops.model.errors import NotUnderstood, OutOfRange, Unlikely
from farmops.model.fish import NewFishLot
from farmops.model.limits import Level, NewOwnLimit
from farmops.model.readings import FRESH_DAYS, Form, Measure
from farmops.model.units import Unit, UnitKind, UnitState
from farmops.records.store import Store
from farmops.reports.row import row_of
from farmops.reports.water import Judged, Taken, readings_of, series_of, taken, waters_of
from tests.farmhand import ADA, a_unit, mass, on, read, settle, stock
from tests.farmhand import reading as one_reading
from tests.land import Land

DAY = on(10, 14)
AMMONIA, PH, WARMTH = Measure.AMMONIA, Measure.PH, Measure.TEMPERATURE


@pytest.fixture
def perch(farm_store: Store) -> Unit:
    """A running unit in which perch live, of which no facts are packaged."""
    unit = a_unit(farm_store, "WREN")
    stock(farm_store, unit)
    return unit


def judged(store: Store, measure: Measure, on: date = DAY) -> Judged:
    return next(one.judged for one in waters_of(store, on).lines() if one.reading.measure is measure)


def typed(store: Store, unit: Unit, text: str, measure: Measure = AMMONIA, **beside: str) -> Taken:
    return taken(text, measure, waters_of(store, DAY), unit.id, {Measure(name): text for name, text in beside.items()})


def test_ammonia_is_judged_by_the_ph_and_the_temperature_of_its_days(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, on(10, 11), ph="8.4", temperature="72 F")
    read(farm_store, perch, on(10, 14), ammonia="0.5 N")
    found = judged(farm_store, AMMONIA)
    assert found.level is Level.HARMFUL
    assert found.says == "harmful for fish: 0.0636 mg/L toxic ammonia is above 0.05, the toxic part burns gills"
    assert found.first.startswith("First: no feed, air on full")
    assert "UF/IFAS FA-16" in found.source


def test_without_them_the_total_alone_is_judged_and_what_would_tell_more_is_named(
    farm_store: Store, perch: Unit
) -> None:
    read(farm_store, perch, on(10, 14 - FRESH_DAYS - 1), ph="8.4", temperature="72 F")
    read(farm_store, perch, on(10, 14), ammonia="0.5 N")
    assert judged(farm_store, AMMONIA) == Judged(Level.GOOD, "good so far; pH and temperature would tell more", "good")


def test_of_the_readings_beside_it_the_nearest_counts(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, on(10, 8), ph="8.4", temperature="72 F")
    read(farm_store, perch, on(10, 9), ammonia="0.5 N")
    read(farm_store, perch, on(10, 12), ph="6.8", temperature="72 F", ammonia="0.5 N")
    lines = series_of(farm_store, on(10, 1), DAY, perch.id, AMMONIA)
    assert [(line.reading.day, line.judged.level) for line in lines] == [
        (on(10, 9), Level.HARMFUL),
        (on(10, 12), Level.GOOD),
    ]


def test_the_water_of_another_unit_says_nothing_here(farm_store: Store, perch: Unit) -> None:
    read(farm_store, a_unit(farm_store, "FINCH"), on(10, 14), ph="8.4", temperature="72 F")
    read(farm_store, perch, on(10, 14), ammonia="0.5 N")
    assert judged(farm_store, AMMONIA).level is Level.GOOD


def test_the_stricter_limit_of_the_fish_that_live_there_counts(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, on(10, 14), oxygen="5.5")
    assert judged(farm_store, Measure.OXYGEN).level is Level.GOOD
    trout = NewFishLot("T-1", "Rainbow trout", perch.id, on(10, 1), 9, mass("40 g"), library_key="rainbow-trout")
    stock_fish(farm_store, trout, by=ADA)
    found = judged(farm_store, Measure.OXYGEN)
    assert found.level is Level.DANGEROUS
    assert found.says == "dangerous for rainbow trout: 5.5 mg/L is below 6 (from memory), less than they need"
    assert found.brief == "dangerous for rainbow trout: below 6 (from memory)"


def test_without_fish_only_filter_and_plants_have_a_say(farm_store: Store) -> None:
    unit = a_unit(farm_store, "WREN", state=UnitState.CYCLING)
    read(farm_store, unit, on(10, 14), ammonia="2.5 N", ph="7.8", temperature="50 F")
    assert judged(farm_store, AMMONIA).level is Level.GOOD
    assert judged(farm_store, PH).level is Level.GOOD
    assert judged(farm_store, WARMTH).says.startswith("watch for the filter: 50.0 °F is below 57.2 °F")


def test_a_hydroponic_unit_has_plants_only(farm_store: Store) -> None:
    unit = a_unit(farm_store, "TERN", kind=UnitKind.HYDROPONIC)
    read(farm_store, unit, on(10, 14), ph="7.8", alkalinity="20")
    assert judged(farm_store, PH).says.startswith("watch for plants: 7.8 is above 7.5")
    assert judged(farm_store, Measure.ALKALINITY) == Judged(None)


def test_of_equally_grave_limits_all_who_are_at_risk_are_named(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, on(10, 14), temperature="95 F", potassium="40")
    assert judged(farm_store, WARMTH).says.startswith("watch for the filter and plants: 95.0 °F is above 93.2 °F")
    assert not judged(farm_store, Measure.POTASSIUM).bad


def test_own_limits_count_from_their_day_where_they_are_the_stricter(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, DAY, ph="7.4")
    set_own_limit(farm_store, NewOwnLimit(DAY - timedelta(days=9), Measure.PH, 6.4, 7.2), by=ADA)
    (line,) = waters_of(farm_store, DAY).lines()
    assert line.judged.says == f"watch for your own limit: 7.4 is above 7.2, set on {DAY - timedelta(days=9)}"
    assert line.judged.source == f"your own limit of pH since {DAY - timedelta(days=9)}"
    read(farm_store, perch, DAY, ph="9")
    (worse,) = waters_of(farm_store, DAY).lines()
    assert worse.judged.says.startswith("harmful for fish: 9 is above 8.5")
    set_own_limit(farm_store, NewOwnLimit(DAY, Measure.PH, 6.4, 7.4, perch.id), by=ADA)
    read(farm_store, perch, DAY, ph="7.4")
    assert not waters_of(farm_store, DAY).lines()[0].judged.bad


def test_what_is_typed_is_judged_with_what_stands_beside_it(farm_store: Store, perch: Unit) -> None:
    assert typed(farm_store, perch, "0.5").judged.level is Level.GOOD
    assert typed(farm_store, perch, "0.5", pH="8.4", temperature="72").judged.level is Level.HARMFUL
    read(farm_store, perch, on(10, 13), ph="8.4", temperature="72 F")
    assert typed(farm_store, perch, "0.5").judged.level is Level.HARMFUL
    assert typed(farm_store, perch, "0.5", pH="6.6").judged.level is Level.GOOD
    assert typed(farm_store, perch, "0.5", pH="so").judged.level is Level.HARMFUL


def test_what_is_typed_is_in_the_form_of_the_last_kit_unless_it_says_another(farm_store: Store, perch: Unit) -> None:
    assert typed(farm_store, perch, "2", Measure.NITRITE).reading.form is Form.AS_N
    read(farm_store, perch, on(10, 13), nitrite="0.1 ion")
    ion = typed(farm_store, perch, " 2 ", Measure.NITRITE)
    assert (ion.reading.form, ion.reading.typed, ion.reading.value) == (Form.AS_ION, "2", 2.0)
    assert ion.value == pytest.approx(0.609, abs=0.001)
    assert typed(farm_store, perch, "2 N", Measure.NITRITE).reading.form is Form.AS_N


def test_what_cannot_be_or_hardly_can_is_said_while_it_is_typed(farm_store: Store, perch: Unit) -> None:
    with pytest.raises(NotUnderstood):
        typed(farm_store, perch, "x")
    with pytest.raises(OutOfRange):
        typed(farm_store, perch, "19", PH)
    with pytest.raises(Unlikely, match=r"pH 10\.5, is that right"):
        typed(farm_store, perch, "10.5", PH)
    assert taken("10.5", PH, waters_of(farm_store, DAY), perch.id, {}, sure=True).reading.sure


def test_the_latest_of_each_measure_stand_in_walking_order(laid: Land) -> None:
    lines = waters_of(laid.store, DAY).lines()
    assert [(one.reading.unit, one.reading.measure.value, one.reading.typed) for one in lines] == [
        ("WREN", "pH", "7.9"),
        ("WREN", "temperature", "70"),
        ("WREN", "ammonia", "0.25"),
        ("WREN", "nitrite", "0.25"),
        ("WREN", "oxygen", "6.8"),
        ("WREN", "fill time", "12.5"),
        ("FINCH", "pH", "7.3"),
        ("FINCH", "nitrite", "0.1 N"),
        ("FINCH", "nitrate", "40 NO3"),
    ]
    assert waters_of(laid.store, DAY).lines("FINCH") == lines[-3:]
    assert waters_of(laid.store, on(4, 1)).lines() == []


def test_the_whole_past_is_a_series(laid: Land) -> None:
    found = [line.reading for line in series_of(laid.store, date.min, date.max)]
    assert [one.day for one in found] == sorted(one.day for one in found)
    assert len(found) == 19


def test_within_a_day_the_hour_orders_and_one_without_follows_those_booked_before(
    farm_store: Store, perch: Unit
) -> None:
    read(farm_store, perch, DAY, ph="7.1", minute=900)
    read(farm_store, perch, DAY, ph="7.2")
    read(farm_store, perch, DAY, ph="7.0", minute=60)
    assert [one.reading.typed for one in series_of(farm_store, DAY, DAY)] == ["7.0", "7.1", "7.2"]
    read(farm_store, perch, DAY, ph="7.3", minute=901)
    assert [one.reading.typed for one in waters_of(farm_store, DAY).lines()] == ["7.3"]


def test_what_was_read_with_a_doing_is_found_with_it(land: Land) -> None:
    done = settle(land.store, land.siphon_time, on(10, 9), readings=(one_reading(Measure.DRAIN_TIME, "2.5"),))
    assert [one.typed for one in readings_of(land.store, [done.id])] == ["2.5"]


def test_the_row_shows_the_warmth_of_the_water_while_it_is_fresh(farm_store: Store, perch: Unit) -> None:
    read(farm_store, perch, on(10, 1), temperature="59 F")
    read(farm_store, perch, on(10, 2), ph="7")
    fresh = row_of(farm_store, on(10, 1 + FRESH_DAYS)).cards
    assert [card.water_c for card in fresh] == [None, pytest.approx(15.0)]
    assert [card.water_c for card in row_of(farm_store, on(10, 2 + FRESH_DAYS)).cards] == [None, None]
