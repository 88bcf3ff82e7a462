"""Plain words for rules: what they mean, and that they are read back as written."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import replace
from datetime import date
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import NotUnderstood, OutOfRange, Refused
from farmops.model.usage import Counter
from farmops.quantities import METRIC, US
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import AfterDoing, ByUse, OnCalendar, Once, Wait, WhenHolds
from farmops.schedule.stored import rule_from, rule_text
from farmops.schedule.use_words import amount_words, read_amount
from farmops.schedule.words import SAID, UNDERSTOOD, in_words, parse_words
from tests.schedule.strategies import calendar_rules, rules_by_use, starts, untimed

WEDNESDAY = date(2026, 1, 14)

CALENDAR = [
    ("day", "FREQ=DAILY", "every day"),
    ("every day", "FREQ=DAILY", "every day"),
    ("daily", "FREQ=DAILY", "every day"),
    ("2 days", "FREQ=DAILY;INTERVAL=2", "every 2 days"),
    ("every other day", "FREQ=DAILY;INTERVAL=2", "every 2 days"),
    ("week", "FREQ=WEEKLY;BYDAY=WE", "every Wed"),
    ("2 weeks", "FREQ=WEEKLY;INTERVAL=2;BYDAY=WE", "every 2 weeks on Wed"),
    ("fortnight", "FREQ=WEEKLY;INTERVAL=2;BYDAY=WE", "every 2 weeks on Wed"),
    ("weekday", "FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR", "every weekday"),
    ("weekend", "FREQ=WEEKLY;BYDAY=SA,SU", "every Sat and Sun"),
    ("Mon Thu", "FREQ=WEEKLY;BYDAY=MO,TH", "every Mon and Thu"),
    ("Mon, Thu", "FREQ=WEEKLY;BYDAY=MO,TH", "every Mon and Thu"),
    ("every Thursday and Monday", "FREQ=WEEKLY;BYDAY=MO,TH", "every Mon and Thu"),
    ("Sundays", "FREQ=WEEKLY;BYDAY=SU", "every Sun"),
    ("week on Fri", "FREQ=WEEKLY;BYDAY=FR", "every Fri"),
    ("2 weeks on Fri", "FREQ=WEEKLY;INTERVAL=2;BYDAY=FR", "every 2 weeks on Fri"),
    ("2 weeks on Mon", "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO;WKST=WE", "every 2 weeks on Mon"),
    ("month", "FREQ=MONTHLY;BYMONTHDAY=14", "every month on the 14th"),
    ("month on the 31st", "FREQ=MONTHLY;BYMONTHDAY=28,29,30,31;BYSETPOS=-1", "every month on the 31st"),
    ("month on the 30th", "FREQ=MONTHLY;BYMONTHDAY=28,29,30;BYSETPOS=-1", "every month on the 30th"),
    ("month on 29", "FREQ=MONTHLY;BYMONTHDAY=28,29;BYSETPOS=-1", "every month on the 29th"),
    ("month on the 1st and 15th", "FREQ=MONTHLY;BYMONTHDAY=1,15", "every month on the 1st and 15th"),
    (
        "month on the 1st, 31st",
        "FREQ=MONTHLY;BYMONTHDAY=1,28,29,30,31;BYSETPOS=1,-1",
        "every month on the 1st and 31st",
    ),
    ("month on the last day", "FREQ=MONTHLY;BYMONTHDAY=-1", "every month on the last day"),
    (
        "month on the 15th and last day",
        "FREQ=MONTHLY;BYMONTHDAY=15,-1",
        "every month on the 15th and last day",
    ),
    ("month on the last Friday", "FREQ=MONTHLY;BYDAY=-1FR", "every month on the last Friday"),
    ("month on the 2nd Tuesday", "FREQ=MONTHLY;BYDAY=2TU", "every month on the 2nd Tuesday"),
    (
        "month on the 1st and 3rd Mon",
        "FREQ=MONTHLY;BYDAY=1MO,3MO",
        "every month on the 1st Monday and 3rd Monday",
    ),
    ("3 months on the 1st", "FREQ=MONTHLY;INTERVAL=3;BYMONTHDAY=1", "every 3 months on the 1st"),
    ("year", "FREQ=YEARLY;BYMONTH=1;BYMONTHDAY=14", "every year on 14 Jan"),
    ("year on 1 Nov", "FREQ=YEARLY;BYMONTH=11;BYMONTHDAY=1", "every year on 1 Nov"),
    ("year on Nov 1", "FREQ=YEARLY;BYMONTH=11;BYMONTHDAY=1", "every year on 1 Nov"),
    ("year on the 1st of November", "FREQ=YEARLY;BYMONTH=11;BYMONTHDAY=1", "every year on 1 Nov"),
    ("year on 29 Feb", "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=28,29;BYSETPOS=-1", "every year on 29 Feb"),
    ("day until 2026-02-01", "FREQ=DAILY;UNTIL=20260201", "every day until 2026-02-01"),
    ("day 14 times", "FREQ=DAILY;COUNT=14", "every day 14 times"),
    ("FREQ=MONTHLY;BYMONTHDAY=31", "FREQ=MONTHLY;BYMONTHDAY=31", "FREQ=MONTHLY;BYMONTHDAY=31"),
]


@pytest.mark.parametrize(("text", "rrule", "words"), CALENDAR)
def test_words_for_the_calendar(text, rrule, words):
    rule = parse_words(text, WEDNESDAY)
    assert rule == OnCalendar(rrule, WEDNESDAY)
    assert in_words(rule) == words


@pytest.mark.parametrize("text", ["once", "2026-01-14", "once on 2026-01-14", "on 2026-01-14"])
def test_words_for_once(text):
    assert parse_words(text, WEDNESDAY) == Once(WEDNESDAY)
    assert in_words(Once(WEDNESDAY)) == "once on 2026-01-14"


@pytest.mark.parametrize(
    ("text", "every", "unit", "words"),
    [
        ("14 days after", 14, "day", "14 days after doing"),
        ("every 14 days after doing", 14, "day", "14 days after doing"),
        ("day after", 1, "day", "1 day after doing"),
        ("2 weeks after", 2, "week", "2 weeks after doing"),
        ("3 months after", 3, "month", "3 months after doing"),
        ("1 year after", 12, "month", "12 months after doing"),
    ],
)
def test_words_for_after_doing(text, every, unit, words):
    rule = parse_words(text, WEDNESDAY)
    assert rule == AfterDoing(every, unit, WEDNESDAY)
    assert in_words(rule) == words


POUND_MG = 453_592.37
PUMP, FEED, CYCLES = Counter.PUMP_HOURS, Counter.FEED, Counter.SIPHON_CYCLES
BY_USE = [
    ("2000 pump hours", PUMP, 120_000, None, "every 2000 pump hours"),
    ("every 2,000 pump hours", PUMP, 120_000, None, "every 2000 pump hours"),
    ("1 pump hour", PUMP, 60, None, "every 1 pump hour"),
    ("2000 pump hours or 6 months", PUMP, 120_000, Wait(6, "month"), "every 2000 pump hours or 6 months"),
    ("2 000 Pump Hours or 12 weeks after doing", PUMP, 120_000, Wait(12, "week"), "every 2000 pump hours or 12 weeks"),
    ("500 siphon cycles or 1 year", CYCLES, 500, Wait(12, "month"), "every 500 siphon cycles or 12 months"),
    ("5 kg fed", FEED, 5_000_000, None, "every 5 kg fed"),
    ("2.5 kg fed", FEED, 2_500_000, None, "every 2500 g fed"),
    ("11 lb fed", FEED, round(11 * POUND_MG), None, "every 11 lb fed"),
    ("1 lb 6 oz fed or a day", FEED, round(1.375 * POUND_MG), Wait(1, "day"), "every 1 lb 6 oz fed or 1 day"),
    ("4989517 mg fed", FEED, 4_989_517, None, "every 4989517 mg fed"),
]


@pytest.mark.parametrize(("text", "counter", "limit", "latest", "words"), BY_USE)
def test_words_for_by_use(text, counter, limit, latest, words):
    rule = parse_words(text, WEDNESDAY)
    assert rule == ByUse(limit, counter, WEDNESDAY, latest)
    assert in_words(rule) == words
    assert parse_words(words, WEDNESDAY) == rule


def test_a_weight_without_a_unit_is_one_of_the_farms():
    assert parse_words("5 fed", WEDNESDAY, METRIC) == ByUse(5_000_000, FEED, WEDNESDAY)
    assert parse_words("1 6 fed", WEDNESDAY, US) == ByUse(round(1.375 * POUND_MG), FEED, WEDNESDAY)
    with pytest.raises(NotUnderstood, match="name the unit"):
        parse_words("5 fed", WEDNESDAY)


@pytest.mark.parametrize(
    ("counter", "amount", "measures", "words"),
    [
        (PUMP, 120_000, US, "2000 pump hours"),
        (PUMP, 60, METRIC, "1 pump hour"),
        (PUMP, 119_970, US, "1999.5 pump hours"),
        (PUMP, 90, replace(METRIC, decimal_comma=True), "1,5 pump hours"),
        (CYCLES, 1, US, "1 siphon cycle"),
        (FEED, 1_250_000, METRIC, "1.25 kg fed"),
        (FEED, 623_690, US, "1 lb 6 oz fed"),
    ],
)
def test_an_amount_of_use_in_words(counter, amount, measures, words):
    assert amount_words(counter, amount, measures) == words


@pytest.mark.parametrize(
    ("counter", "text", "measures", "amount"),
    [
        (PUMP, "168", US, 10_080),
        (PUMP, " 16.5 h ", US, 990),
        (PUMP, "16,25 hours", replace(METRIC, decimal_comma=True), 975),
        (CYCLES, "640", US, 640),
        (CYCLES, "1 cycle", METRIC, 1),
        (FEED, "2 4", US, round(2.25 * POUND_MG)),
        (FEED, "0.5", METRIC, 500_000),
    ],
)
def test_an_amount_of_use_as_it_is_typed(counter, text, measures, amount):
    assert read_amount(counter, text, measures) == amount


@pytest.mark.parametrize(
    ("counter", "text", "error"),
    [
        (PUMP, "", NotUnderstood),
        (PUMP, "-5", NotUnderstood),
        (PUMP, "16,5", NotUnderstood),
        (PUMP, "640 cycles of it", NotUnderstood),
        (CYCLES, "1.5", NotUnderstood),
        (PUMP, "0", OutOfRange),
        (PUMP, "0.001", OutOfRange),
        (CYCLES, "10000001", OutOfRange),
        (FEED, "0", NotUnderstood),
    ],
)
def test_an_amount_of_use_that_cannot_be_is_refused_in_words(counter, text, error):
    with pytest.raises(error):
        read_amount(counter, text, US)


@pytest.mark.parametrize(
    ("text", "condition"),
    [("when planting ready", "planting ready"), ("While the Unit cycling.", "unit cycling"), ("when frost", "frost")],
)
def test_words_for_while_something_holds(text, condition):
    rule = parse_words(text, WEDNESDAY)
    assert rule == WhenHolds(condition, WEDNESDAY)
    assert in_words(rule) == f"when {condition}"


@pytest.mark.parametrize(
    "text",
    ["", "foo", "now and then", "day on Mon", "month on the last", "month on Mon", "year on Nov", "week on 3",
     "7", "2026-02-30", "day until tomorrow", "day until 2026-13-01", "month on the 1st Mon x", "pump hours",
     "2000 hours", "2000 pump hours or so", "2,00 pump hours", "5 kg", "heavy 5 fed", "when", "when 3 planted"],
)  # fmt: skip
def test_other_words_are_not_understood(text):
    with pytest.raises(NotUnderstood):
        parse_words(text, WEDNESDAY)


def test_what_is_not_understood_is_told_what_would_be():
    with pytest.raises(NotUnderstood) as refusal:
        parse_words("whenever", WEDNESDAY)
    assert "'whenever'" in str(refusal.value)
    assert all(example in str(refusal.value) for example in UNDERSTOOD)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("month on the 30th and 31st", "name only one"),
        ("month on the 30th and last day", "name only one"),
        ("month on the 32nd", "No month has a day 32"),
        ("month on the 5th Friday", "Not every month has a 5th Friday"),
        ("month on the 15th and last Friday", "Not every month has a 15th Friday"),
        ("month on the 15th day and last Friday", "make two chores"),
        ("year on 31 June", "June has 30 days"),
        ("year on 30 Feb", "February has 29 days"),
        ("0 days", "1 or more"),
        ("0 days after", "from 1 day to 40 years"),
        ("41 years after", "from 1 day to 40 years"),
        ("50 years", "longer than 40 years"),
        ("day until 2026-01-13", "before it starts"),
        ("FREQ=HOURLY", "finer than a day"),
        ("0 pump hours", "from 1 to 350640"),
        ("350641 pump hours", "from 1 to 350640"),
        ("0 siphon cycles", "from 1 to 10000000"),
        ("100 siphon cycles or 0 days", "from 1 day to 40 years"),
        ("100 siphon cycles or 41 years", "from 1 day to 40 years"),
    ],
)
def test_words_for_a_rule_that_cannot_be_are_refused(text, words):
    with pytest.raises(Refused, match=words):
        parse_words(text, WEDNESDAY)


@pytest.mark.parametrize(("text", "error"), [("0 kg fed", NotUnderstood), ("90000 kg fed", OutOfRange)])
def test_a_weight_fed_that_cannot_be_is_refused(text, error):
    with pytest.raises(error):
        parse_words(text, WEDNESDAY)


@untimed
@given(rules_by_use())
def test_any_rule_by_use_is_read_back_from_its_words_and_from_what_is_stored(rule):
    rule = replace(rule, record=(), limit=rule.limit * 60)
    assert parse_words(in_words(rule), rule.start) == rule
    assert rule_from(*rule_text(rule), rule.start) == rule


@untimed
@given(starts, st.sampled_from((29, 30, 31)))
def test_a_late_day_of_the_month_never_drifts(start, day):
    rule = parse_words(f"month on the {day}th", start)
    for found in islice(occurrences(rule), 48):
        assert found.day == min(day, monthrange(found.year, found.month)[1])


def test_the_31st_is_the_last_day_of_each_of_48_months():
    found = list(islice(occurrences(parse_words("month on the 31st", date(2026, 1, 1))), 48))
    assert [(day.year, day.month) for day in found] == [(2026 + n // 12, n % 12 + 1) for n in range(48)]
    assert all(day.day == monthrange(day.year, day.month)[1] for day in found)


@untimed
@given(starts, st.integers(1, 28), st.sampled_from((29, 30, 31)))
def test_an_early_and_a_late_day_both_come_every_month(start, early, late):
    rule = parse_words(f"month on the {early}th and {late}th", start)
    for found in islice(occurrences(rule), 60):
        assert found.day in (early, min(late, monthrange(found.year, found.month)[1]))


@untimed
@given(starts)
def test_a_month_or_year_without_a_day_keeps_the_day_of_the_start(start):
    for text, months in (("month", 1), ("year", 12)):
        for n, found in enumerate(islice(occurrences(parse_words(text, start)), 30)):
            month = start.month - 1 + n * months
            year, month = start.year + month // 12, month % 12 + 1
            assert found == date(year, month, min(start.day, monthrange(year, month)[1]))


@untimed
@given(starts, st.integers(0, 6), st.integers(1, 6))
def test_every_few_weeks_begins_within_seven_days_of_the_start(start, weekday, every):
    names = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    first, second = islice(occurrences(parse_words(f"{every} weeks on {names[weekday]}", start)), 2)
    assert (first - start).days < 7
    assert (second - first).days == 7 * every


@untimed
@given(st.sampled_from([text for text, *_ in CALENDAR]), starts)
def test_words_are_read_back_as_the_same_rule(text, start):
    rule = parse_words(text.replace("until 2026-02-01", "until 2040-02-01"), start)
    assert parse_words(in_words(rule), start) == rule


@untimed
@given(calendar_rules())
def test_words_for_any_rule_mean_the_very_same_days(rule):
    again = parse_words(in_words(rule), rule.start)
    assert list(islice(occurrences(again), 40)) == list(islice(occurrences(rule), 40))


@pytest.mark.parametrize(
    "text", ["FREQ=MONTHLY;BYMONTHDAY=31", "FREQ=MONTHLY", "FREQ=DAILY;BYMONTH=3", "FREQ=YEARLY;BYDAY=20MO"]
)
def test_a_literal_rule_that_words_would_change_is_shown_as_its_text(text):
    assert in_words(parse_rrule(text, date(2026, 1, 31))) == text


@pytest.mark.parametrize(
    "text",
    ["once", "2026-05-01", "14 days after", "1 week after", "3 months after", "2 weeks on Mon", "when frost"]
    + [text for text, *_ in BY_USE],
)
def test_a_rule_is_stored_as_kind_and_text_and_comes_back(text):
    rule = parse_words(text, WEDNESDAY)
    assert rule_from(*rule_text(rule), WEDNESDAY) == rule


@pytest.mark.parametrize(
    ("text", "stored"),
    [
        ("once", ("once", "2026-01-14")),
        ("14 days after", ("after", "14 days")),
        ("1 week after", ("after", "1 week")),
        ("day", ("calendar", "FREQ=DAILY")),
        ("2000 pump hours or 12 weeks", ("use", "120000 min of pump hours or 12 weeks")),
        ("5 kg fed", ("use", "5000000 mg of feed")),
        ("1 siphon cycle or a month", ("use", "1 siphon cycles or 1 month")),
        ("when planting ready", ("when", "planting ready")),
    ],
)
def test_what_is_stored(text, stored):
    assert rule_text(parse_words(text, WEDNESDAY)) == stored


@pytest.mark.parametrize(
    ("kind", "text"),
    [("after", "14"), ("after", "some days"), ("once", "May"), ("whenever", "wet"), ("when", ""), ("use", "2000"),
     ("use", "5 lb of feed"), ("use", "9 siphon cycles or so")],
)  # fmt: skip
def test_stored_text_that_is_no_rule_is_not_understood(kind, text):
    with pytest.raises(NotUnderstood):
        rule_from(kind, text, WEDNESDAY)


@pytest.mark.parametrize("name", SAID)
def test_a_condition_is_said_as_a_sentence_and_understood_both_ways(name):
    said = in_words(WhenHolds(name, WEDNESDAY))
    assert said == f"when {SAID[name]}" != f"when {name}"
    assert parse_words(said, WEDNESDAY) == parse_words(f"when {name}", WEDNESDAY) == WhenHolds(name, WEDNESDAY)
