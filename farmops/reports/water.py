"""The water of the units: the latest readings, each judged for those who live there, and what is typed now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from datetime import date, timedelta

from farmops.facts import farm as farm_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import readings as reading_facts
from farmops.facts import units as unit_facts
from farmops.facts.limits import LimitsOfDays, limits_on
from farmops.facts.reading import Reader, Store
from farmops.facts.verdicts import DECIDES_AMMONIA, Beside, verdict_of
from farmops.model.errors import FarmopsError, Unlikely
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.instruments import Instrument
from farmops.model.limits import Level, Limit, Side, Verdict
from farmops.model.readings import FRESH_DAYS, TEMPERATURES, Form, Measure, NewReading, Reading, form_of
from farmops.model.units import Unit
from farmops.quantities import Measures
from farmops.quantities.readings import parse_reading, question, show_number, show_value
from farmops.science.judging import as_nitrogen, judge, limited


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading judged, in words; `level` None where nobody there has a limit on it. `first` is what to do first.

    `brief` says the same as `says` beside the value.
    """

    level: Level | None
    says: str = ""
    brief: str = ""
    first: str = ""
    source: str = ""

    @property
    def bad(self) -> bool:
        """Whether a limit is passed."""
        return self.level not in (None, Level.GOOD)


@dataclass(frozen=True, slots=True)
class WaterLine:
    """One reading and how it is judged."""

    reading: Reading
    judged: Judged


@dataclass(frozen=True, slots=True)
class UnitWater:
    """The water of one unit: the limits of those who live in it, and the latest reading of each measure."""

    unit: Unit
    limits: tuple[Limit, ...]
    latest: tuple[Reading, ...]

    @property
    def beside(self) -> Beside:
        """What the latest ammonia is judged by."""
        return Beside(self.latest)


@dataclass(frozen=True, slots=True)
class Waters:
    """The water of every unit on a day, in walking order, the form in which each nitrogen kit reports, and what each
    measure is read with.
    """

    farm: Farm
    on: date
    units: tuple[UnitWater, ...]
    forms: Mapping[Measure, Form] = field(default_factory=dict)
    usual: Mapping[Measure, Instrument] = field(default_factory=dict)

    def of(self, unit_id: int | None) -> UnitWater | None:
        """The water of that unit; None where it is not known which."""
        return next((one for one in self.units if one.unit.id == unit_id), None)

    def band(self, unit_id: int, measure: Measure) -> tuple[float | None, float | None]:
        """Between which values a measure is good for all who live in a unit; None where no limit is known.

        Limits on toxic ammonia are left out, since they move with pH and temperature.
        """
        water = self.of(unit_id)
        own = [one for one in water.limits if one.measure is limited(measure) and not one.toxic] if water else []
        low = [one.at for one in own if one.side is Side.BELOW]
        high = [as_nitrogen(one.measure, one.at, one.form) for one in own if one.side is Side.ABOVE]
        return max(low, default=None), min(high, default=None)

    def lines(self, code: str | None = None) -> list[WaterLine]:
        """The latest reading of each measure, judged: of one unit, or of all."""
        measures = self.farm.measures
        return [
            WaterLine(one, judged_among(one, water.beside, water.limits, measures))
            for water in self.units
            if code in (None, water.unit.code)
            for one in water.latest
        ]


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading as it is being typed: what would be booked, what it is stored as, and how it is judged."""

    reading: NewReading
    value: float
    judged: Judged


def waters_of(store: Store, on: date | None = None) -> Waters:
    """The water of every unit on a day. Raises NoFarm."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        return waters_on(reader, farm, on or farm.today())


def waters_on(reader: Reader, farm: Farm, day: date) -> Waters:
    """The water of every unit on a day, read among other things."""
    limits = limits_on(reader, day)
    latest = reading_facts.latest(reader, day)
    units = tuple(
        UnitWater(unit, limits[unit.id], tuple(one for one in latest if one.unit_id == unit.id))
        for unit in unit_facts.units(reader)
    )
    usual = instrument_facts.read_with(reader, day)
    forms = {one: held.form for one, held in usual.items() if held.form is not None}
    return Waters(farm, day, units, reading_facts.last_forms(reader) | forms, usual)


def series_of(
    store: Store, first: date, last: date, unit_id: int | None = None, measure: Measure | None = None
) -> list[WaterLine]:
    """The readings of a span, oldest first, each judged by the pH and the temperature of its time."""
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        found = reading_facts.readings(reader, first, last, unit_id, measure)
        beside, limits = _beside(reader, first, last, unit_id, measure), LimitsOfDays(reader)
        return _judged_each(found, beside, limits, measures)


def _judged_each(found: Sequence[Reading], beside: Beside, limits: LimitsOfDays, measures: Measures) -> list[WaterLine]:
    """Each reading judged by the limits of its own day."""
    return [WaterLine(one, judged_among(one, beside, limits.of(one.unit_id, one.day), measures)) for one in found]


def readings_of(store: Store, settlements: Iterable[int]) -> list[Reading]:
    """What was read while those doings of chores were done."""
    with store.reading() as reader:
        return reading_facts.of_settlements(reader, settlements)


def judged_lines(store: Store, readings: Sequence[Reading]) -> list[WaterLine]:
    """Readings, each judged by what else was read of its unit around its day."""
    if not readings:
        return []
    first, last = min(one.day for one in readings), max(one.day for one in readings)
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        beside, limits = _beside(reader, first, last, None, None), LimitsOfDays(reader)
        return _judged_each(readings, beside, limits, measures)


def taken(
    text: str,
    measure: Measure,
    waters: Waters,
    unit_id: int | None,
    beside: Mapping[Measure, str],
    *,
    sure: bool = False,
) -> Taken:
    """What is typed for a measure of a unit, judged with what is typed `beside` it; of no unit yet, not judged.

    Raises:
        NotUnderstood, OutOfRange: it is no reading, or cannot be.
        Unlikely: it hardly can be; `sure` books it all the same.
    """
    measures = waters.farm.measures
    read = parse_reading(text, measure, measures)
    form = form_of(measure, read.form, waters.forms)
    value = as_nitrogen(measure, read.value, form)
    asked = question(value, measure, measures)
    if asked and not sure:
        raise Unlikely(asked)
    verdict = _judge_typed(measure, value, waters.of(unit_id), waters.on, beside, measures)
    return Taken(NewReading(measure, read.value, text.strip(), form, sure=sure), value, in_words(verdict, measures))


def _judge_typed(
    measure: Measure,
    value: float,
    water: UnitWater | None,
    day: date,
    beside: Mapping[Measure, str],
    measures: Measures,
) -> Verdict | None:
    if water is None:
        return None
    near, found = water.beside, {one: _typed(one, beside, measures) for one in DECIDES_AMMONIA}
    ph, warm = (near.nearest(water.unit.id, one, day) if seen is None else seen for one, seen in found.items())
    return judge(measure, value, water.limits, ph=ph, temperature_c=warm)


def _typed(measure: Measure, beside: Mapping[Measure, str], measures: Measures) -> float | None:
    try:
        return parse_reading(beside[measure], measure, measures).value if measure in beside else None
    except FarmopsError:
        return None


def judged_among(one: Reading, beside: Beside, limits: Sequence[Limit], measures: Measures) -> Judged:
    """A reading judged by the pH and the temperature that were read nearest to it in its unit."""
    return in_words(verdict_of(one, beside, limits), measures)


def in_words(verdict: Verdict | None, measures: Measures) -> Judged:
    """A verdict as a person reads it."""
    if verdict is None:
        return Judged(None)
    if not verdict.passed:
        wanting = " and ".join(verdict.lacking)
        return Judged(Level.GOOD, f"good so far; {wanting} would tell more" if wanting else "good", "good")
    limit = verdict.passed[0]
    memory = " (from memory)" if limit.remembered else ""
    value, at = _counted_words(limit, verdict.counted, measures), _limit_words(limit, measures)
    start, end = f"{limit.level} for {_who(verdict)}:", f"{limit.side} {at}"
    counted = f"{value}, " if limit.toxic or limit.form is Form.AS_ION else ""
    return Judged(
        limit.level,
        f"{start} {value} is {end}{memory}, {limit.why}",
        f"{start} {counted}{end}{memory}",
        f"First: {limit.first}.",
        limit.source,
    )


def _who(verdict: Verdict) -> str:
    """Who is at risk as much as the first; fish in general are not named beside their kind."""
    named = dict.fromkeys(limit.who for limit in verdict.passed if limit.level is verdict.level)
    kinds = [who for who in named if who != "fish"] if len(named) > 1 else list(named)
    return " and ".join(kinds)


def _counted_words(limit: Limit, counted: float, measures: Measures) -> str:
    if limit.toxic:
        return f"{show_number(counted, measures)} mg/L toxic ammonia"
    if limit.form is Form.AS_ION:
        return f"{show_number(counted, measures)} mg/L as ion"
    return show_value(counted, limit.measure, measures)


def _limit_words(limit: Limit, measures: Measures) -> str:
    if limit.measure in TEMPERATURES:
        return show_value(limit.at, limit.measure, measures)
    return show_number(limit.at, measures)


def _beside(reader: Reader, first: date, last: date, unit_id: int | None, measure: Measure | None) -> Beside:
    """pH and temperature of a span and a little around it, where ammonia is to be judged by them."""
    if measure not in (None, Measure.AMMONIA):
        return Beside(())
    span = timedelta(days=FRESH_DAYS)
    before = max(first, date.min + span) - span
    after = min(last, date.max - span) + span
    found = (reading_facts.readings(reader, before, after, unit_id, one) for one in DECIDES_AMMONIA)
    return Beside(tuple(one for readings in found for one in readings))
