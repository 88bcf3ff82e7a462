"""`farmops chores history|load|month`: how chores went, what is coming, and a month at a glance."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from farmops import clock
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, chart_options, span_options
from farmops.cli.output import emit, line, say, table, terminal_width
from farmops.cli.settled import read_with, settled_object
from farmops.exchange.month_text import hours, month_text
from farmops.model.farm import Person
from farmops.reports import lists, names
from farmops.reports.history import ChoreHistory, Histories, histories
from farmops.reports.load import DayLoad, Expected, Load, load_of
from farmops.reports.month import Month, MonthDay, month_of
from farmops.reports.reasons import next_of

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

NO_CHORE = 'No chore yet. Add one: farmops chores add "Sweep the path" --every "14 days after"'
WIDEST_BAR = 24

unit_option = click.option("--unit", metavar="CODE", help="Only one unit.")


@click.command()
@click.argument("number", type=int, required=False)
@span_options
@unit_option
@answer_options
@pass_desk
def history(
    desk: Desk, number: int | None, first: str | None, last: str | None, unit: str | None, as_json: bool
) -> None:
    """How chores went: times done, left out, late, missed, minutes, by whom; one chore line by line.

    Without a number it is all chores of the last thirteen weeks. Missed days count from the first time a chore was
    settled.

    \b
    Examples: farmops chores history 12
              farmops chores history --unit WREN --from "1 sep"
    """
    lists.farm(desk.store)
    span = desk.day_or_none(first), desk.day_or_none(last)
    found = histories(desk.store, *span, unit=unit, chore=number)
    if number is not None:
        _one(desk, found.chores[0], as_json)
    elif as_json:
        told = [history_object(one) for one in found.chores]
        emit({"from": found.first, "to": found.last, "chores": told})
    else:
        _all(found)


def _all(found: Histories) -> None:
    if not found.chores:
        say(f"Nothing was settled from {found.first} to {found.last}.")
        return
    line(f"{found.farm.name}, {found.first} to {found.last}")
    rows = [
        [
            str(one.chore.id),
            one.where,
            one.chore.title,
            *(str(count or "") for count in (one.done, one.skipped, one.late, one.missed)),
            minutes_words(one),
            by_words(one),
        ]
        for one in found.chores
    ]
    table(["no.", "where", "chore", "done", "left out", "late", "missed", "min", "by"], rows, right=[0, 3, 4, 5, 6])


def minutes_words(one: ChoreHistory) -> str:
    """The usual minutes beside the estimate."""
    return f"{one.median_minutes:g} of {one.chore.minutes}" if one.median_minutes is not None else ""


def by_words(one: ChoreHistory) -> str:
    """Who did it, and how often."""
    return ", ".join(f"{name} {times}" for name, times in one.by)


def _one(desk: Desk, found: ChoreHistory, as_json: bool) -> None:
    chore = found.chore
    read = read_with(desk, list(found.settled))
    if as_json:
        told = [settled_object(one, read.get(one.id, [])) for one in found.settled]
        emit({"chore": chore.id, "title": chore.title, **summary_object(found), "history": told})
        return
    if found.nothing:
        say(f"{chore.title} was never settled; due {next_of(desk.store, chore, 'on no day')}.")
        return
    line(f"{chore.title}, {chore.rule_words}, next {next_of(desk.store, chore, 'on no day')}")
    line(found.words)
    rows = [
        [
            one.on_day.isoformat(),
            one.kind + (f" until {one.until_day}" if one.until_day else ""),
            one.occurrence.isoformat(),
            f"{one.minutes} min" if one.minutes is not None else "",
            one.actor,
            one.reason or one.confirmed or "",
            ", ".join(f"{water.reading.measure} {water.reading.typed}" for water in read.get(one.id, [])),
        ]
        for one in found.settled
    ]
    if rows:
        table(["day", "how", "was due", "took", "who", "why", "read"], rows)


def summary_object(one: ChoreHistory) -> dict[str, object]:
    """How a chore went in JSON's words."""
    return {
        "done": one.done,
        "skipped": one.skipped,
        "deferred": one.deferred,
        "late": one.late,
        "most_days_late": one.most_days_late,
        "missed": one.missed,
        "minutes_said": one.chore.minutes,
        "median_minutes": one.median_minutes,
        "timed": one.timed,
        "by": [{"who": name, "times": times} for name, times in one.by],
    }


def history_object(one: ChoreHistory) -> dict[str, object]:
    """A chore and how it went in JSON's words."""
    return {"chore": one.chore.id, "title": one.chore.title, "where": one.where, **summary_object(one)}


@click.command()
@click.option("--days", type=click.IntRange(1, 366), default=14, show_default=True, help="So many days.")
@click.option("--on", metavar="DAY", help="The first day; stands in for today. [today]")
@unit_option
@click.option("--for", "person", metavar="NAME", help="Only what falls to one person.")
@click.option("--people", "by_person", is_flag=True, help="Minutes of each person besides.")
@chart_options
@pass_desk
def load(
    desk: Desk, days: int, on: str | None, unit: str | None, person: str | None, by_person: bool, as_json: bool
) -> None:
    """Minutes a day ahead: all that is expected to be due, each chore done on its day.

    What is late falls on the first day. Work by use goes by the rate of its last records.

    \b
    Examples: farmops chores load
              farmops chores load --days 7 --people
              farmops chores load --for Ada
    """
    lists.farm(desk.store)
    first = desk.day_or_none(on, ahead=True)
    found = load_of(desk.store, first, days=days, unit=unit, person=_person(desk, person))
    if as_json:
        emit(load_object(found), lambda: _drawn(found, unit))
    elif not found.minutes and not lists.chores(desk.store):
        say(NO_CHORE)
    else:
        _print_load(found, by_person=by_person)


def _drawn(found: Load, unit: str | None) -> Chart:
    from farmops.exchange.chart_of import load_chart

    whose = f", for {found.person.name}" if found.person else ""
    return load_chart(found, f"Minutes of chores ahead, {unit or found.farm.name}{whose}")


def _person(desk: Desk, name: str | None) -> Person | None:
    return names.person(desk.store, name) if name else None


def _print_load(found: Load, *, by_person: bool) -> None:
    first, days = found.days[0].day, len(found.days)
    whose = f", for {found.person.name}" if found.person else ""
    average = round(found.minutes / days)
    span = "1 day" if days == 1 else f"{days} days"
    line(f"{found.farm.name}{whose}, {span} from {first:%a} {first}: {hours(found.minutes)}, {average} min a day")
    people = found.people if by_person else ()
    longest = max((day.minutes for day in found.days), default=0) or 1
    rows = [
        [
            f"{day.day:%a} {day.day}",
            str(len(day.expected)),
            str(day.minutes),
            *(str(day.by_person.get(name, "")) for name in people),
            "=" * round(day.minutes * WIDEST_BAR / longest) + (f"  {day.late} late" if day.late else ""),
        ]
        for day in found.days
    ]
    table(["day", "chores", "min", *people, ""], rows, right=range(1, 3 + len(people)))


def load_object(found: Load) -> dict[str, object]:
    """The load in JSON's words."""
    return {
        "farm": found.farm.name,
        "from": found.days[0].day,
        "to": found.days[-1].day,
        "for": found.person.name if found.person else None,
        "minutes": found.minutes,
        "days": [_day_object(day) for day in found.days],
    }


def _day_object(day: DayLoad) -> dict[str, object]:
    return {
        "day": day.day,
        "minutes": day.minutes,
        "late": day.late,
        "by": [{"who": name, "minutes": minutes} for name, minutes in day.by_person.items()],
        "chores": [_expected_object(one) for one in day.expected],
    }


def _expected_object(one: Expected) -> dict[str, object]:
    chore = one.chore
    return {
        "chore": chore.id,
        "title": chore.title,
        "where": one.where,
        "class": chore.grade,
        "minutes": chore.minutes,
        "late": one.late,
        "who": one.doer.person.name if one.doer.person else None,
    }


@click.command()
@click.option("--month", "typed", metavar="MONTH", help="Such as 2026-10. [this month]")
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@unit_option
@answer_options
@pass_desk
def month(desk: Desk, typed: str | None, on: str | None, unit: str | None, as_json: bool) -> None:
    """A month at a glance: what was done on each day behind, what is due today, what is expected ahead.

    A day behind on which work that was due was not settled says how many were late.

    \b
    Examples: farmops chores month
              farmops chores month --month 2026-11 --unit WREN
    """
    lists.farm(desk.store)
    today = desk.day(on)
    wanted = clock.parse_month(typed, today) if typed else today
    found = month_of(desk.store, wanted, today, unit=unit)
    if as_json:
        emit(month_object(found))
    elif not lists.chores(desk.store):
        say(NO_CHORE)
    else:
        for row in month_text(found, terminal_width()).splitlines():
            line(row)


def month_object(found: Month) -> dict[str, Any]:
    """A month in JSON's words."""
    return {
        "farm": found.farm.name,
        "month": f"{found.days[0].day:%Y-%m}",
        "on": found.on,
        "unit": found.unit,
        "days": [_month_day_object(day) for day in found.days],
    }


def _month_day_object(day: MonthDay) -> dict[str, object]:
    return {
        "day": day.day,
        "done": day.done,
        "done_minutes": day.done_minutes,
        "expected": day.expected,
        "expected_minutes": day.expected_minutes,
        "late": day.late,
    }
