"""Which day is meant and which day it is."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops import clock
from farmops.model.errors import NotUnderstood
from farmops.model.farm import Farm
from farmops.quantities import US
from tests.frozen import frozen

TODAY = date(2026, 10, 14)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("today", TODAY),
        (" Today ", TODAY),
        ("yesterday", date(2026, 10, 13)),
        ("tomorrow", date(2026, 10, 15)),
        ("-1", date(2026, 10, 13)),
        ("+2", date(2026, 10, 16)),
        ("+0", TODAY),
        ("-365", date(2025, 10, 14)),
        ("wed", TODAY),
        ("tue", date(2026, 10, 13)),
        ("thu", date(2026, 10, 8)),
        ("Thurs", date(2026, 10, 8)),
        ("sunday", date(2026, 10, 11)),
        ("3 may", date(2026, 5, 3)),
        ("3 MAY", date(2026, 5, 3)),
        ("May 3", date(2026, 5, 3)),
        ("3 may 2025", date(2025, 5, 3)),
        ("may 3, 2025", date(2025, 5, 3)),
        ("14 sept", date(2026, 9, 14)),
        ("1 november", date(2026, 11, 1)),
        ("1 march", date(2026, 3, 1)),
        ("20 mar", date(2026, 3, 20)),
        ("14 nov", date(2026, 11, 14)),
        ("15 nov", date(2025, 11, 15)),
        ("29 feb 2028", date(2028, 2, 29)),
        ("2026-05-03", date(2026, 5, 3)),
        ("1900-01-01", date(1900, 1, 1)),
    ],
)
def test_a_day_as_people_type_it(typed: str, expected: date):
    assert clock.parse_day(typed, TODAY) == expected


@pytest.mark.parametrize(
    ("typed", "today", "expected"),
    [
        ("28 dec", date(2027, 1, 3), date(2026, 12, 28)),
        ("3 jan", date(2026, 12, 28), date(2027, 1, 3)),
        ("29 feb", date(2027, 9, 1), date(2024, 2, 29)),
        ("29 feb", date(2028, 2, 1), date(2028, 2, 29)),
        ("29 feb", date(2030, 3, 1), date(2028, 2, 29)),
        ("mon", date(2026, 1, 1), date(2025, 12, 29)),
        ("yesterday", date(2026, 1, 1), date(2025, 12, 31)),
    ],
)
def test_a_day_without_a_year_has_happened_or_is_near(typed: str, today: date, expected: date):
    assert clock.parse_day(typed, today) == expected


@pytest.mark.parametrize(
    "typed",
    [
        *("", " ", "soon", "3", "32 may", "31 june", "30 feb", "29 feb 2027", "0 may", "3 may 26", "3 marzipan"),
        *("monkey", "sunburn", "mo", "3 ma", "2026-13-01", "2026-02-30", "2026-5-3", "20260503", "03/05/2026", "5/3"),
        *("+99999", "--1", "1", "3 may may", "may", "may 2026", "٣ may", "today\x1b[2J", "3rd may", "0000-01-01"),
    ],
)
def test_what_is_no_day_is_refused_with_what_would_be(typed: str):
    with pytest.raises(NotUnderstood) as told:
        clock.parse_day(typed, TODAY)
    assert str(told.value).endswith(clock.DAYS_UNDERSTOOD)
    assert "\x1b" not in str(told.value)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("1 mar", date(2027, 3, 1)),
        ("14 oct", TODAY),
        ("13 oct", date(2027, 10, 13)),
        ("29 feb", date(2028, 2, 29)),
        ("wed", date(2026, 10, 21)),
        ("thu", date(2026, 10, 15)),
        ("+2", date(2026, 10, 16)),
        ("2026-03-01", date(2026, 3, 1)),
    ],
)
def test_what_is_put_off_lies_ahead(typed: str, expected: date):
    assert clock.parse_day(typed, TODAY, ahead=True) == expected


@pytest.mark.parametrize(("typed", "today"), [("+1", date.max), ("tomorrow", date.max), ("-9999", date.min)])
def test_a_day_beyond_the_calendar_is_refused(typed: str, today: date):
    with pytest.raises(NotUnderstood):
        clock.parse_day(typed, today)


@given(day=st.dates(date(1900, 1, 1), date(2200, 12, 31)), today=st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_written_out_every_day_is_understood(day: date, today: date):
    for form in ("{0:%Y-%m-%d}", "{0.day} {0:%b} {0:%Y}", "{0:%B} {0.day}, {0:%Y}"):
        assert clock.parse_day(form.format(day), today) == day
    assert clock.parse_day(f"{day:%A}", today).weekday() == day.weekday()
    assert today - timedelta(days=7) < clock.parse_day(f"{day:%a}", today) <= today


@given(text=st.text(max_size=12))
def test_any_other_text_is_refused_and_never_breaks(text: str):
    with suppress(NotUnderstood):
        assert isinstance(clock.parse_day(text, TODAY), date)


@pytest.mark.parametrize(
    ("zone", "at", "day"),
    [
        ("America/New_York", "2026-03-08 04:59", date(2026, 3, 7)),
        ("America/New_York", "2026-03-08 05:00", date(2026, 3, 8)),
        ("America/New_York", "2026-03-09 03:59", date(2026, 3, 8)),
        ("America/New_York", "2026-11-02 04:59", date(2026, 11, 1)),
        ("Pacific/Auckland", "2026-09-26 12:00", date(2026, 9, 27)),
        ("Pacific/Auckland", "2026-09-27 10:59", date(2026, 9, 27)),
        ("Pacific/Auckland", "2026-09-27 11:00", date(2026, 9, 28)),
        ("Pacific/Kiritimati", "2026-10-14 10:00", date(2026, 10, 15)),
        ("Pacific/Pago_Pago", "2026-10-14 10:59", date(2026, 10, 13)),
    ],
)
def test_today_is_the_day_of_the_zone_also_when_clocks_change(zone: str, at: str, day: date):
    with frozen(at[:10], at=at[11:]):
        assert clock.today(zone) == day


def test_now_is_in_utc():
    with frozen("2026-10-14", at="16:00"):
        assert clock.now() == datetime(2026, 10, 14, 16, tzinfo=UTC)
        assert clock.now().tzinfo is UTC


@pytest.mark.parametrize("name", ["Mars", "", "../etc/passwd", "/etc/passwd", "America", "a\x00b", "x" * 300])
def test_what_is_no_time_zone_is_refused(name: str):
    with pytest.raises(NotUnderstood, match="names of the IANA database"):
        clock.time_zone(name)


@pytest.mark.parametrize(
    ("text", "minute"), [("7:30", 450), ("07:30", 450), (" 19.05 ", 1145), ("1930", 1170), ("0:00", 0), ("23:59", 1439)]
)
def test_a_time_of_day_is_minutes_from_midnight(text: str, minute: int) -> None:
    assert clock.parse_minute(text) == minute
    assert clock.parse_minute(clock.show_minute(minute)) == minute


@pytest.mark.parametrize("text", ["", "24:00", "7", "7:60", "noon", "-7:30", "٧:30"])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    with pytest.raises(NotUnderstood, match="is no time of day"):
        clock.parse_minute(text)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("2026-02", date(2026, 2, 1)),
        ("oct", date(2026, 10, 1)),
        (" Sept  2025 ", date(2025, 9, 1)),
        ("december", date(2026, 12, 1)),
    ],
)
def test_a_month_as_people_type_it(typed: str, expected: date) -> None:
    assert clock.parse_month(typed, TODAY) == expected


@pytest.mark.parametrize(
    "typed", ["", "2026-13", "2026-00", "0000-01", "oc", "octopus", "2026", "oct 26", "2026-1", "\u0663"]
)
def test_what_is_no_month_is_said_to_be_none(typed: str) -> None:
    with pytest.raises(NotUnderstood, match="is no month"):
        clock.parse_month(typed, TODAY)


NEW_YORK = "America/New_York"


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.mark.parametrize(
    ("day", "minute", "expected"),
    [
        (TODAY, 12 * 60, "2026-10-14 16:00"),
        (date(2026, 1, 14), 12 * 60, "2026-01-14 17:00"),
        (date(2026, 11, 1), 60, "2026-11-01 05:00"),
        (date(2026, 11, 1), 180, "2026-11-01 08:00"),
        (date(2026, 3, 8), 150, "2026-03-08 07:30"),
    ],
)
def test_a_minute_of_a_day_is_an_instant_also_when_clocks_change(day: date, minute: int, expected: str) -> None:
    assert clock.instant_of(day, minute, NEW_YORK) == utc(expected)


@pytest.mark.parametrize(
    ("typed", "now", "expected"),
    [
        ("12:00", "2026-10-14 16:00", "2026-10-14 16:00"),
        ("12:01", "2026-10-14 16:00", "2026-10-13 16:01"),
        ("23:50", "2026-10-15 04:10", "2026-10-15 03:50"),
        ("0:05", "2026-11-02 04:30", "2026-11-01 04:05"),
    ],
)
def test_an_hour_that_was_is_the_last_one(typed: str, now: str, expected: str) -> None:
    assert clock.last_time(typed, utc(now), NEW_YORK) == utc(expected)


@pytest.mark.parametrize(
    ("typed", "begin", "expected"),
    [
        ("12:00", "2026-10-14 16:00", "2026-10-14 16:00"),
        ("11:59", "2026-10-14 16:00", "2026-10-15 15:59"),
        ("0:05", "2026-11-01 04:10", "2026-11-02 05:05"),
        ("23:30", "2026-03-08 04:31", "2026-03-09 03:30"),
    ],
)
def test_an_hour_to_come_is_the_first_one_also_over_a_day_of_25_or_23_hours(
    typed: str, begin: str, expected: str
) -> None:
    assert clock.next_time(typed, utc(begin), NEW_YORK) == utc(expected)


def test_the_same_day_is_that_of_the_zone() -> None:
    assert clock.same_day("6:10", utc("2026-10-15 02:00"), NEW_YORK) == utc("2026-10-14 10:10")
    assert clock.hour_of(utc("2026-10-15 02:00"), NEW_YORK) == "22:00"


@pytest.mark.parametrize("read", [clock.last_time, clock.same_day, clock.next_time])
def test_an_hour_that_is_none_is_refused(read: Callable[[str, datetime, str], datetime]) -> None:
    with pytest.raises(NotUnderstood, match="is no time of day"):
        read("soon", utc("2026-10-14 16:00"), NEW_YORK)


def test_on_an_invented_farm_the_hour_runs_on_a_day_that_stands_still() -> None:
    stood = Farm("Quillet Bank", US, NEW_YORK, date(2025, 3, 1), stands_on=TODAY)
    with frozen("2027-01-20", "02:30"):
        assert stood.now() == utc("2026-10-15 01:30")
        assert replace(stood, stands_on=None).now() == utc("2027-01-20 02:30")
