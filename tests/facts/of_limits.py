"""What the tables say of limits: of who lives where on a day, and of what the grower has set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from farmops import library
from farmops.facts import limits
from farmops.library.water_limits import first_step
from farmops.model.limits import Level, Limit, OwnLimit, Side, Verdict
from farmops.model.readings import FRESH_DAYS, Measure
from farmops.records.fish import FishLotRow
from farmops.records.readings import LimitRow, ReadingRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.science.judging import judge
from tests.facts.tables import DAYS, Answer, Tables, columns, says


def _own(rows: Tables, row: LimitRow) -> OwnLimit:
    unit = rows.find(UnitRow, row.unit_id)
    measure = Measure(row.measure)
    return OwnLimit(
        **columns(row, "id", "from_day", "unit_id", "low", "high", "note"), unit=unit and unit.code, measure=measure
    )


@says(limits.own_limits)
def every_own_limit(rows: Tables) -> Iterator[Answer]:
    yield (), [_own(rows, row) for row in sorted(rows[LimitRow], key=lambda row: (row.from_day, row.id))]


@says(limits.own_limit)
def each_own_limit(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[LimitRow]:
        yield (row.id,), _own(rows, row)


def _in_force(rows: Tables, unit: int, on: date) -> Iterator[LimitRow]:
    """Of each measure the unit's latest, or else the farm's; the farm's come in the order of their days."""
    begun = [row for row in rows[LimitRow] if row.from_day <= on]
    of_farm = sorted((row for row in begun if row.unit_id is None), key=lambda row: (row.from_day, row.id))
    of_unit = sorted((row for row in begun if row.unit_id == unit), key=lambda row: (row.from_day, row.id))
    for measure in dict.fromkeys(row.measure for row in [*of_farm, *of_unit]):
        yield [row for row in [*of_farm, *of_unit] if row.measure == measure][-1]


def _sides(row: LimitRow) -> Iterator[Limit]:
    measure = Measure(row.measure)
    for side, at in ((Side.BELOW, row.low), (Side.ABOVE, row.high)):
        first = first_step(measure, side) or "read again to be sure, then look for what changed"
        if at is not None:
            since = f"your own limit of {measure} since {row.from_day}"
            yield Limit("your own limit", measure, side, at, Level.WATCH, f"set on {row.from_day}", first, since, False)


def limits_of(rows: Tables, on: date) -> dict[int, tuple[Limit, ...]]:
    """By unit, all that hold there on a day."""
    found = {}
    for unit in rows[UnitRow]:
        states = [row for row in rows[UnitStateRow] if row.unit_id == unit.id and row.from_day <= on]
        state = max(states, key=lambda row: row.from_day).state if states else ""
        lots = [row for row in rows[FishLotRow] if _lives_in(rows, row, on) == unit.id]
        keys = [row.library_key for row in sorted(lots, key=lambda row: (row.stocked_day, row.id)) if row.library_key]
        wet = state in ("cycling", "running", "wintering") and unit.kind != "hydroponic"
        green = state in ("running", "wintering") and unit.kind in ("coupled", "hydroponic")
        living = library.limits_for(keys, fish=bool(lots), bacteria=wet, plants=green)
        own = [limit for row in _in_force(rows, unit.id, on) for limit in _sides(row)]
        found[unit.id] = (*living, *own)
    return found


def _lives_in(rows: Tables, lot: FishLotRow, on: date) -> int | None:
    place = rows.place_on(lot.id, on)
    alive = lot.stocked_day <= on <= (lot.closed_day or date.max)
    return place.unit_id if alive and place else None


@says(limits.limits_on)
def limits_of_days(rows: Tables) -> Iterator[Answer]:
    for day in (*DAYS, date.max):
        yield (day,), limits_of(rows, day)


def readings_in_order(rows: Tables) -> list[ReadingRow]:
    """Every reading by day and hour; one without an hour stands after those booked before it on its day."""
    return sorted(rows[ReadingRow], key=lambda row: (row.day, minute_of(rows, row), row.id))


def minute_of(rows: Tables, row: ReadingRow) -> int:
    """The hour of a reading; one without takes the latest of those booked before it on its day."""
    if row.minute is not None:
        return row.minute
    alike = (
        one for one in rows[ReadingRow] if (one.unit_id, one.measure, one.day) == (row.unit_id, row.measure, row.day)
    )
    return max((one.minute for one in alike if one.id < row.id and one.minute is not None), default=-1)


def judged(row: ReadingRow, among: Iterable[ReadingRow], own: tuple[Limit, ...]) -> Verdict | None:
    """A reading judged by the pH and temperature that lie nearest to it, the earlier and then the last of a day."""

    def nearest(measure: str) -> float | None:
        fresh = timedelta(days=FRESH_DAYS)
        near = [one for one in among if one.measure == measure and abs(one.day - row.day) <= fresh]
        best = min(near, key=lambda one: (abs(one.day - row.day), one.day), default=None)
        same = [one for one in near if best is not None and one.day == best.day]
        on_day = same if best is None or best.day <= row.day else same[:1]
        return on_day[-1].value if on_day else None

    measure = Measure(row.measure)
    beside = (nearest("pH"), nearest("temperature")) if measure is Measure.AMMONIA else (None, None)
    return judge(measure, row.value, own, ph=beside[0], temperature_c=beside[1])
