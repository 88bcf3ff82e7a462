"""A month as plain text: every day in its column, late ones marked by a word or a sign, never wider than the page."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest

from farmops.exchange.month_text import KEY, hours, month_text
from farmops.model.farm import Farm
from farmops.quantities import US
from farmops.reports.month import Month, MonthDay

FARM = Farm("Hollow Lane", US, "America/New_York", date(2026, 1, 1))
TODAY = date(2026, 10, 14)


def month(first: date, on: date = TODAY, *, most: int = 9) -> Month:
    """Nine chores done on each day behind, one late; as many expected on each day ahead."""
    days = [day for day in (first + timedelta(days=at) for at in range(31)) if day.month == first.month]
    behind = [MonthDay(day, done=most, done_minutes=most * 10, late=most) for day in days if day < on]
    ahead = [
        MonthDay(day, expected=most, expected_minutes=most * 10, late=(day == on) * most) for day in days if day >= on
    ]
    return Month(FARM, on, (*behind, *ahead))


def test_a_month_at_eighty_columns():
    assert month_text(month(date(2026, 10, 1)), 80).splitlines()[:10] == [
        "October 2026, Hollow Lane: 117 done, 19 h 30 min; 162 to come, 27 h",
        " Mon        Tue        Wed        Thu        Fri        Sat        Sun",
        "                                  1 9 late   2 9 late   3 9 late   4 9 late",
        "                                  9 90m      9 90m      9 90m      9 90m",
        "",
        " 5 9 late   6 9 late   7 9 late   8 9 late   9 9 late   10 9 late  11 9 late",
        " 9 90m      9 90m      9 90m      9 90m      9 90m      9 90m      9 90m",
        "",
        " 12 9 late  13 9 late >14 9 late  15         16         17         18",
        " 9 90m      9 90m      9 90m      ~9 90m     ~9 90m     ~9 90m     ~9 90m",
    ]


def test_a_narrow_terminal_gets_a_sign_for_late_and_no_unit():
    told = month_text(month(date(2026, 10, 1)), 60).splitlines()[1:]
    assert told[6] == " 12 9!   13 9!  >14 9!   15      16      17      18"
    assert told[7] == " 9 90    9 90    9 90    ~9 90   ~9 90   ~9 90   ~9 90"
    assert told[-1] == "chores, minutes; ! late; > today, due; ~ expected ahead"


@pytest.mark.parametrize("most", [9, 99, 356, 1356])
@pytest.mark.parametrize("columns", [118, 80, 60, 56])
@pytest.mark.parametrize("first", [date(2026, 2, 1), date(2026, 8, 1), date(2026, 10, 1), date(2026, 12, 1)])
def test_no_line_is_wider_than_the_page_and_no_two_days_touch(columns: int, first: date, most: int):
    told = month_text(month(first, most=most), columns).splitlines()
    assert all(len(line) <= columns for line in told)
    width = min(columns // 7, 16)
    begin = next(at for at, line in enumerate(told) if line.startswith(" Mon"))
    rows = [line for line in told[begin + 1 : -1] if line]
    cells = [line[at * width : (at + 1) * width].ljust(width) for line in rows for at in range(7)]
    assert all(cell[0] in " >" and before.endswith(" ") for before, cell in pairwise(cells))
    assert (told[-1] == KEY) == (columns == 118) or columns == 80
    dates = [line[at * width : (at + 1) * width].strip(" >") for line in rows[::2] for at in range(7)]
    assert [int(cell.split()[0]) for cell in dates if cell] == [day.day.day for day in month(first).days]


def test_long_numbers_of_late_chores_have_a_sign_for_the_word_where_that_is_too_long():
    busy = month(date(2026, 10, 1), most=356)
    told = month_text(busy, 80).splitlines()
    assert told[8:10] == [
        " 12 356!    13 356!   >14 356!    15         16         17         18",
        " 356 3560   356 3560   356 3560   ~356 3560  ~356 3560  ~356 3560  ~356 3560",
    ]
    assert month_text(busy, 118).splitlines()[8].split("  ")[0] == " 12 356 late"


def test_a_month_with_nothing_in_it_says_so():
    bare = Month(FARM, TODAY, tuple(MonthDay(date(2026, 10, 1 + at)) for at in range(31)), "WREN")
    told = month_text(bare, 80).splitlines()
    assert told[0] == "October 2026, WREN: nothing"
    assert told[3].split() == ["-"] * 4


@pytest.mark.parametrize(("minutes", "words"), [(0, "0 min"), (59, "59 min"), (60, "1 h"), (125, "2 h 5 min")])
def test_minutes_are_told_in_hours(minutes: int, words: str):
    assert hours(minutes) == words
