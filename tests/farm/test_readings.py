"""Readings on the farm: kept as N, in the form the kits report, asked once about, one with the doing they belong to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from farmops.farm.chores import SettlingMany, settle_many
from farmops.farm.readings import change_reading, record_readings
from farmops.farm.removal import remove_record
from farmops.farm.sheets import RefusedLine, Sheet, SheetLine, SheetRefused, book_sheet
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import NotFound, OutOfRange, Refused, Unlikely
from farmops.model.journal import Removal
from farmops.model.readings import Form, Measure, NewReadings, ReadingChange
from farmops.records.store import Store
from farmops.reports import lists
from tests.farm.test_rules import refuses
from tests.farmhand import ADA, a_chore, a_unit, everything_stored, on, read, reading, settle, take_back
from tests.land import Land

PH, NITRITE, FILL = Measure.PH, Measure.NITRITE, Measure.FILL_TIME


def rows(store: Store, table: str = "reading") -> list[dict[str, object]]:
    return everything_stored(store)[table]


def test_a_nitrogen_compound_is_kept_as_nitrogen_beside_what_was_typed(farm_store: Store) -> None:
    unit = a_unit(farm_store)
    ion, nitrogen, ph = read(farm_store, unit, on(9, 1), nitrite="1 ion", nitrate="1 N", ph="7.0")
    assert ion.value == pytest.approx(0.30446, abs=1e-4)
    assert (ion.form, ion.typed, nitrogen.value, nitrogen.form) == (Form.AS_ION, "1 ion", 1.0, Form.AS_N)
    assert (ph.value, ph.form) == (7.0, None)


def test_a_kit_reports_next_time_what_it_reported_last(farm_store: Store) -> None:
    unit, other = a_unit(farm_store), a_unit(farm_store, "FINCH")
    (first,) = read(farm_store, unit, on(9, 1), nitrite="1")
    (said,) = read(farm_store, unit, on(9, 2), nitrite="1 NO2")
    (again,) = read(farm_store, other, on(9, 3), nitrite="1")
    (nitrate,) = read(farm_store, other, on(9, 3), nitrate="1")
    assert [one.form for one in (first, said, again)] == [Form.AS_N, Form.AS_ION, Form.AS_ION]
    assert again.value == said.value == pytest.approx(0.30446, abs=1e-4)
    assert nitrate.form is Form.AS_N


def test_a_limit_is_counted_at_its_number(farm_store: Store) -> None:
    (found,) = read(farm_store, a_unit(farm_store), on(9, 1), ammonia="<0.25")
    assert (found.value, found.typed, found.bound) == (0.25, "<0.25", "<")


def test_an_unlikely_reading_is_asked_about_once_and_booked_when_it_is_said_again(land: Land) -> None:
    odd = NewReadings(land.wren.id, on(9, 1), (reading(PH, "7"), reading(PH, "10.5")))
    refuses(land, Unlikely, "pH 10.5, is that right? Readings are 4.5 to 9.5 as a rule.", record_readings, odd)
    sure = replace(odd, readings=tuple(replace(one, sure=True) for one in odd.readings))
    assert [one.value for one in record_readings(land.store, sure, by=ADA).readings] == [7.0, 10.5]


def test_likely_is_asked_of_the_nitrogen_not_of_the_ion(land: Land) -> None:
    nitrate = NewReadings(land.wren.id, on(9, 1), (reading(Measure.NITRATE, "400 NO3"),))
    assert record_readings(land.store, nitrate, by=ADA).readings[0].value == pytest.approx(90.4, abs=0.1)
    as_n = replace(nitrate, readings=(reading(Measure.NITRATE, "400 N"),))
    refuses(land, Unlikely, "nitrate 400 mg/L as N", record_readings, as_n)


def test_what_cannot_be_is_refused_whatever_the_front_end_lets_through(land: Land) -> None:
    sure = replace(reading(PH, "7"), value=19.0, sure=True)
    entry = NewReadings(land.wren.id, on(9, 1), (sure,))
    refuses(land, OutOfRange, "pH lies within 0 to 14", record_readings, entry)
    refuses(land, Refused, "no reading was given", record_readings, replace(entry, readings=()))
    refuses(land, NotFound, "no unit 99", record_readings, replace(entry, unit_id=99))
    refuses(
        land, OutOfRange, "not a day to book on", record_readings, replace(entry, day=on(10, 20).replace(year=2028))
    )
    late = replace(entry, readings=(reading(PH, "7"),), minute=1440)
    refuses(land, Refused, "between 00:00 and 23:59", record_readings, late)


def test_a_correction_keeps_the_measure_and_the_form(land: Land) -> None:
    (nitrite,) = read(land.store, land.wren, on(9, 5), nitrite="1 ion")
    read(land.store, land.wren, on(9, 6), nitrite="1 N")
    corrected = change_reading(land.store, ReadingChange(nitrite.id, read=reading(NITRITE, "2")), by=ADA)
    assert corrected.form is Form.AS_ION
    assert corrected.value == pytest.approx(2 * nitrite.value)
    other = ReadingChange(nitrite.id, read=reading(PH, "7"))
    refuses(land, Refused, "Not changed: this reads nitrite.", change_reading, other)


def test_readings_are_booked_with_the_doing_and_undone_with_it(land: Land) -> None:
    before = everything_stored(land.store)
    done = settle(land.store, land.siphon_time, on(10, 9), readings=(reading(FILL, "13:10"),), minutes=2)
    (found,) = [one for one in rows(land.store) if one["settlement_id"] == done.id]
    assert (found["unit_id"], found["day"], found["typed"]) == (land.wren.id, on(10, 9), "13:10")
    take_back(land.store)
    assert everything_stored(land.store) == before


def test_readings_of_a_beds_chore_are_those_of_its_unit(land: Land) -> None:
    settle(land.store, land.siphon, on(10, 9), readings=(reading(FILL, "9"),))
    assert rows(land.store)[-1]["unit_id"] == land.wren.id


def test_a_chore_is_done_although_a_reading_is_missing(land: Land) -> None:
    assert land.siphon_time.measures == (FILL,)
    settle(land.store, land.siphon_time, on(10, 9))
    assert lists.settled(land.store, land.siphon_time.id)[0].on_day == on(10, 9)


def test_the_farms_own_chores_have_nothing_to_read(land: Land) -> None:
    sweep = a_chore(land.store, "Look at the tank", "day", readings=("pH",))
    assert sweep.measures == ()
    entry = Settling(sweep.id, SettledAs.DONE, on(10, 9), readings=(reading(PH, "7"),))
    words = "Look at the tank belongs to the whole farm, a reading to one unit"
    refuses(land, Refused, words, settle_many, SettlingMany((entry,)))


def test_what_was_left_out_was_not_read(land: Land) -> None:
    entry = Settling(land.siphon_time.id, SettledAs.SKIPPED, on(10, 9), reason="away", readings=(reading(FILL, "13"),))
    refuses(land, Refused, "was not done, so nothing was read", settle_many, SettlingMany((entry,)))


def test_a_reading_outlives_the_doing_that_is_removed(land: Land) -> None:
    done = settle(land.store, land.siphon_time, on(10, 9), readings=(reading(FILL, "13"),))
    remove_record(land.store, Removal("settlements", done.id), by=ADA)
    assert (rows(land.store)[-1]["typed"], rows(land.store)[-1]["settlement_id"]) == ("13", None)


def sheet(land: Land, *, all_or_nothing: bool = False) -> Sheet:
    """Two lines that can be booked, and three that cannot."""
    lines = (
        Settling(land.sweep.id, SettledAs.DONE, on(10, 10)),
        Settling(land.permit.id, SettledAs.SKIPPED, on(10, 10)),
        Settling(land.siphon_time.id, SettledAs.DONE, on(10, 10), readings=(reading(FILL, "13"), reading(PH, "10.5"))),
        Settling(77_777, SettledAs.DONE, on(10, 10)),
        Settling(land.filter_pad.id, SettledAs.DONE, on(10, 10), minutes=9),
    )
    return Sheet(tuple(SheetLine(at, one) for at, one in enumerate(lines, start=1)), all_or_nothing)


def test_the_good_lines_of_a_sheet_are_booked_and_the_others_leave_no_trace(land: Land) -> None:
    before = everything_stored(land.store)
    done = book_sheet(land.store, sheet(land), by=ADA)
    assert [(one.number, one.settled.chore_id) for one in done.booked] == [(1, land.sweep.id), (5, land.filter_pad.id)]
    assert [(one.number, one.chore_id) for one in done.refused] == [
        (2, land.permit.id),
        (3, land.siphon_time.id),
        (4, 77_777),
    ]
    assert "say why Renew the permit is left out" in done.refused[0].reason
    assert "pH 10.5, is that right?" in done.refused[1].reason
    assert len(rows(land.store, "settlement")) == len(before["settlement"]) + 2
    assert rows(land.store) == before["reading"]
    take_back(land.store)
    assert everything_stored(land.store) == before


def test_all_or_nothing_names_every_line_that_stands_in_the_way(land: Land) -> None:
    words = "line 2: Not skipped: say why Renew the permit is left out this time.\nline 3: Not booked yet: pH 10.5"
    refuses(land, SheetRefused, words, book_sheet, sheet(land, all_or_nothing=True))
    with pytest.raises(SheetRefused) as told:
        book_sheet(land.store, sheet(land, all_or_nothing=True), by=ADA)
    assert [type(one) for one in told.value.refused] == [RefusedLine] * 3


def test_a_sheet_of_which_nothing_can_be_booked_is_refused(land: Land) -> None:
    lines = tuple(line for line in sheet(land).lines if line.number in (2, 4))
    refuses(land, SheetRefused, "There is no chore 77777", book_sheet, Sheet(lines))
