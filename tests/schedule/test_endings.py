"""Rules that end, and the same ones made to last."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.schedule.endings import ends, last_day, lasting
from farmops.schedule.occurrences import count_occurrences, occurrences
from farmops.schedule.rules import AfterDoing, OnCalendar
from farmops.schedule.words import in_words, parse_words
from tests.schedule.strategies import calendar_rules, untimed

START = date(2026, 5, 4)


@pytest.mark.parametrize(
    ("words", "last"),
    [
        ("once", START),
        ("day 14 times", date(2026, 5, 17)),
        ("3 days 3 times", date(2026, 5, 10)),
        ("Mon until 2026-05-20", date(2026, 5, 18)),
        ("day", None),
        ("7 days after", None),
        ("when planting ready", None),
        ("2000 pump hours", None),
    ],
)
def test_the_last_day_of_a_rule(words: str, last: date | None) -> None:
    rule = parse_words(words, START)
    assert last_day(rule) == last
    assert ends(rule) is (last is not None)


def test_a_counted_rule_that_lasts_longer_says_until_when() -> None:
    rule = parse_words("day 14 times", START)
    assert isinstance(rule, OnCalendar)
    assert in_words(lasting(rule, date(2026, 5, 22))) == "every day until 2026-05-22"
    assert lasting(rule, date(2026, 5, 17)) == lasting(rule, START) == rule


def test_what_has_no_end_is_not_given_one() -> None:
    daily = parse_words("day", START)
    assert isinstance(daily, OnCalendar)
    assert lasting(daily, date(2030, 1, 1)) == daily
    assert not ends(AfterDoing(7, "day", START))


@untimed
@given(rule=calendar_rules(), more=st.integers(0, 400))
def test_no_day_is_lost_by_lasting_longer(rule: OnCalendar, more: int) -> None:
    own = last_day(rule)
    if own is None:
        return
    longer = lasting(rule, own + timedelta(days=more))
    kept = count_occurrences(rule, rule.start, own)
    assert [day for day, _ in zip(occurrences(longer), range(kept), strict=False)] == list(occurrences(rule))
    assert (last_day(longer) or own) >= own
