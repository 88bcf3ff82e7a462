"""What the tables say to each condition, and to the chores that follow from use and conditions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from farmops import library
from farmops.facts import chores, evidence
from farmops.facts.conditions import (
    CONDITIONS,
    following_from,
    of_drift,
    of_fish,
    of_papers,
    of_plantings,
    of_supplies,
    of_units,
    of_water,
    of_weather,
)
from farmops.model.chores import AppliesTo
from farmops.model.limits import Level
from farmops.model.readings import TEMPERATURES, Measure
from farmops.model.supplies import HeldBy
from farmops.model.usage import Counter
from farmops.quantities import TEMPERATURE, Measures
from farmops.quantities.readings import show_value
from farmops.quantities.supplies import held_of
from farmops.records.beds import BedRow
from farmops.records.chores import ChoreRow
from farmops.records.farm import FarmRow
from farmops.records.fish import FishLotRow, SampleWeighingRow
from farmops.records.harvests import HarvestRow
from farmops.records.notes import NoteRow
from farmops.records.plantings import CropRow, PlantingRow
from farmops.records.readings import ForecastRow, InstrumentCheckRow, InstrumentRow, ReadingRow, UsageRow
from farmops.records.supplies import PaperRow, SupplyLotRow, SupplyRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.schedule.rules import ByUse, Holding, Rule, Use, WhenHolds
from farmops.schedule.stored import rule_from
from tests.facts.of_books import held_day_by_day
from tests.facts.of_drifting import drifting_from, not_cycling
from tests.facts.of_limits import judged, limits_of, readings_in_order
from tests.facts.of_treatments import held_beds
from tests.facts.of_usage import fed_and_recorded, fed_in
from tests.facts.tables import Answer, Tables, columns, says
from tests.facts.walking import chore_of, in_order, unit_id_of

Found = dict[int | None, list[Holding]]
DAY = timedelta(days=1)


def _states(rows: Tables, unit: UnitRow) -> list[UnitStateRow]:
    return sorted((row for row in rows[UnitStateRow] if row.unit_id == unit.id), key=lambda row: row.from_day)


def _spans(rows: Tables, unit: UnitRow, wanted: tuple[str, ...]) -> list[tuple[date, date | None]]:
    """Day by day over the states' own span, which ends open when the last state is one of those wanted."""
    states = _states(rows, unit)
    if not states:
        return []
    last = states[-1].from_day
    days = [states[0].from_day + DAY * n for n in range((last - states[0].from_day).days + 1)]
    held = [day for day in days if [one for one in states if one.from_day <= day][-1].state in wanted]
    firsts = [day for day in held if day - DAY not in held]
    ends = [day for day in held if day + DAY not in held]
    return [(first, None if end == last else end) for first, end in zip(firsts, ends, strict=True)]


def held_cycling(rows: Tables) -> Found:
    """By unit."""
    found: Found = {}
    for unit in rows[UnitRow]:
        for since, until in _spans(rows, unit, ("cycling",)):
            found.setdefault(unit.id, []).append(Holding(since, until, f"{unit.code} cycling", "its next state"))
    return found


def held_without_baseline(rows: Tables) -> Found:
    """By unit."""
    found: Found = {}
    for unit in rows[UnitRow]:
        spans = _spans(rows, unit, ("cycling", "running"))
        media = any(bed.unit_id == unit.id and bed.kind == "media" for bed in rows[BedRow])
        if not spans or not media:
            continue
        parts = ("pump", "siphon", "media", "filter")
        altered = [note.day for note in rows[NoteRow] if note.unit_id == unit.id and note.changed in parts]
        begun = max([spans[0][0], *altered])
        timed = [one for one in rows[ReadingRow] if one.unit_id == unit.id and one.measure == "fill time"]
        number = sum(1 for one in timed if not altered or one.day >= max(altered))
        for since, until in spans:
            if number < 10 and (until is None or until >= begun):
                why = f"{unit.code} with {number} of 10 fill times read"
                found.setdefault(unit.id, []).append(Holding(max(since, begun), until, why, "the tenth fill time"))
    return found


def _plantings(
    rows: Tables, begins: Callable[[PlantingRow, date | None, library.CropFacts], date | None]
) -> Iterator[tuple[PlantingRow, str, date]]:
    for planting in rows[PlantingRow]:
        crop = rows.get(CropRow, planting.crop_id)
        facts = library.crop(crop.library_key) if crop.library_key else None
        picks = [one.day for one in rows[HarvestRow] if one.planting_id == planting.id]
        since = begins(planting, max(picks, default=None), facts) if facts else None
        if planting.cleared_day is None and since is not None:
            yield planting, crop.name, since


def _first_pick(planting: PlantingRow, facts: library.CropFacts, days: int | None) -> date | None:
    if days is None:
        return None
    sown = planting.started_by == "sowing" and facts.counted_from == "transplanting"
    return planting.started_day + DAY * (days + (facts.germination_days_low or 0 if sown else 0))


def held_ready(rows: Tables) -> Found:
    """By bed."""

    def begins(planting: PlantingRow, picked: date | None, facts: library.CropFacts) -> date | None:
        if picked is None:
            return _first_pick(planting, facts, facts.days_to_harvest_low)
        return picked + DAY * facts.pick_again_days if facts.pick_again_days else None

    found: Found = {}
    for planting, crop, since in _plantings(rows, begins):
        ends, why = "a weighing from it, or clearing", f"{crop} ready"
        for hold in sorted(held_beds(rows).get(planting.bed_id, []), key=lambda one: one.free_day):
            if hold.free_day > since:
                since, why = hold.free_day, f"{crop} ready, hold of {hold.treatment.product} over"
        found.setdefault(planting.bed_id, []).append(Holding(since, None, why, ends))
    return found


def held_overdue(rows: Tables) -> Found:
    """By bed."""

    def begins(planting: PlantingRow, picked: date | None, facts: library.CropFacts) -> date | None:
        if picked is not None and facts.pick_again_days:
            return None
        last = _first_pick(planting, facts, facts.days_to_harvest_high)
        return last + DAY if last else None

    found: Found = {}
    for planting, crop, since in _plantings(rows, begins):
        ends = "clearing, or a first weighing of what is cut again"
        found.setdefault(planting.bed_id, []).append(Holding(since, None, f"{crop} past its time", ends))
    return found


def _measures(rows: Tables) -> Measures:
    names = ("mass", "volume", "area", "length", "temperature", "currency", "decimal_comma")
    return Measures(**columns(rows.get(FarmRow, 1), *names))


def _foretold(rows: Tables, what: str, which: str, counts: Callable[[float], bool]) -> Found:
    found: Found = {}
    measures = _measures(rows)
    for row in sorted(rows[ForecastRow], key=lambda row: row.day):
        degrees = row.low_c if which == "low" else row.high_c
        if degrees is not None and counts(degrees):
            said = TEMPERATURE.show(degrees, measures)
            why = f"{what} to come, {which} of {said} on {row.day:%a} {row.day.day} {row.day:%b}"
            one = Holding(row.day - DAY, row.day, why, "the end of that day, or another forecast")
            found.setdefault(None, []).append(one)
    return found


def held_frost(rows: Tables) -> Found:
    """Of the farm."""
    return _foretold(rows, "frost", "low", lambda degrees: degrees <= 2)


def held_heat(rows: Tables) -> Found:
    """Of the farm."""
    return _foretold(rows, "heat", "high", lambda degrees: degrees >= 30)


def held_bad(rows: Tables, *levels: Level) -> Found:
    """By unit: the latest of each measure judged, and how far back those before it were bad too.

    Of temperatures only what was read on the last day on which any was.
    """
    limits, found = limits_of(rows, date.max), Found()
    for unit in sorted(rows[UnitRow], key=lambda row: rows.walking(row.id)):
        every = [row for row in readings_in_order(rows) if row.unit_id == unit.id]
        latest = {row.measure: row for row in every}
        for measure in Measure:
            last = latest.get(measure.value)
            verdict = last and judged(last, latest.values(), limits[unit.id])
            if last is None or verdict is None or not verdict.passed or verdict.level not in levels:
                continue
            if measure in TEMPERATURES and last.day < max(latest[one].day for one in TEMPERATURES if one in latest):
                continue
            since = last.day
            for row in reversed([row for row in every if row.measure == measure.value]):
                seen = judged(row, every, limits_of(rows, row.day)[unit.id])
                if seen is None or not seen.passed:
                    break
                since = row.day
            value = show_value(last.value, measure, _measures(rows))
            why = f"{unit.code} {measure} {value} on {last.day}, {verdict.level} for {verdict.passed[0].who}"
            one = Holding(since, None, why, "a reading within the limits")
            found.setdefault(unit.id, []).append(one)
    return found


def _instruments(rows: Tables) -> list[InstrumentRow]:
    return sorted(rows[InstrumentRow], key=lambda row: (row.from_day, row.id))


def held_check_due(rows: Tables) -> Found:
    """Of the farm."""
    found: list[Holding] = []
    for one in _instruments(rows):
        own = [row for row in rows[InstrumentCheckRow] if row.instrument_id == one.id]
        last = max(own, key=lambda row: (row.day, row.id), default=None)
        if last is not None and not last.passed:
            since, why = last.day, f"{one.name} failed its check on {last.day}"
        elif one.check_days:
            since = (last.day if last else one.from_day) + DAY * one.check_days
            why = f"{one.name} last checked on {last.day}" if last else f"{one.name} never checked"
        else:
            continue
        if since <= (one.until_day or date.max):
            found.append(Holding(since, one.until_day, why, "a check it passes, or another instrument"))
    return {None: found} if found else {}


def held_past(rows: Tables) -> Found:
    """Of the farm."""
    found = []
    for row in _instruments(rows):
        if row.expires_day is not None and row.expires_day < (row.until_day or date.max):
            why = f"{row.name} past its date, {row.expires_day}"
            found.append(Holding(row.expires_day + DAY, row.until_day, why, "another instrument"))
    return {None: found} if found else {}


def held_to_reorder(rows: Tables) -> Found:
    """Of the farm."""
    found = []
    for row in sorted(rows[SupplyRow], key=lambda row: row.name.lower()):
        days, level = held_day_by_day(rows, row), row.reorder_at
        if level is not None and days and days[-1].held <= level:
            above = [at for at, one in enumerate(days) if one.held > level]
            since = days[above[-1] + 1 if above else 0].day
            left = held_of(HeldBy(row.held_by), days[-1].held, row.name, _measures(rows))
            found.append(Holding(since, None, f"{left} left, to reorder", "a purchase, or a higher count"))
    return {None: found} if found else {}


def held_supply_past(rows: Tables) -> Found:
    """Of the farm."""
    found = []
    for supply in rows[SupplyRow]:
        left = ([0] + [one.held for one in held_day_by_day(rows, supply)])[-1]
        own = [row for row in rows[SupplyLotRow] if row.supply_id == supply.id]
        for row in sorted(own, key=lambda row: (row.day, row.id), reverse=True):
            if left > 0 and row.expires_day is not None:
                which = f"{supply.name}, lot {row.lot_code}," if row.lot_code else f"{supply.name} of {row.day}"
                ends = "using it up, throwing it away, or a count"
                found.append(Holding(row.expires_day + DAY, None, f"{which} past its date", ends))
            left -= row.amount
    return {None: found} if found else {}


def joined(*some: Found) -> Found:
    """Holdings of several kinds, place by place."""
    return {place: [one for held in some for one in held.get(place, [])] for held in some for place in held}


def held_papers(rows: Tables) -> Found:
    """Of the farm: the last of each kind, name and unit, from 30 days before it ends."""
    last = {(row.kind, row.name, row.unit_id): row for row in sorted(rows[PaperRow], key=lambda row: row.from_day)}
    ending = sorted((row for row in last.values() if row.until_day), key=lambda row: (row.kind, row.name, row.from_day))
    why = "{0.kind} {0.name} is good until {0.until_day:%a} {0.until_day.day} {0.until_day:%b}"
    found = [Holding(row.until_day - 30 * DAY, None, why.format(row), "its renewal") for row in ending]
    return {None: found} if found else {}


def held_due_for_a_weighing(rows: Tables) -> Found:
    """By unit."""
    found: Found = {}
    for lot in rows[FishLotRow]:
        sampled = [row.day for row in rows[SampleWeighingRow] if row.fish_lot_id == lot.id]
        since = max(sampled, default=lot.stocked_day) + 30 * DAY
        if lot.closed_day is None or since <= lot.closed_day:
            why = f"{lot.code} not weighed for a month"
            holding = Holding(since, lot.closed_day, why, "a weighing of it")
            found.setdefault(rows.places(lot.id)[-1].unit_id, []).append(holding)
    return found


HELD: dict[str, Callable[[Tables], Found]] = {
    "paper running out": held_papers,
    "lot due for a weighing": held_due_for_a_weighing,
    "unit cycling": held_cycling,
    "unit without its baseline": held_without_baseline,
    "planting ready": held_ready,
    "planting overdue": held_overdue,
    "reading out of limits": lambda rows: held_bad(rows, Level.HARMFUL, Level.DANGEROUS),
    "reading to watch": lambda rows: held_bad(rows, Level.WATCH),
    "instrument check due": held_check_due,
    "instrument past its date": held_past,
    "supply to reorder": held_to_reorder,
    "supply past its date": held_supply_past,
    "filling slower": lambda rows: joined(drifting_from(rows, "fill time", 1), drifting_from(rows, "flow", -1)),
    "filling faster": lambda rows: drifting_from(rows, "fill time", -1),
    "draining slower": lambda rows: drifting_from(rows, "drain time", 1),
    "siphon dribbling": not_cycling,
    "frost to come": held_frost,
    "heat to come": held_heat,
}
READ = {
    "lot due for a weighing": of_fish.due_for_a_weighing,
    "unit cycling": of_units.cycling,
    "unit without its baseline": of_units.without_baseline,
    "planting ready": of_plantings.ready,
    "planting overdue": of_plantings.overdue,
    "reading out of limits": of_water.out_of_limits,
    "reading to watch": of_water.to_watch,
    "instrument check due": of_water.check_due,
    "instrument past its date": of_water.past_its_date,
    "supply to reorder": of_supplies.to_reorder,
    "supply past its date": of_supplies.past_date,
    "filling slower": of_drift.filling_slower,
    "filling faster": of_drift.filling_faster,
    "draining slower": of_drift.draining_slower,
    "siphon dribbling": of_drift.dribbling,
    "paper running out": of_papers.running_out,
    "frost to come": of_weather.frost,
    "heat to come": of_weather.heat,
}
for name, read in READ.items():
    says(read)(lambda rows, held=HELD[name]: iter([((), held(rows))]))


@says(evidence.holding_now)
def what_holds(rows: Tables) -> Iterator[Answer]:
    yield ([],), {}
    yield (["no such thing"],), {}
    yield (list(HELD),), {name: held(rows) for name, held in HELD.items()}


def rule_of(rows: Tables, row: ChoreRow) -> Rule:
    """The rule of a chore with its evidence, row by row."""
    rule = rule_from(row.rule_kind, row.rule_text, row.start_day)
    if isinstance(rule, ByUse):
        return replace(rule, record=_used(rows, unit_id_of(rows, row), rule.counter))
    if isinstance(rule, WhenHolds) and rule.condition in HELD:
        held = HELD[rule.condition](rows)
        here = [one for place in held if _concerns(rows, row, rule.condition, place) for one in held[place]]
        return replace(rule, holdings=tuple(sorted(here, key=lambda one: (one.since, one.why))))
    return rule


def _used(rows: Tables, unit_id: int | None, counter: Counter) -> tuple[Use, ...]:
    own = [row for row in rows[UsageRow] if (row.unit_id, row.counter) == (unit_id, counter.value)]
    booked = [Use(day, sum(row.amount for row in own if row.day == day)) for day in sorted({row.day for row in own})]
    fed = fed_in(rows, unit_id) if counter is Counter.FEED and unit_id is not None else []
    return tuple(fed_and_recorded(booked, fed) if fed else booked)


def _concerns(rows: Tables, row: ChoreRow, condition: str, place: int | None) -> bool:
    unit_id, kind = unit_id_of(rows, row), CONDITIONS[condition].place
    if kind is AppliesTo.FARM or unit_id is None:
        return True
    if kind is AppliesTo.UNIT:
        return place == unit_id
    return place == row.bed_id if row.bed_id is not None else rows.get(BedRow, place).unit_id == unit_id


@says(evidence.rules_of)
def rules_with_their_evidence(rows: Tables) -> Iterator[Answer]:
    yield ([],), []
    every = [chore_of(rows, row) for row in in_order(rows)]
    yield (every,), [rule_of(rows, rows.get(ChoreRow, one.id)) for one in every]
    for one in every:
        yield ([one],), [rule_of(rows, rows.get(ChoreRow, one.id))]


@says(chores.ids_by_use_in)
def chores_by_use(rows: Tables) -> Iterator[Answer]:
    yield ([],), set()
    for unit in rows[UnitRow]:
        own = [row for row in rows[ChoreRow] if row.rule_kind == "use" and unit_id_of(rows, row) == unit.id]
        yield ([unit.id],), {row.id for row in own}
    counted = {row.id for row in rows[ChoreRow] if row.rule_kind == "use"}
    yield ([unit.id for unit in rows[UnitRow]],), counted


@says(chores.ids_while)
def chores_while(rows: Tables) -> Iterator[Answer]:
    yield ([],), set()
    for names in ([], ["planting ready"], following_from({"unit_state", "forecast"}), list(CONDITIONS)):
        yield (names,), {row.id for row in rows[ChoreRow] if row.rule_kind == "when" and row.rule_text in names}
