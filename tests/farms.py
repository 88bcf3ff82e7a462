"""Farms of every shape for property tests, each carried out in a single transaction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import TypeVar

from hypothesis import strategies as st

from farmops.facts.conditions import CONDITIONS
from farmops.farm import beds, chores, costs, fish, forecasts, harvests, plantings, readings, sales, units, usage
from farmops.farm.operation import Operation, OperationFunction, operation
from farmops.model.beds import NewBed, NewBedSize
from farmops.model.chores import ChoreClass, NewChore, NewPause, SettledAs, Settling
from farmops.model.costs import CostKind, NewCost, NewPrice
from farmops.model.fish import FishLotChange, NewFishLot
from farmops.model.forecasts import Degrees, NewForecast
from farmops.model.harvests import NewHarvest, Use
from farmops.model.plantings import NewCrop, NewPlanting, PlantingChange
from farmops.model.readings import LIKELY, Form, Measure, NewReading, NewReadings
from farmops.model.sales import NewSale, NewSaleLine, SoldBy, Terms
from farmops.model.units import NewState, NewUnit, UnitState
from farmops.model.usage import Counter, NewUsage
from farmops.model.values import Measured
from farmops.records.store import Store
from tests.farmhand import ADA, open_farm

E = TypeVar("E")
R = TypeVar("R")
FIRST, LAST = date(2026, 1, 1), date(2026, 10, 14)
SPECIES = ("yellow perch", "rainbow trout")
RULES = ("day", "Mon Thu", "month on the 31st", "14 days after", "1 month after", "once")
BY_USE = ("10 pump hours", "40 pump hours or 3 months", "1000 siphon cycles", "1 kg fed")
WHILE = tuple(f"when {name}" for name in CONDITIONS)
days = st.dates(FIRST, LAST)
STATES = [state for state in UnitState if state is not UnitState.RETIRED]


@dataclass(frozen=True)
class Script:
    """What happens on a farm; numbers point to what was made before, counted round and round."""

    states: list[list[tuple[date, UnitState]]]
    sizes: list[tuple[int, list[tuple[date, int]]]]
    plantings: list[tuple[int, int, date, int | None, int | None]]
    lots: list[tuple[int, int, date, int | None]]
    weighings: list[tuple[int, int, int, Use]]
    paid: list[tuple[date, int, int | None, int | None, int]]
    prices: list[tuple[int, date, int, int]]
    sold: list[tuple[int, int, int | None, int, int, int]]
    used: list[tuple[int, Counter, date, int]]
    foretold: list[tuple[date, int]]
    read: list[tuple[int, Measure, date, int | None, Form | None]]
    chores: list[tuple[int, str, date, ChoreClass]]
    settled: list[tuple[int, date, SettledAs, int]]
    paused: list[tuple[int, date, int | None]]


@st.composite
def scripts(draw: st.DrawFn) -> Script:
    """Farms of one to three units; what costs, brings and is due is drawn freely."""
    small, maybe = st.integers(0, 5), st.none() | st.integers(0, 200)
    states = st.lists(st.tuples(days, st.sampled_from(STATES)), min_size=1, max_size=4, unique_by=lambda one: one[0])
    sizes = st.lists(st.tuples(days, st.integers(1, 5_000_000)), max_size=3, unique_by=lambda one: one[0])
    life = st.none() | st.integers(1, 40)
    return Script(
        states=draw(st.lists(states, min_size=1, max_size=3)),
        sizes=draw(st.lists(st.tuples(small, sizes), max_size=4)),
        plantings=draw(st.lists(st.tuples(small, small, days, maybe, st.none() | st.integers(1, 10**6)), max_size=5)),
        lots=draw(st.lists(st.tuples(small, st.integers(0, 1), days, maybe), max_size=3)),
        weighings=draw(
            st.lists(
                st.tuples(small, st.integers(0, 300), st.integers(1, 3_000_000), st.sampled_from(Use)), max_size=10
            )
        ),
        paid=draw(
            st.lists(st.tuples(days, st.integers(1, 100_000), st.none() | small, life, st.integers(0, 99)), max_size=8)
        ),
        prices=draw(st.lists(st.tuples(small, days, st.integers(0, 900), st.integers(1, 10**6)), max_size=6)),
        sold=draw(
            st.lists(
                st.tuples(
                    small,
                    st.integers(0, 300),
                    st.none() | st.integers(1, 3_000_000),
                    st.integers(1, 40),
                    st.integers(0, 9_999),
                    st.integers(0, 40),
                ),
                max_size=6,
            )
        ),
        used=draw(st.lists(st.tuples(small, st.sampled_from(Counter), days, st.integers(1, 1_440)), max_size=8)),
        foretold=draw(st.lists(st.tuples(days, st.integers(-8, 40)), max_size=4)),
        read=draw(
            st.lists(
                st.tuples(small, st.sampled_from(Measure), days, st.none() | small, st.none() | st.sampled_from(Form)),
                max_size=10,
            )
        ),
        chores=draw(
            st.lists(
                st.tuples(small, st.sampled_from((*RULES, *BY_USE, *WHILE)), days, st.sampled_from(ChoreClass)),
                max_size=4,
            )
        ),
        settled=draw(st.lists(st.tuples(small, days, st.sampled_from(SettledAs), st.integers(0, 9)), max_size=6)),
        paused=draw(st.lists(st.tuples(small, days, maybe), max_size=2)),
    )


def carry_out(store: Store, script: Script, zone: str = "America/New_York") -> None:
    """Open a farm in an empty store and let all of it happen at once."""
    open_farm(store, zone)
    happen(store, script, by=ADA)


def do(op: Operation, function: OperationFunction[E, R], entry: E) -> R:
    """One change within another operation."""
    return function.body(op, entry)


@operation("a farm at once")
def happen(op: Operation, script: Script) -> None:
    """Everything a script says, in one operation."""
    rows = _units(op, script)
    _beds(op, script, rows)
    spans = _living(op, script, rows)
    _weighings(op, script, spans)
    _sales(op, script, spans)
    _money(op, script, rows)
    _evidence(op, script, rows)
    _chores(op, script, rows)


def _pick(things: Sequence[R], number: int) -> R:
    return things[number % len(things)]


def _units(op: Operation, script: Script) -> list[int]:
    found = []
    for number, states in enumerate(script.states):
        (first, state), *later = sorted(states)
        entry = NewUnit(f"U{number}", first, state=state, position=3 - number, chores=False)
        unit = do(op, units.add_unit, entry)
        for day, following in later:
            if following is not state:
                do(op, units.enter_state, NewState(unit.id, following, day, chores=False))
                state = following
        found.append(unit.id)
    return found


def _beds(op: Operation, script: Script, rows: list[int]) -> None:
    for number, (unit, sizes) in enumerate(script.sizes):
        bed = do(op, beds.add_bed, NewBed(_pick(rows, unit), f"B{number}", FIRST))
        for day, area in sizes:
            do(op, beds.size_bed, NewBedSize(bed.id, day, Measured(area, str(area))))


def _living(op: Operation, script: Script, rows: list[int]) -> list[tuple[str, int, date, date]]:
    """Plantings and fish lots, with the spans of days in which they can be weighed."""
    found = []
    crops = [do(op, plantings.add_crop, NewCrop(name, name.lower())) for name in ("CHARD", "KALE")]
    places = op.reader.all(_Id, "SELECT id FROM bed ORDER BY id")
    for bed, crop, start, length, area in script.plantings if places else ():
        last = min(start + timedelta(days=length), LAST) if length is not None else None
        size = Measured(area, str(area)) if area else None
        entry = NewPlanting(_pick(places, bed).id, _pick(crops, crop).id, start, area=size, sure=True)
        made = do(op, plantings.plant, entry)
        if last:
            do(op, plantings.change_planting, PlantingChange(made.id, cleared_day=last))
        found.append(("planting_id", made.id, start, last or LAST))
    for number, (unit, species, start, length) in enumerate(script.lots):
        last = min(start + timedelta(days=length), LAST) if length is not None else None
        entry_lot = NewFishLot(f"L{number}", SPECIES[species], _pick(rows, unit), start, 100, Measured(20_000, "20 g"))
        lot = do(op, fish.stock, entry_lot)
        if last:
            do(op, fish.change_lot, FishLotChange(lot.id, closed_day=last))
        found.append(("fish_lot_id", lot.id, start, last or LAST))
    return found


@dataclass(frozen=True)
class _Id:
    id: int


def _weighings(op: Operation, script: Script, spans: list[tuple[str, int, date, date]]) -> None:
    for source, ahead, mass, use in script.weighings if spans else ():
        column, id, first, last = _pick(spans, source)
        day = first + timedelta(days=ahead % ((last - first).days + 1))
        entry = NewHarvest(day, Measured(mass, f"{mass} mg"), use=use, number=1, sure=True, **{column: id})  # type: ignore[arg-type]
        do(op, harvests.record_harvest, entry)


def _sales(op: Operation, script: Script, spans: list[tuple[str, int, date, date]]) -> None:
    """By weight where `count` is even, else in bunches that were weighed or not."""
    for source, ahead, mass, count, minor, back in script.sold if spans else ():
        column, id, first, last = _pick(spans, source)
        by = SoldBy.WEIGHT if mass is not None and count % 2 == 0 else SoldBy.BUNCH
        amount = mass if by is SoldBy.WEIGHT else count
        terms = Terms(by, Measured(amount, f"{amount}"), minor, 3, f"at {minor}")
        weight = None if mass is None or by is SoldBy.WEIGHT else Measured(mass, f"{mass} mg")
        line = NewSaleLine(terms, returned=min(back, amount), mass=weight, **{column: id})
        day = first + timedelta(days=ahead % ((last - first).days + 1))
        do(op, sales.record_sale, NewSale(day, "the gate", (line,)))


def _money(op: Operation, script: Script, rows: list[int]) -> None:
    for day, amount, unit, life, salvage in script.paid:
        lasting = {"kind": CostKind.CAPITAL, "life_months": life, "salvage_minor": amount * salvage // 100}
        where = None if unit is None else _pick(rows, unit)
        paid = NewCost(day, "things", Measured(amount, str(amount)), unit_id=where, **(lasting if life else {}))  # type: ignore[arg-type]
        do(op, costs.record_cost, replace(paid, again=True))
    crops = op.reader.all(_Id, "SELECT id FROM crop ORDER BY id")
    for number, day, minor, per_mg in script.prices:
        product = _pick([{"crop_id": crop.id} for crop in crops] + [{"species": one} for one in SPECIES], number)
        do(op, costs.set_price, NewPrice(day, minor, per_mg, "typed", **product))  # type: ignore[arg-type]


def _evidence(op: Operation, script: Script, rows: list[int]) -> None:
    for unit, counter, day, amount in script.used:
        do(op, usage.record_usage, NewUsage(_pick(rows, unit), counter, day, Measured(amount, str(amount))))
    for day, degrees in script.foretold:
        said = Degrees(float(degrees), str(degrees))
        do(op, forecasts.set_forecast, NewForecast(day, low=said, high=said))
    for unit, measure, day, minute, form in script.read:
        value = sum(LIKELY[measure]) / 2
        read = NewReading(measure, value, f"{value:g}", form)
        do(op, readings.record_readings, NewReadings(_pick(rows, unit), day, (read,), minute))


def _chores(op: Operation, script: Script, rows: list[int]) -> None:
    held = op.reader.all(_Id, "SELECT id FROM bed ORDER BY id")
    lots = op.reader.all(_Id, "SELECT id FROM fish_lot ORDER BY id")
    places: list[dict[str, int]] = [{}, *({"unit_id": id} for id in rows)]
    places += [{"bed_id": bed.id} for bed in held] + [{"fish_lot_id": lot.id} for lot in lots]
    made = [
        do(
            op,
            chores.add_chore,
            NewChore("work", rule, day, grade=grade, states=(UnitState.RUNNING,), **_pick(places[rule in BY_USE :], n)),
        )  # type: ignore[arg-type]
        for n, rule, day, grade in script.chores
    ]
    for number, day, kind, ahead in script.settled if made else ():
        chore = _pick(made, number)
        later = ahead if chore.grade is not ChoreClass.LIFE_SUPPORT else 0
        until = day + timedelta(days=later) if kind is SettledAs.DEFERRED else None
        settling = Settling(chore.id, kind, day, occurrence=day, until=until, reason="so")
        do(op, chores.settle, settling)
    for number, day, length in script.paused if made else ():
        rests = _pick(made, number)
        if not op.reader.value("SELECT COUNT(*) FROM chore_pause WHERE chore_id = :chore", chore=rests.id):
            until = day + timedelta(days=length) if length is not None else None
            do(op, chores.pause, NewPause(rests.id, day, until))
