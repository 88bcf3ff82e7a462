"""Instruments on the farm: what is read with which, and what a failed check makes doubtful."""

from __future__ import annotations

from dataclasses import replace

import pytest

from farmops.farm.instruments import add_instrument, change_instrument, check_instrument
from farmops.farm.readings import change_reading, record_readings
from farmops.farm.removal import remove_record
from farmops.model.errors import FarmopsError, NotFound, OutOfRange, Refused
from farmops.model.instruments import Instrument, InstrumentChange, NewCheck, NewInstrument
from farmops.model.journal import Removal
from farmops.model.readings import Doubt, Form, Measure, NewReadings, Reading, ReadingChange
from farmops.model.units import Unit
from farmops.records.store import Store
from farmops.reports.water import series_of
from tests.farm.test_rules import refuses
from tests.farmhand import ADA, a_unit, on, read, reading, take_back
from tests.land import Land

PH = Measure.PH


@pytest.fixture
def unit(farm_store: Store) -> Unit:
    return a_unit(farm_store)


def pen(store: Store, **more: object) -> Instrument:
    entry = NewInstrument("pH pen", (PH,), on(1, 1))
    return add_instrument(store, replace(entry, **more), by=ADA)  # type: ignore[arg-type]


def doubts(store: Store) -> list[Doubt | None]:
    return [one.reading.doubt for one in series_of(store, on(1, 1), on(12, 31))]


def ph(store: Store, unit: Unit, month: int, day: int) -> Reading:
    (found,) = read(store, unit, on(month, day), ph="7.0")
    return found


def test_what_a_measure_was_read_with_last_is_what_it_is_read_with(farm_store: Store, unit: Unit) -> None:
    assert ph(farm_store, unit, 1, 2).instrument is None
    first = pen(farm_store)
    assert ph(farm_store, unit, 1, 3).instrument == "pH pen"
    second = pen(farm_store, name="Strips", reads=(PH, Measure.NITRITE))
    said = NewReadings(unit.id, on(1, 4), (reading(PH, "7", instrument_id=second.id),))
    (with_strips,) = record_readings(farm_store, said, by=ADA).readings
    assert (with_strips.instrument, ph(farm_store, unit, 1, 5).instrument) == ("Strips", "Strips")
    change_instrument(farm_store, InstrumentChange(second.id, until_day=on(1, 6)), by=ADA)
    assert ph(farm_store, unit, 1, 7).instrument_id == first.id


def test_of_two_that_were_never_read_with_none_is_taken(farm_store: Store, unit: Unit) -> None:
    pen(farm_store)
    pen(farm_store, name="Strips")
    assert ph(farm_store, unit, 1, 5).instrument is None


def test_a_kit_says_in_which_form_it_reports(farm_store: Store, unit: Unit) -> None:
    pen(farm_store, name="Drops", reads=(Measure.NITRITE,), form=Form.AS_ION)
    (ion,) = read(farm_store, unit, on(1, 2), nitrite="1")
    (said,) = read(farm_store, unit, on(1, 2), nitrite="1 N")
    assert (ion.form, said.form) == (Form.AS_ION, Form.AS_N)


def test_a_failed_check_reaches_back_to_the_last_good_one(farm_store: Store, unit: Unit) -> None:
    held = pen(farm_store)
    for day in (1, 5, 10, 12, 20, 25):
        ph(farm_store, unit, 3, day)
    check_instrument(farm_store, NewCheck(held.id, on(3, 5), True), by=ADA)
    assert doubts(farm_store) == [None] * 6
    done = check_instrument(farm_store, NewCheck(held.id, on(3, 20), False, "7.00", "7.4"), by=ADA)
    assert done.doubtful == 4
    assert doubts(farm_store) == [None, None, *[Doubt.FAILED] * 4]
    check_instrument(farm_store, NewCheck(held.id, on(3, 24), True), by=ADA)
    assert doubts(farm_store) == [None, None, *[Doubt.FAILED] * 3, None]
    take_back(farm_store)
    take_back(farm_store)
    assert doubts(farm_store) == [None] * 6


def test_a_reading_after_the_printed_date_is_doubtful_and_says_why(farm_store: Store, unit: Unit) -> None:
    pen(farm_store, expires_day=on(3, 1))
    assert [ph(farm_store, unit, 3, day).doubtful for day in (1, 2)] == ["", "doubtful: pH pen was past its date"]


REFUSED: list[tuple[type[FarmopsError], str, object]] = [
    (Refused, "there is an instrument pH pen already", lambda _: NewInstrument("PH PEN", (PH,), on(1, 1))),
    (Refused, "say what Blank reads", lambda _: NewInstrument("Blank", (), on(1, 1))),
    (Refused, "reported as N or as ion", lambda _: NewInstrument("Odd", (PH,), on(1, 1), Form.AS_N)),
    (
        Refused,
        "past its date, 2025-12-31, before",
        lambda _: NewInstrument("Old", (PH,), on(1, 1), None, on(1, 1).replace(year=2025, month=12, day=31)),
    ),
    (Refused, "every 1 to 3650 days", lambda _: NewInstrument("Slow", (PH,), on(1, 1), check_days=0)),
    (OutOfRange, "not a day to book on", lambda _: NewInstrument("Late", (PH,), on(12, 31).replace(year=2028))),
]


@pytest.mark.parametrize(("error", "words", "entry"), REFUSED, ids=[words for _, words, _ in REFUSED])
def test_an_instrument_that_makes_no_sense_is_refused(
    land: Land, error: type[FarmopsError], words: str, entry: object
) -> None:
    refuses(land, error, words, add_instrument, entry(land))  # type: ignore[operator]


def test_what_an_instrument_cannot_have_read_is_refused(land: Land) -> None:
    wrong = NewReadings(land.wren.id, on(8, 3), (reading(Measure.OXYGEN, "6", instrument_id=land.pen.id),))
    refuses(land, Refused, "pH pen does not read oxygen. Name another, or - for none.", record_readings, wrong)
    early = NewReadings(land.wren.id, on(6, 3), (reading(PH, "7", instrument_id=land.pen.id),))
    refuses(land, Refused, "pH pen was not in service on 2026-06-03", record_readings, early)
    refuses(land, NotFound, "no instrument 99", change_reading, ReadingChange(land.oxygen.id, instrument_id=99))


def test_an_instrument_covers_what_was_read_with_it(land: Land) -> None:
    words = "3 readings were taken with pH pen before or after these days"
    refuses(land, Refused, words, change_instrument, InstrumentChange(land.pen.id, from_day=on(9, 20)))
    refuses(
        land,
        Refused,
        "came into service on 2026-07-01, after",
        change_instrument,
        InstrumentChange(land.pen.id, until_day=on(6, 1)),
    )
    refuses(land, Refused, "records belong to it (reading)", remove_record, Removal("instruments", land.pen.id))
