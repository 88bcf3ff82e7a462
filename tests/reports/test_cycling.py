"""A unit that cycles: ready for fish only when readings say so, long enough, with an instrument that can be trusted."""

from __future__ import annotations

import pytest

from farmops.farm.instruments import add_instrument, check_instrument
from farmops.model.errors import NotFound
from farmops.model.instruments import Instrument, NewCheck, NewInstrument
from farmops.model.readings import Measure
from farmops.model.units import Unit, UnitState
from farmops.records.store import Store
from farmops.reports.cycling import Cycling, cycling_of
from tests.farmhand import ADA, a_unit, enters, on, read

KIT = (Measure.AMMONIA, Measure.NITRITE, Measure.NITRATE)


@pytest.fixture
def unit(farm_store: Store) -> Unit:
    """A unit that cycles since September began."""
    return a_unit(farm_store, since=on(9, 1), state=UnitState.CYCLING)


@pytest.fixture
def kit(farm_store: Store) -> Instrument:
    """A kit that passed its check."""
    one = add_instrument(farm_store, NewInstrument("drop kit", KIT, on(8, 1)), by=ADA)
    check_instrument(farm_store, NewCheck(one.id, on(8, 1), passed=True), by=ADA)
    return one


def cycled(store: Store, unit: Unit) -> None:
    """It peaks and falls, and nitrate climbs."""
    for day, ammonia, nitrite, nitrate in ((2, "2", "0", "0"), (10, "1", "2", "5"), (19, "0.1", "1", "10")):
        read(store, unit, on(9, day), ammonia=ammonia, nitrite=nitrite, nitrate=nitrate)
    for day in (20, 23, 26):
        read(store, unit, on(9, day), ammonia="0.1", nitrite="<0.25")


def found(store: Store, unit: Unit, day: int = 26, **more: int) -> Cycling:
    one = cycling_of(store, unit.id, on(9, day), **more)
    assert one is not None
    return one


@pytest.mark.usefixtures("kit")
def test_near_nothing_for_the_days_asked_is_ready(farm_store: Store, unit: Unit) -> None:
    cycled(farm_store, unit)
    told = found(farm_store, unit)
    assert (told.day, told.ready, told.missing, told.stalls) == (26, True, (), ())
    assert [one.value for one in told.curve(Measure.NITRITE)] == [0.0, 2.0, 1.0, 0.25, 0.25, 0.25]


@pytest.mark.usefixtures("kit")
def test_a_day_short_is_not_ready_and_says_how_many_it_has(farm_store: Store, unit: Unit) -> None:
    cycled(farm_store, unit)
    assert found(farm_store, unit, days_asked=8).missing == ("nitrite near nothing for 7 of 8 days",)
    assert "nitrite near nothing for 4 of 7 days" in found(farm_store, unit, 23).missing
    assert "nitrite is 1 mg/L as N, wanted at most 0.25" in found(farm_store, unit, 19).missing


@pytest.mark.usefixtures("kit")
def test_a_gap_longer_than_a_reading_stands_begins_anew(farm_store: Store, unit: Unit) -> None:
    cycled(farm_store, unit)
    read(farm_store, unit, on(9, 30), ammonia="0", nitrite="0")
    assert "nitrite near nothing for 1 of 7 days" in found(farm_store, unit, 30).missing


@pytest.mark.usefixtures("kit")
def test_old_readings_are_to_be_taken_again(farm_store: Store, unit: Unit) -> None:
    cycled(farm_store, unit)
    assert "ammonia was last read on 2026-09-26; read it again" in found(farm_store, unit, 30).missing


def test_without_an_instrument_that_passed_its_check_nothing_counts(farm_store: Store, unit: Unit) -> None:
    read(farm_store, unit, on(9, 1), nitrate="0")
    cycled(farm_store, unit)
    assert "ammonia was read with no instrument named; say which: --with" in found(farm_store, unit).missing
    one = add_instrument(farm_store, NewInstrument("drop kit", KIT, on(8, 1)), by=ADA)
    for day in range(20, 27, 3):
        read(farm_store, unit, on(9, day), ammonia="0", nitrite="0")
    words = "drop kit has passed no check; hold it against something known"
    assert words in found(farm_store, unit).missing
    check_instrument(farm_store, NewCheck(one.id, on(9, 27), passed=False), by=ADA)
    assert "nitrite is doubtful: drop kit failed its check" in found(farm_store, unit, 27).missing


@pytest.mark.usefixtures("kit")
def test_nitrate_must_be_seen_to_climb(farm_store: Store, unit: Unit) -> None:
    for day in (1, 4, 7):
        read(farm_store, unit, on(9, day), ammonia="0", nitrite="0")
    assert found(farm_store, unit, 7).missing == ("nitrate was not read yet",)
    read(farm_store, unit, on(9, 2), nitrate="5")
    assert found(farm_store, unit, 7).missing == ("nitrate was read once, and must be seen to climb",)
    read(farm_store, unit, on(9, 7), nitrate="5")
    assert found(farm_store, unit, 7).missing == ("nitrate does not climb",)


def test_nothing_read_is_nothing_known(farm_store: Store, unit: Unit) -> None:
    told = found(farm_store, unit, 1)
    assert told.day == 1
    assert told.missing == ("ammonia was not read yet", "nitrite was not read yet", "nitrate was not read yet")


def test_a_stall_is_said_with_what_may_be_behind_it(farm_store: Store, unit: Unit) -> None:
    for day in (2, 5, 9, 10):
        read(farm_store, unit, on(9, day), ammonia="2", nitrite="0", temperature="50 F", ph="7.2")
    assert found(farm_store, unit, 8).stalls == ()
    (stall,) = found(farm_store, unit, 10).stalls
    assert stall.startswith("ammonia has hardly changed for 8 days, 2 mg/L as N; the water is cold, 50.0 °F")
    read(farm_store, unit, on(9, 12), ammonia="1.4")
    assert found(farm_store, unit, 12).stalls == ()


def test_a_unit_that_does_not_cycle_has_no_cycling(farm_store: Store, unit: Unit) -> None:
    assert cycling_of(farm_store, unit.id, on(8, 31)) is None
    enters(farm_store, unit, UnitState.RUNNING, on(9, 20))
    assert cycling_of(farm_store, unit.id, on(9, 20)) is None
    assert cycling_of(farm_store, unit.id, on(9, 19)) is not None
    with pytest.raises(NotFound):
        cycling_of(farm_store, 99)
