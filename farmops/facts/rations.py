"""The ration of every lot on a day: from number, weight and temperature, held down by all that a unit can take."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import readings as reading_facts
from farmops.facts.limits import limits_on
from farmops.facts.live_fish import LiveLot, live_on
from farmops.facts.verdicts import Beside, verdict_of
from farmops.library.feeding_temperatures import fed_between
from farmops.library.species_facts import SpeciesFacts, species
from farmops.library.water_limits import FILTER, PLANTS
from farmops.model.beds import BedKind
from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.model.limits import Level, Limit
from farmops.model.rations import Cap, LotRation
from farmops.model.readings import TEMPERATURES, Measure, Reading
from farmops.records.reading import Reader
from farmops.science.rations import (
    GROWING_TABLE,
    TILAPIA_TABLE,
    FeedingTemperatures,
    beds_take_g,
    filter_takes_g,
    helpers_temperatures,
    ration,
)

READ_DAYS = 14
"""Common practice, no source: a reading older than this says nothing of the water of today."""
TILAPIA = "nile-tilapia"
BEFORE_HANDLING = "fish-sample"
"""The template of the chore before which fish are not fed for a day."""
MG_PER_G, MM2_PER_M2, UM_PER_MM, MM3_PER_L = 1000, 1_000_000, 1000, 1_000_000
BEDS = """
    SELECT bed.unit_id, bed.kind, bed_size.area_mm2, bed.depth_um
    FROM bed JOIN bed_size ON bed_size.bed_id = bed.id AND bed_size.from_day = (
        SELECT MAX(held.from_day) FROM bed_size AS held WHERE held.bed_id = bed.id AND held.from_day <= :on_day
    )
    ORDER BY bed.id
"""
HANDLED = "SELECT unit_id, fish_lot_id FROM chore WHERE template_key = :template AND next_due = :day"
FED = """
    SELECT fish_lot_id, CAST(SUM(mass_mg) AS BIGINT) AS mass_mg FROM feeding WHERE day = :on_day GROUP BY fish_lot_id
"""


@dataclass(frozen=True, slots=True)
class Unit:
    """What holds the rations of a unit down: what its beds and its filter take, None where it has none; the water."""

    beds_g: float | None
    filter_g: float | None
    warmth: Reading | None
    out: Measure | None
    handled: bool


def rations(reader: Reader, on: date) -> list[LotRation]:
    """The ration of every lot that is alive on a day, in walking order."""
    lots = live_on(reader, on)
    if not lots:
        return []
    fed = {row["fish_lot_id"]: row["mass_mg"] / MG_PER_G for row in reader.rows(FED, on_day=on)}
    units = _units(reader, {one.unit_id for one in lots}, on)
    handled = {row["fish_lot_id"] for row in _handled(reader, on)}
    alone = [_alone(one, units[one.unit_id], one.lot_id in handled) for one in lots]
    return [replace(one, fed_g=fed.get(one.lot_id, 0.0)) for one in _together(alone, units)]


def _handled(reader: Reader, on: date) -> list[dict[str, int | None]]:
    return list(reader.rows(HANDLED, template=BEFORE_HANDLING, day=on + timedelta(days=1)))


def _units(reader: Reader, wanted: Iterable[int], on: date) -> dict[int, Unit]:
    read: dict[int, list[Reading]] = defaultdict(list)
    for one in reading_facts.latest(reader, on):
        read[one.unit_id].append(one)
    beds: dict[int, list[dict[str, int]]] = defaultdict(list)
    for row in reader.rows(BEDS, on_day=on):
        beds[row["unit_id"]].append(row)
    limits, handled = limits_on(reader, on), {row["unit_id"] for row in _handled(reader, on)}
    return {
        id: Unit(*_takes(beds[id]), _warmth(read[id], on), _out(read[id], limits.get(id, ())), id in handled)
        for id in wanted
    }


def _takes(beds: Sequence[Mapping[str, int]]) -> tuple[float | None, float | None]:
    """What the beds of a unit and its filter take [g a day]."""
    areas: dict[bool, float] = defaultdict(float)
    media_l = 0.0
    for bed in beds:
        kind, area = BedKind(str(bed["kind"])), bed["area_mm2"] / MM2_PER_M2
        areas[kind is BedKind.RAFT] += area
        if kind is BedKind.MEDIA and bed["depth_um"]:
            media_l += bed["area_mm2"] * bed["depth_um"] / UM_PER_MM / MM3_PER_L
    takes = beds_take_g(raft_m2=areas[True], other_m2=areas[False]) if beds else None
    return takes, filter_takes_g(media_l) if media_l else None


def _warmth(read: Sequence[Reading], on: date) -> Reading | None:
    fresh = (one for one in read if (on - one.day).days <= READ_DAYS)
    return next((one for one in fresh if one.measure is Measure.TEMPERATURE), None)


def _out(read: Sequence[Reading], limits: Sequence[Limit]) -> Measure | None:
    """What stops the feed until it is read again; the temperature has its own cap.

    It is harmful or worse for the fish as it was read last, or what to do first about it is not to feed.
    """
    beside = Beside(read)
    for one in read:
        verdict = None if one.measure in TEMPERATURES else verdict_of(one, beside, limits)
        if verdict is not None and any(_harms_fish(limit) or limit.stops_feed for limit in verdict.passed):
            return one.measure
    return None


def _harms_fish(limit: Limit) -> bool:
    return limit.level in (Level.HARMFUL, Level.DANGEROUS) and limit.who not in (FILTER, PLANTS)


def _alone(lot: LiveLot, unit: Unit, handled: bool) -> LotRation:
    """The ration of a lot by itself; in water that stops the feed it is nothing, whatever else is not known."""
    found = _by_table(lot, unit, handled)
    return _held(replace(found, missing=None), [(Cap.READING, 0.0)]) if unit.out and found.missing else found


def _by_table(lot: LiveLot, unit: Unit, handled: bool) -> LotRation:
    """The ration of a lot: table, temperature, water, handling."""
    start = LotRation(lot.lot_id, lot.code, lot.unit_id, None, out=unit.out)
    facts = species(lot.library_key or lot.species)
    temperatures = feeding_temperatures(facts)
    if temperatures is None:
        return replace(start, missing=f"how warm {lot.species} want it to eat is not in the tables")
    if unit.warmth is None:
        return replace(start, missing=f"no water temperature was read in {READ_DAYS} days")
    table = TILAPIA_TABLE if facts and facts.key == TILAPIA else GROWING_TABLE
    mean_g, warm = lot.mean_mg / MG_PER_G, unit.warmth.value
    try:
        found = ration(lot.number, mean_g, warm, temperatures=temperatures, table=table)
        full = ration(lot.number, mean_g, temperatures.best_low_c, temperatures=temperatures, table=table)
    except OutOfRange as error:
        return replace(start, missing=str(error))
    caps = [(Cap.TABLE, full.grams), (Cap.TEMPERATURE, found.grams)]
    caps += [(Cap.READING, 0.0)] if unit.out else []
    caps += [(Cap.HANDLING, 0.0)] if unit.handled or handled else []
    known = replace(start, temperature_c=warm, read_day=unit.warmth.day, feeds_a_day=found.feeds_a_day)
    return _held(known, caps)


def _held(one: LotRation, caps: Sequence[tuple[Cap, float]]) -> LotRation:
    """The ration held to the least of its caps, in whole grams, rounded down."""
    least = min(grams for _, grams in caps)
    at_least = [cap for cap, grams in caps if math.isclose(grams, least)]
    order = [Cap.TABLE, *Cap] if least > 0 else list(Cap)
    return replace(one, grams=math.floor(least), cap=min(at_least, key=order.index), caps=tuple(caps))


def _together(alone: Sequence[LotRation], units: Mapping[int, Unit]) -> Iterator[LotRation]:
    """The rations of the lots of a unit, each held to its part of what beds and filter take."""
    wanted: dict[int, float] = defaultdict(float)
    for one in alone:
        wanted[one.unit_id] += min((grams for _, grams in one.caps), default=0.0)
    for one in alone:
        unit, total = units[one.unit_id], wanted[one.unit_id]
        if one.grams is None or not total:
            yield one
            continue
        part = min(grams for _, grams in one.caps) / total
        takes = ((Cap.BEDS, unit.beds_g), (Cap.FILTER, unit.filter_g))
        yield _held(one, [*one.caps, *((cap, grams * part) for cap, grams in takes if grams is not None)])


def feeding_temperatures(facts: SpeciesFacts | None) -> FeedingTemperatures | None:
    """Where a species is fed: as the table of feeding says, else half way to where it dies; None: nothing known."""
    if facts is None:
        return None
    told = fed_between(facts.key)
    if told is not None:
        return FeedingTemperatures(told.best_low_c, told.best_high_c, told.stop_below_c, told.stop_above_c)
    low, high, vital_low, vital_high = facts.best_low_c, facts.best_high_c, facts.vital_low_c, facts.vital_high_c
    if low is None or high is None or vital_low is None or vital_high is None:
        return None
    return helpers_temperatures(best_low_c=low, best_high_c=high, lethal_low_c=vital_low, lethal_high_c=vital_high)
