"""Which RFC 5545 texts are taken, how they are kept, and which are refused at once."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import Refused
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rfc import parse_rrule
from tests.schedule.strategies import WEEKDAYS, calendar_rules, untimed

MONDAY = date(2026, 1, 5)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("RRULE:FREQ=DAILY", "FREQ=DAILY"),
        ("rrule:freq=daily;interval=1", "FREQ=DAILY"),
        ("  FREQ=WEEKLY;WKST=MO;BYDAY=TH,MO  ", "FREQ=WEEKLY;BYDAY=MO,TH"),
        ("BYDAY=-1FR;FREQ=MONTHLY", "FREQ=MONTHLY;BYDAY=-1FR"),
        ("FREQ=MONTHLY;BYMONTHDAY=-1,15,+1,1", "FREQ=MONTHLY;BYMONTHDAY=1,15,-1"),
        ("FREQ=WEEKLY;INTERVAL=2;WKST=SU;COUNT=3", "FREQ=WEEKLY;INTERVAL=2;COUNT=3;WKST=SU"),
        ("FREQ=DAILY;UNTIL=20260301", "FREQ=DAILY;UNTIL=20260301"),
        ("FREQ=DAILY;UNTIL=20260301T120000", "FREQ=DAILY;UNTIL=20260301"),
    ],
)
def test_text_is_kept_in_one_canonical_form(typed, kept):
    assert parse_rrule(typed, MONDAY).rrule == kept


@pytest.mark.parametrize(
    ("zone", "day"),
    [("America/New_York", "20260228"), ("UTC", "20260301"), ("Asia/Tokyo", "20260301")],
)
def test_an_end_in_utc_becomes_a_day_in_the_farms_zone(zone, day):
    assert parse_rrule("FREQ=DAILY;UNTIL=20260301T030000Z", MONDAY, zone).rrule == f"FREQ=DAILY;UNTIL={day}"


def test_an_end_in_utc_is_read_with_the_summer_time_of_that_day():
    winter = parse_rrule("FREQ=DAILY;UNTIL=20260301T043000Z", MONDAY, "America/New_York")
    summer = parse_rrule("FREQ=DAILY;UNTIL=20260701T043000Z", MONDAY, "America/New_York")
    assert (winter.rrule[-8:], summer.rrule[-8:]) == ("20260228", "20260701")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("FREQ=HOURLY", "finer than a day"),
        ("FREQ=MINUTELY;INTERVAL=90", "finer than a day"),
        ("FREQ=SECONDLY", "finer than a day"),
        ("FREQ=DAILY;BYHOUR=9", "BYHOUR is finer than a day"),
        ("FREQ=DAILY;BYMINUTE=0", "BYMINUTE is finer than a day"),
        ("FREQ=DAILY;BYSECOND=0", "BYSECOND is finer than a day"),
        ("FREQ=YEARLY;BYEASTER=0", "not a part that RFC 5545 knows"),
        ("FREQ=DAILY;X-FARM=1", "not a part that RFC 5545 knows"),
        ("FREQ=DAILY;FREQ=WEEKLY", "stands twice"),
        ("FREQ=DAILY;COUNT=3;UNTIL=20260301", "do not go together"),
        ("FREQ=DAILY;COUNT=0", "COUNT is 1 or more"),
        ("FREQ=DAILY;INTERVAL=0", "INTERVAL is 1 or more"),
        ("FREQ=DAILY;INTERVAL=-1", "INTERVAL is 1 or more"),
        ("FREQ=DAILY;INTERVAL=two", "not a whole number"),
        ("FREQ=DAILY;INTERVAL=99999999999999999999", "not a whole number that a rule can use"),
        ("FREQ=DAILY;INTERVAL=15000", "longer than 40 years"),
        ("FREQ=WEEKLY;INTERVAL=2100", "longer than 40 years"),
        ("FREQ=MONTHLY;INTERVAL=481", "longer than 40 years"),
        ("FREQ=YEARLY;INTERVAL=41", "longer than 40 years"),
        ("FREQ=MONTHLY;BYMONTHDAY=32", "1 to 31"),
        ("FREQ=MONTHLY;BYMONTHDAY=0", "1 to 31"),
        ("FREQ=YEARLY;BYMONTH=13", "1 to 12"),
        ("FREQ=YEARLY;BYMONTH=-1", "1 to 12"),
        ("FREQ=YEARLY;BYYEARDAY=367", "1 to 366"),
        ("FREQ=YEARLY;BYWEEKNO=54", "1 to 53"),
        ("FREQ=MONTHLY;BYDAY=MO;BYSETPOS=367", "1 to 366"),
        ("FREQ=MONTHLY;BYDAY=0MO", "1 to 53"),
        ("FREQ=YEARLY;BYDAY=54MO", "1 to 53"),
        ("FREQ=MONTHLY;BYDAY=6MO", "No month has 6"),
        ("FREQ=YEARLY;BYMONTH=12;BYDAY=20MO", "No month has 20"),
        ("FREQ=MONTHLY;BYDAY=XX", "not a weekday"),
        ("FREQ=MONTHLY;BYDAY=MO,", "not a weekday"),
        ("FREQ=WEEKLY;WKST=1", "not a weekday"),
        ("FREQ=WEEKLY;BYDAY=1MO", "numbered weekday"),
        ("FREQ=DAILY;BYDAY=1MO", "numbered weekday"),
        ("FREQ=YEARLY;BYWEEKNO=20;BYDAY=1MO", "BYWEEKNO"),
        ("FREQ=MONTHLY;BYWEEKNO=20", "YEARLY only"),
        ("FREQ=DAILY;BYYEARDAY=20", "BYYEARDAY does not go"),
        ("FREQ=WEEKLY;BYYEARDAY=20", "BYYEARDAY does not go"),
        ("FREQ=MONTHLY;BYYEARDAY=20", "BYYEARDAY does not go"),
        ("FREQ=WEEKLY;BYMONTHDAY=20", "BYMONTHDAY does not go"),
        ("FREQ=MONTHLY;BYSETPOS=1", "BYSETPOS chooses"),
        ("FREQ=DAILY;UNTIL=2026-03-01", "write a day as 20261231"),
        ("FREQ=DAILY;UNTIL=20260230", "not a day of the calendar"),
        ("FREQ=DAILY;UNTIL=20260301T250000", "not a day of the calendar"),
        ("FREQ=DAILY;UNTIL=20260301T030000Z", "time zone, which is not known"),
        ("FREQ=DAILY;UNTIL=20260104", "before it starts"),
        ("FREQ=FORTNIGHTLY", "needs FREQ"),
        ("INTERVAL=2", "needs FREQ"),
        ("", "not a part of a recurrence rule"),
        ("every day", "not a part of a recurrence rule"),
        ("FREQ=DAILY;", "not a part of a recurrence rule"),
    ],
)
def test_what_the_standard_does_not_allow_is_refused_in_words(text, words):
    with pytest.raises(Refused, match=words):
        parse_rrule(text, MONDAY)


@pytest.mark.parametrize("zone", ["Nowhere/Land", "", "../etc/passwd"])
def test_an_unknown_zone_is_refused(zone):
    with pytest.raises(Refused, match="time zone"):
        parse_rrule("FREQ=DAILY;UNTIL=20260301T030000Z", MONDAY, zone)


@pytest.mark.parametrize(
    ("text", "start"),
    [
        ("FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30", MONDAY),
        ("FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30", MONDAY),
        ("FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=-30", MONDAY),
        ("FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30,31", MONDAY),
        ("FREQ=MONTHLY;BYMONTH=4,6,9,11;BYMONTHDAY=31", MONDAY),
        ("FREQ=YEARLY;BYMONTH=4,6,9,11;BYMONTHDAY=31", MONDAY),
        ("FREQ=MONTHLY;INTERVAL=12;BYMONTH=6", MONDAY),
        ("FREQ=MONTHLY;INTERVAL=6;BYMONTH=2,3,4", MONDAY),
        ("FREQ=DAILY;INTERVAL=7;BYDAY=TU", MONDAY),
        ("FREQ=DAILY;INTERVAL=14;BYDAY=SU", MONDAY),
        ("FREQ=WEEKLY;BYDAY=MO,TH;BYSETPOS=3", MONDAY),
        ("FREQ=MONTHLY;BYDAY=MO;BYSETPOS=-6", MONDAY),
        ("FREQ=DAILY;BYDAY=MO;BYSETPOS=2", MONDAY),
        ("FREQ=YEARLY;INTERVAL=4;BYMONTH=2;BYMONTHDAY=29", MONDAY),
        ("FREQ=YEARLY;INTERVAL=2;BYMONTH=2;BYMONTHDAY=29", date(2027, 1, 1)),
        ("FREQ=YEARLY;INTERVAL=8;BYYEARDAY=366", date(2026, 1, 1)),
        ("FREQ=YEARLY;BYMONTH=2", date(2026, 1, 30)),
        ("FREQ=YEARLY;BYYEARDAY=100;BYMONTH=6", MONDAY),
        ("FREQ=YEARLY;BYWEEKNO=1;BYMONTH=6;BYDAY=MO", MONDAY),
        ("FREQ=MONTHLY;BYMONTHDAY=1;BYDAY=2MO", MONDAY),
    ],
)
def test_a_rule_that_falls_on_no_day_is_refused_at_entry(text, start):
    with pytest.raises(Refused, match="does not fall on any day in the next 40 years"):
        parse_rrule(text, start)


@pytest.mark.parametrize(
    ("text", "start", "first"),
    [
        ("FREQ=DAILY;BYMONTH=2;BYMONTHDAY=29;BYDAY=FR", date(2009, 1, 1), date(2036, 2, 29)),
        ("FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29", date(2097, 1, 1), date(2104, 2, 29)),
        ("FREQ=YEARLY;INTERVAL=7;BYMONTH=2;BYMONTHDAY=29", date(2026, 1, 1), date(2040, 2, 29)),
        ("FREQ=YEARLY;BYYEARDAY=366", date(2025, 1, 1), date(2028, 12, 31)),
        ("FREQ=YEARLY;BYWEEKNO=53;BYDAY=MO", date(2021, 1, 1), date(2026, 12, 28)),
        ("FREQ=YEARLY;INTERVAL=40;BYMONTH=1;BYMONTHDAY=1", date(2026, 6, 1), date(2066, 1, 1)),
        ("FREQ=DAILY", date(9890, 1, 1), date(9890, 1, 1)),
        ("FREQ=DAILY", date(1900, 1, 1), date(1900, 1, 1)),
    ],
)
def test_a_rule_that_falls_rarely_is_taken(text, start, first):
    assert next(occurrences(parse_rrule(text, start))) == first


def test_a_rule_that_ends_before_its_first_day_is_refused():
    with pytest.raises(Refused, match="ends before the first day"):
        parse_rrule("FREQ=MONTHLY;BYMONTHDAY=31;UNTIL=20260130", MONDAY)


@pytest.mark.parametrize("start", [date(1899, 12, 31), date(9900, 1, 1), date.min, date.max])
def test_a_start_outside_the_years_a_calendar_can_carry_is_refused(start):
    with pytest.raises(Refused, match="cannot start"):
        parse_rrule("FREQ=WEEKLY;BYDAY=MO", start)


def test_a_start_that_the_rule_does_not_fall_on_is_no_occurrence():
    rule = parse_rrule("FREQ=WEEKLY;BYDAY=TH;COUNT=2", MONDAY)
    assert list(occurrences(rule)) == [date(2026, 1, 8), date(2026, 1, 15)]


@untimed
@given(calendar_rules())
def test_canonical_text_reads_back_as_the_same_rule(rule):
    assert parse_rrule(rule.rrule, rule.start) == rule


@untimed
@given(st.dates(date(2016, 1, 1), date(2030, 1, 1)), st.integers(1, 53), st.integers(0, 6))
def test_week_numbers_are_those_of_iso_8601(start, week, weekday):
    rule = parse_rrule(f"FREQ=YEARLY;BYWEEKNO={week};BYDAY={WEEKDAYS[weekday]}", start)
    span = (start + timedelta(days=ahead) for ahead in range(12 * 366))
    wanted = (day for day in span if day.isocalendar()[1:] == (week, weekday + 1))
    assert list(islice(occurrences(rule), 2)) == list(islice(wanted, 2))


def test_the_last_week_of_a_year_reaches_into_january_and_the_first_back_into_december():
    last = parse_rrule("FREQ=YEARLY;BYWEEKNO=-1;BYDAY=SA,SU", date(2021, 6, 1))
    assert list(islice(occurrences(last), 3)) == [date(2022, 1, 1), date(2022, 1, 2), date(2022, 12, 31)]
    first = parse_rrule("FREQ=YEARLY;BYWEEKNO=1;BYDAY=MO", date(2024, 6, 1))
    assert next(occurrences(first)) == date(2024, 12, 30)


def test_a_position_among_the_days_of_numbered_weeks():
    rule = parse_rrule("FREQ=YEARLY;BYWEEKNO=10,20;BYDAY=MO,FR;BYSETPOS=2,-1", date(2026, 1, 1))
    assert list(islice(occurrences(rule), 2)) == [date(2026, 3, 6), date(2026, 5, 15)]
