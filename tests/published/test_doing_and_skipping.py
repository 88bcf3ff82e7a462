"""What a doing leaves due next, case by case, and what becomes of a day that a year does not have."""

from __future__ import annotations

from datetime import date
from itertools import islice

import pytest

from farmops.model.chores import SettledAs, Settlement
from farmops.model.errors import Refused
from farmops.schedule.due import due, occurrence_settled
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import OnCalendar, Rule
from farmops.schedule.stored import after_doing
from farmops.schedule.words import parse_words
from tests.labels import from_memory, published, rows

CASES = {row[0]: row for row in rows("completion_recurrence_examples.csv")}
NOT_OURS = {
    "C4": "what was missed is counted beside the one line that is due; it never comes back as a line of its own",
    "C8": "months after doing count from a kept anchor: a short month does not make the 31st the 28th for good",
}


def day(text: str) -> date:
    return date.fromisoformat(text)


def rule_of(mode: str, text: str, scheduled: date) -> Rule:
    """The rule of a case, first due on the day it was scheduled for."""
    if mode == "after_completion":
        number, unit = text.split()
        return after_doing(int(number), unit.removesuffix("s"), scheduled)
    return parse_rrule(text, scheduled)


def after(rule: Rule, *done_on: date) -> date | None:
    """When it is due after doings on these days, no occurrence being named."""
    history: list[Settlement] = []
    for on in done_on:
        history.append(Settlement(occurrence_settled(rule, history, on), SettledAs.DONE, on))
    return due(rule, history)


def test_every_case_is_ours_or_named_as_not_ours():
    assert set(CASES) == {f"C{number}" for number in range(1, 12)}
    assert all(NOT_OURS.values())
    assert len(set(CASES) - set(NOT_OURS)) == 9


@pytest.mark.parametrize("case", sorted(set(CASES) - set(NOT_OURS)))
def test_a_doing_leaves_it_due_as_the_case_says(case: str):
    _, _, mode, text, scheduled, done_on, expected, *_ = CASES[case]
    assert after(rule_of(mode, text, day(scheduled)), day(done_on)) == day(expected)


def test_what_was_missed_does_not_come_back():
    _, _, mode, text, scheduled, done_on, expected, *_ = CASES["C4"]
    found = after(rule_of(mode, text, day(scheduled)), day(done_on))
    assert found == date(2026, 1, 19)
    assert found > day(expected)


def test_the_31st_is_kept_through_a_short_month():
    *_, mode, text, scheduled, done_on, expected = CASES["C8"][:7]
    rule = rule_of(mode, text, date(2026, 1, 31))
    assert after(rule, date(2026, 1, 31)) == day(scheduled)
    assert after(rule, date(2026, 1, 31), day(done_on)) == date(2026, 3, 31)
    assert day(expected) == date(2026, 3, 28)


LEAP_DAY = date(2012, 2, 29)
FORWARD = (LEAP_DAY, date(2013, 3, 1), date(2014, 3, 1), date(2015, 3, 1), date(2016, 2, 29))


def first_days(rule: Rule, number: int) -> list[date]:
    assert isinstance(rule, OnCalendar)
    return list(islice(occurrences(rule), number))


@published(
    "RFC 7529, leap-day example with SKIP=FORWARD", note="the policy here is BACKWARD: the same days of the month"
)
def test_a_leap_day_in_words_falls_back_to_the_last_of_february():
    """Backward, for the end of a month is meant: what is due by the end of February is late on 1 March."""
    backward = [found if found.month == 2 else date(found.year, 2, 28) for found in FORWARD]
    for words in ("year on 29 Feb", "year"):
        assert first_days(parse_words(words, LEAP_DAY), 5) == backward
    assert [found.year for found in backward] == [found.year for found in FORWARD]


@from_memory("RFC 7529: without SKIP a rule omits, as in RFC 5545")
def test_a_leap_day_as_rfc_text_leaves_out_the_years_between():
    assert first_days(parse_rrule("FREQ=YEARLY", LEAP_DAY), 2) == [LEAP_DAY, date(2016, 2, 29)]


@pytest.mark.parametrize("part", ["RSCALE=GREGORIAN;SKIP=FORWARD", "SKIP=BACKWARD", "RSCALE=CHINESE"])
def test_a_rule_that_says_how_to_skip_is_refused_and_never_taken_for_one_that_omits(part: str):
    with pytest.raises(Refused):
        parse_rrule(f"{part};FREQ=YEARLY", LEAP_DAY)
