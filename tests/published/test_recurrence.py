"""Calendar rules against the worked examples of RFC 5545."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import islice

import pytest

from farmops.model.errors import Refused
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rfc import parse_rrule
from tests.labels import from_memory, published, rows

FINER_THAN_A_DAY = {"R33", "R33e", "R34", "R35", "R36a", "R36b"}
"""Every few hours or minutes: out of scope for chores, which are due on a day, at a part of the day."""

EXAMPLES = rows("rfc5545_examples.csv")
BY_THE_DAY = [row for row in EXAMPLES if row[0] not in FINER_THAN_A_DAY]
IN_THE_RFC = [row for row in BY_THE_DAY if row[0].startswith("R")]
DERIVED = [row for row in BY_THE_DAY if row[0].startswith("D")]


def ids(table: list[Sequence[str]]) -> list[str]:
    return [row[0] for row in table]


def days(text: str) -> list[date]:
    return [date.fromisoformat(day) for day in text.split()]


def check_days(start: str, zone: str, rrule: str, excluded: str, expected: str, complete: str) -> None:
    """All days of a set that the source gives whole; the first ones, in order, of one that goes on."""
    left_out = set(days(excluded))
    found = (day for day in occurrences(parse_rrule(rrule, date.fromisoformat(start), zone)) if day not in left_out)
    wanted = days(expected)
    assert list(islice(found, len(wanted) + (complete == "yes"))) == wanted


def test_every_example_of_the_table_is_checked():
    assert len(IN_THE_RFC) == 33
    assert len(DERIVED) == 5
    assert {row[0] for row in EXAMPLES} - set(ids(BY_THE_DAY)) == FINER_THAN_A_DAY


@published("RFC 5545, section 3.8.5.3", note="times of day left out, UNTIL in UTC read in New York")
@pytest.mark.parametrize("row", IN_THE_RFC, ids=ids(IN_THE_RFC))
def test_the_days_of_an_example_in_the_rfc(row):
    check_days(*row[1:])


@pytest.mark.parametrize("row", DERIVED, ids=ids(DERIVED))
def test_the_days_of_a_case_that_follows_from_the_text_of_the_rfc(row):
    check_days(*row[1:])


@published("RFC 5545, section 3.8.5.3", note="R33 as printed and as corrected by erratum 3883")
@pytest.mark.parametrize("name", sorted(FINER_THAN_A_DAY))
def test_an_example_finer_than_a_day_is_refused_in_words(name):
    _, start, zone, rrule, *_ = next(row for row in EXAMPLES if row[0] == name)
    with pytest.raises(Refused, match="finer than a day"):
        parse_rrule(rrule, date.fromisoformat(start), zone)


@from_memory("RFC 5545, section 3.8.5.3, the pair that differs only in WKST")
def test_the_first_day_of_the_week_matters_every_other_week():
    rule = parse_rrule("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", date(1997, 8, 5))
    assert list(occurrences(rule)) == [date(1997, 8, day) for day in (5, 17, 19, 31)]
