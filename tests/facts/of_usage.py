"""What the tables say of use and of forecasts."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import combinations

from farmops.facts import evidence, forecasts, usage
from farmops.model.forecasts import Forecast
from farmops.model.usage import Counter, Usage
from farmops.records.fish import FeedingRow
from farmops.records.readings import ForecastRow, UsageRow
from farmops.records.units import UnitRow
from farmops.schedule.rules import Use
from tests.facts.tables import DAYS, Answer, Tables, columns, says


def _usage(rows: Tables, row: UsageRow) -> Usage:
    told = columns(row, "id", "day", "unit_id", "amount", "typed", "note")
    return Usage(**told, unit=rows.get(UnitRow, row.unit_id).code, counter=Counter(row.counter))


def _newest_first(rows: Tables) -> list[UsageRow]:
    walked = sorted(sorted(rows[UsageRow], key=lambda row: -row.id), key=lambda row: rows.walking(row.unit_id))
    return sorted(walked, key=lambda row: row.day, reverse=True)


@says(usage.usages)
def every_use(rows: Tables) -> Iterator[Answer]:
    yield (), [_usage(rows, row) for row in _newest_first(rows)]
    for unit in rows[UnitRow]:
        yield (unit.id,), [_usage(rows, row) for row in _newest_first(rows) if row.unit_id == unit.id]


@says(usage.usage)
def each_use(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[UsageRow]:
        yield (row.id,), _usage(rows, row)


@says(usage.day_before)
def days_of_the_record_before(rows: Tables) -> Iterator[Answer]:
    for unit in rows[UnitRow]:
        for counter in Counter:
            own = [row for row in rows[UsageRow] if (row.unit_id, row.counter) == (unit.id, counter.value)]
            for day in {*DAYS, *(row.day for row in own)}:
                yield (unit.id, counter, day), max((row.day for row in own if row.day <= day), default=None)
                others = [row.day for row in own[1:] if row.day <= day]
                yield (unit.id, counter, day, own[0].id if own else None), max(others, default=None)


@says(evidence.used_in)
def used_day_by_day(rows: Tables) -> Iterator[Answer]:
    ids = [unit.id for unit in rows[UnitRow]]
    for number in range(len(ids) + 1):
        for some in combinations(ids, number):
            own = [row for row in rows[UsageRow] if row.unit_id in some]
            found: dict[tuple[int, Counter], list[Use]] = {}
            for unit, counter, day in sorted({(row.unit_id, row.counter, row.day) for row in own}):
                same = [row for row in own if (row.unit_id, row.counter, row.day) == (unit, counter, day)]
                found.setdefault((unit, Counter(counter)), []).append(Use(day, sum(row.amount for row in same)))
            for unit in some:
                fed = fed_in(rows, unit)
                if fed:
                    found[unit, Counter.FEED] = fed_and_recorded(found.get((unit, Counter.FEED), []), fed)
            yield (some,), found


def fed_in(rows: Tables, unit: int) -> list[Use]:
    """What was fed in a unit, day by day."""
    by_day: dict[date, int] = {}
    for row in rows[FeedingRow]:
        places = [place for place in rows.places(row.fish_lot_id) if place.from_day <= row.day]
        if row.mass_mg and places and places[-1].unit_id == unit:
            by_day[row.day] = by_day.get(row.day, 0) + row.mass_mg
    return [Use(day, by_day[day]) for day in sorted(by_day)]


def fed_and_recorded(records: list[Use], fed: list[Use]) -> list[Use]:
    kept, before = [], date.min
    for one in records:
        if not [x for x in fed if before < x.day <= one.day]:
            kept.append(one)
        before = one.day
    return sorted([*kept, *fed], key=lambda one: one.day)


def _forecast(row: ForecastRow) -> Forecast:
    return Forecast(**columns(row, "id", "day", "low_c", "low_typed", "high_c", "high_typed", "note"))


@says(forecasts.forecasts)
def forecasts_to_come(rows: Tables) -> Iterator[Answer]:
    for day in {*DAYS, *(row.day for row in rows[ForecastRow])}:
        later = sorted((row for row in rows[ForecastRow] if row.day >= day), key=lambda row: row.day)
        yield (day,), [_forecast(row) for row in later]


@says(forecasts.forecast_for)
def forecast_of_each_day(rows: Tables) -> Iterator[Answer]:
    yield (DAYS[0],), next((_forecast(row) for row in rows[ForecastRow] if row.day == DAYS[0]), None)
    for row in rows[ForecastRow]:
        yield (row.day,), _forecast(row)
