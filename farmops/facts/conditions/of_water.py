"""What can hold for the water and what it is read with: readings out of limits or to watch, instruments to check."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.farm import farm
from farmops.facts.instruments import checks, instruments
from farmops.facts.readings import IN_ORDER, LATEST
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.model.limits import Level, Limit, Verdict
from farmops.model.readings import TEMPERATURES, Measure
from farmops.quantities.readings import show_value
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

if TYPE_CHECKING:
    from farmops.facts.limits import LimitsOfDays
    from farmops.facts.verdicts import Beside

VALUES = """
    SELECT reading.id, reading.unit_id, unit.code AS unit, reading.day, reading.measure, reading.value
    FROM reading JOIN unit ON unit.id = reading.unit_id
"""
GOOD_AGAIN = "a reading within the limits"


@dataclass(frozen=True, slots=True)
class Value:
    """A reading with no more than what is judged."""

    id: int
    unit_id: int
    unit: str
    day: date
    measure: Measure
    value: float


@condition(
    "reading out of limits",
    place=AppliesTo.UNIT,
    tables=("reading", "own_limit", "unit_state", "fish_lot", "lot_place"),
)
def out_of_limits(reader: Reader) -> Held:
    """The latest reading of something is harmful or dangerous for the fish, the filter or the plants of the unit: from
    the first such one in a row until a reading is good again.
    """
    return by_place(_bad_for_those_there(reader, (Level.HARMFUL, Level.DANGEROUS)))


@condition(
    "reading to watch",
    place=AppliesTo.UNIT,
    tables=("reading", "own_limit", "unit_state", "fish_lot", "lot_place"),
)
def to_watch(reader: Reader) -> Held:
    """The latest reading of something is not good, though not harmful yet, or it is beyond your own limit: from the
    first such one in a row until a reading is good again.
    """
    return by_place(_bad_for_those_there(reader, (Level.WATCH,)))


def _bad_for_those_there(reader: Reader, levels: Sequence[Level]) -> Iterator[tuple[int, Holding]]:
    from farmops.facts.limits import LimitsOfDays
    from farmops.facts.verdicts import Beside

    found = _newest_temperatures(reader.all(Value, LATEST.format(select=VALUES, only=""), last=date.max))
    if not found:
        return
    days, beside, measures = LimitsOfDays(reader), Beside(found), farm(reader).measures
    limits = days.on(date.max)
    bad = [(one, verdict) for one in found if (verdict := _bad(one, beside, limits[one.unit_id])) is not None]
    since = _bad_since(reader, [one for one, _ in bad], days)
    for one, verdict in bad:
        if verdict.level not in levels:
            continue
        value = show_value(one.value, one.measure, measures)
        why = f"{one.unit} {one.measure} {value} on {one.day}, {verdict.level} for {verdict.passed[0].who}"
        yield one.unit_id, Holding(since[one.unit_id, one.measure], None, why, GOOD_AGAIN)


def _newest_temperatures(found: Sequence[Value]) -> list[Value]:
    """Of the temperatures of a unit only those of the last day on which one was read: they tell of the same water."""
    last: dict[int, date] = {}
    for one in found:
        if one.measure in TEMPERATURES:
            last[one.unit_id] = max(one.day, last.get(one.unit_id, one.day))
    return [one for one in found if one.measure not in TEMPERATURES or one.day == last[one.unit_id]]


def _bad(one: Value, beside: Beside, limits: tuple[Limit, ...]) -> Verdict | None:
    from farmops.facts.verdicts import verdict_of

    verdict = verdict_of(one, beside, limits)
    return verdict if verdict is not None and verdict.passed else None


def _bad_since(reader: Reader, last: Sequence[Value], limits: LimitsOfDays) -> dict[tuple[int, Measure], date]:
    """The first day of each unbroken row of bad readings, each judged by its own day, up to one of the last."""
    from farmops.facts.verdicts import DECIDES_AMMONIA, Beside

    units = ", ".join(str(unit) for unit in sorted({one.unit_id for one in last})) or "NULL"
    measures = ", ".join(f"'{one}'" for one in Measure if one in {*DECIDES_AMMONIA, *(bad.measure for bad in last)})
    wanted = f"reading.unit_id IN ({units}) AND reading.measure IN ({measures})"
    every = reader.all(Value, f"{VALUES} WHERE {wanted} {IN_ORDER}")
    beside, since, open_rows = Beside(every), {}, {}
    for one in last:
        since[one.unit_id, one.measure], open_rows[one.unit_id, one.measure] = one.day, True
    for one in reversed(every):
        row = (one.unit_id, one.measure)
        if open_rows.get(row):
            open_rows[row] = _bad(one, beside, limits.of(one.unit_id, one.day)) is not None
            since[row] = one.day if open_rows[row] else since[row]
    return since


@condition("instrument check due", place=AppliesTo.FARM, tables=("instrument", "instrument_check"))
def check_due(reader: Reader) -> Held:
    """An instrument that is to be checked every so many days was not, or failed: from that day until the next check."""
    return by_place(_check_due(reader))


def _check_due(reader: Reader) -> Iterator[tuple[None, Holding]]:
    last = {one.instrument_id: one for one in checks(reader)}
    for one in instruments(reader):
        seen = last.get(one.id)
        if seen is not None and not seen.passed:
            since, why = seen.day, f"{one.name} failed its check on {seen.day}"
        elif one.check_days is not None:
            since = (seen.day if seen else one.from_day) + timedelta(days=one.check_days)
            why = f"{one.name} last checked on {seen.day}" if seen else f"{one.name} never checked"
        else:
            continue
        if one.until_day is None or since <= one.until_day:
            yield None, Holding(since, one.until_day, why, "a check it passes, or another instrument")


@condition("instrument past its date", place=AppliesTo.FARM, tables=("instrument",))
def past_its_date(reader: Reader) -> Held:
    """The date printed on an instrument in service has gone by: from the day after until it is retired."""
    return by_place(_past_its_date(reader))


def _past_its_date(reader: Reader) -> Iterator[tuple[None, Holding]]:
    for one in instruments(reader):
        if one.expires_day is None:
            continue
        since = one.expires_day + timedelta(days=1)
        if one.until_day is None or since <= one.until_day:
            why = f"{one.name} past its date, {one.expires_day}"
            yield None, Holding(since, one.until_day, why, "another instrument")
