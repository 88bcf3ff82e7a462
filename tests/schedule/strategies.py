"""Calendar rules of every shape, and histories, for the property tests of this room."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import assume, settings
from hypothesis import strategies as st

from farmops.model.chores import SettledAs, Settlement
from farmops.model.errors import Refused
from farmops.model.usage import Counter
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import ByUse, Holding, OnCalendar, Use, Wait, WhenHolds

WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
untimed = settings(deadline=None)
starts = st.dates(date(2015, 1, 1), date(2035, 12, 31))


def _list(name: str, values: st.SearchStrategy[object], most: int = 4) -> st.SearchStrategy[str]:
    some = st.lists(values, min_size=1, max_size=most, unique=True)
    return some.map(lambda chosen: f";{name}={','.join(map(str, chosen))}")


def _signed(largest: int) -> st.SearchStrategy[int]:
    return st.integers(1, largest) | st.integers(-largest, -1)


plain_days = st.sampled_from(WEEKDAYS)
numbered_days = st.tuples(_signed(5), plain_days).map(lambda day: f"{day[0]}{day[1]}")
maybe_months = st.just("") | _list("BYMONTH", st.integers(1, 12))
maybe_positions = st.just("") | _list("BYSETPOS", _signed(3), most=2)
days_of = {
    "DAILY": st.just("") | _list("BYDAY", plain_days) | _list("BYMONTHDAY", _signed(31)),
    "WEEKLY": st.just("") | _list("BYDAY", plain_days),
    "MONTHLY": st.just("") | _list("BYDAY", plain_days | numbered_days) | _list("BYMONTHDAY", _signed(31)),
    "YEARLY": st.just("")
    | _list("BYDAY", plain_days | numbered_days)
    | _list("BYMONTHDAY", _signed(31))
    | _list("BYYEARDAY", _signed(366)),
}


@st.composite
def endless_texts(draw: st.DrawFn) -> str:
    """RFC 5545 text without COUNT, UNTIL and BYWEEKNO."""
    freq = draw(st.sampled_from(tuple(days_of)))
    days, months = draw(days_of[freq]), draw(maybe_months)
    positions = draw(maybe_positions) if days or months else ""
    interval, week_start = draw(st.integers(1, 5)), draw(plain_days)
    return f"FREQ={freq};INTERVAL={interval}{months}{days}{positions};WKST={week_start}"


@st.composite
def calendar_rules(draw: st.DrawFn) -> OnCalendar:
    """Checked rules, some of them ending."""
    start = draw(starts)
    until = (start + timedelta(days=draw(st.integers(0, 3000)))).strftime("%Y%m%d")
    end = draw(st.sampled_from(("", "", f";COUNT={draw(st.integers(1, 30))}", f";UNTIL={until}")))
    try:
        return parse_rrule(draw(endless_texts()) + end, start)
    except Refused:
        assume(False)
        raise


@st.composite
def settlements(draw: st.DrawFn) -> Settlement:
    """One line of history in the years 2020 and 2021."""
    days = st.dates(date(2020, 1, 1), date(2021, 12, 31))
    kind = draw(st.sampled_from(tuple(SettledAs)))
    return Settlement(draw(days), kind, draw(days), draw(days) if kind is SettledAs.DEFERRED else None)


@st.composite
def rules_by_use(draw: st.DrawFn) -> ByUse:
    """Rules by use with their records of the years 2020 and 2021, in any order, some days booked twice."""
    days = st.dates(date(2020, 1, 1), date(2021, 12, 31))
    record = draw(st.lists(st.builds(Use, days, st.integers(1, 5_000)), max_size=12))
    spans = st.sampled_from(("day", "week", "month"))
    latest = draw(st.none() | st.builds(Wait, st.integers(1, 20), spans))
    start = draw(st.dates(date(2019, 12, 1), date(2021, 6, 30)))
    return ByUse(draw(st.integers(1, 60_000)), draw(st.sampled_from(Counter)), start, latest, tuple(record))


@st.composite
def holdings(draw: st.DrawFn) -> Holding:
    """A span in which something holds, with or without an end."""
    since = draw(st.dates(date(2020, 1, 1), date(2021, 12, 31)))
    until = draw(st.none() | st.integers(0, 90).map(lambda days: since + timedelta(days=days)))
    return Holding(since, until, draw(st.sampled_from(("wet", "dry"))), "its end")


def rules_when() -> st.SearchStrategy[WhenHolds]:
    """Rules for as long as something holds, with what held in the years 2020 and 2021, in any order."""
    held = st.lists(holdings(), max_size=8).map(tuple)
    return st.builds(WhenHolds, st.just("wet"), st.dates(date(2019, 12, 1), date(2021, 6, 30)), held)
