"""What the tables say of how costs are shared, of labour, power and supplies, and of notes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import Any

from farmops.facts import beds, cost_labels, costs, fish, labour, notes, papers, power, recurring, stock, supplies
from farmops.model.beds import BedSize
from farmops.model.cost_labels import CostLabel
from farmops.model.costs import Category, Driver, DriverFrom, JointMethod, JointSplit, LabourRate
from farmops.model.notes import Changed, Note
from farmops.model.papers import Paper, PaperKind
from farmops.model.power import Device, MeterReading, PowerPrice
from farmops.model.recurring import RecurringCost
from farmops.model.supplies import HeldBy, Movement, Supply, SupplyLot, SupplyUse
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.chores import ChoreRow, SettlementRow
from farmops.records.costs import (
    CostLabelRow,
    CostRow,
    DriverRow,
    DriverShareRow,
    JointSplitRow,
    LabourRateRow,
    RecurringCostRow,
)
from farmops.records.farm import PersonRow
from farmops.records.fish import FishLotRow
from farmops.records.harvests import HarvestRow
from farmops.records.journal import JournalRow
from farmops.records.notes import NoteRow
from farmops.records.plantings import PlantingRow
from farmops.records.power import DeviceRow, MeterRow, PowerPriceRow
from farmops.records.supplies import PaperRow, SupplyLotRow, SupplyRow, SupplyUseRow
from farmops.records.units import UnitRow
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, in_span, says


@says(costs.drivers)
def every_driver(rows: Tables) -> Iterator[Answer]:
    yield (
        (),
        [
            DriverFrom(
                row.id,
                row.category,
                row.from_day,
                Driver(row.driver),
                tuple((one.unit_id, one.parts) for one in rows[DriverShareRow] if one.driver_id == row.id),
            )
            for row in sorted(rows[DriverRow], key=lambda row: (row.category, row.from_day))
        ],
    )


def _recurring(rows: Tables, row: RecurringCostRow) -> RecurringCost:
    names = ("id", "what", "payee", "amount_minor", "amount_typed", "unit_id", "rule_text", "rule_words", "start_day")
    unit = rows.find(UnitRow, row.unit_id)
    return RecurringCost(
        **columns(row, *names, "until_day", "label", "note"),
        category=Category(row.category),
        unit=unit.code if unit else None,
        booked=sum(one.recurring_cost_id == row.id for one in rows[CostRow]),
    )


@says(recurring.recurring_costs)
def every_recurring_cost(rows: Tables) -> Iterator[Answer]:
    found = sorted(rows[RecurringCostRow], key=lambda row: (row.start_day, row.id))
    yield (), [_recurring(rows, row) for row in found]


@says(recurring.recurring_cost)
def each_recurring_cost(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[RecurringCostRow]:
        yield (row.id,), _recurring(rows, row)


def _paper(rows: Tables, row: PaperRow) -> Paper:
    unit = rows.find(UnitRow, row.unit_id)
    alike = [one for one in rows[PaperRow] if (one.kind, one.name, one.unit_id) == (row.kind, row.name, row.unit_id)]
    names = ("id", "name", "number", "issued_by", "unit_id", "from_day", "until_day", "file", "file_name", "note")
    return Paper(
        **columns(row, *names, "file_sha256"),
        kind=PaperKind(row.kind),
        unit=unit.code if unit else None,
        renewed=any((one.from_day, one.id) > (row.from_day, row.id) for one in alike),
    )


@says(papers.papers)
def every_paper(rows: Tables) -> Iterator[Answer]:
    found = sorted(rows[PaperRow], key=lambda row: (row.kind, row.name, row.from_day, row.id))
    yield (), [_paper(rows, row) for row in found]


@says(papers.paper)
def each_paper(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[PaperRow]:
        yield (row.id,), _paper(rows, row)


@says(cost_labels.cost_labels)
def every_label(rows: Tables) -> Iterator[Answer]:
    found = sorted(rows[CostLabelRow], key=lambda row: (row.label_set, row.position, row.id))
    yield (), [CostLabel(**columns(row, "id", "label_set", "label", "category", "position")) for row in found]


@says(costs.joint_splits)
def every_split(rows: Tables) -> Iterator[Answer]:
    yield (
        (),
        [
            JointSplit(row.id, row.from_day, JointMethod(row.method), row.produce_thousandths)
            for row in sorted(rows[JointSplitRow], key=lambda row: row.from_day)
        ],
    )


@says(labour.rates)
def every_rate(rows: Tables) -> Iterator[Answer]:
    def name(row: LabourRateRow) -> str | None:
        person = rows.find(PersonRow, row.person_id)
        return person.name if person else None

    yield (
        (),
        [
            LabourRate(row.id, row.from_day, row.person_id, name(row), row.rate_minor, row.typed)
            for row in sorted(rows[LabourRateRow], key=lambda row: (name(row) or "", row.from_day))
        ],
    )


def _rate(rows: Tables, actor: str, day: date) -> int | None:
    held = [row for row in rows[LabourRateRow] if row.from_day <= day]
    people = {row.id for row in rows[PersonRow] if row.name.lower() == actor.lower()}
    for chosen in ([row for row in held if row.person_id in people], [row for row in held if row.person_id is None]):
        if chosen:
            return max(chosen, key=lambda row: row.from_day).rate_minor
    return None


def _lot_unit(rows: Tables, lot: int, day: date | None) -> int:
    places = rows.places(lot)
    held = rows.place_on(lot, day) if day else places[-1]
    return (held or places[0]).unit_id


def _work(rows: Tables) -> Iterator[labour.Work]:
    for row in rows[SettlementRow]:
        chore = rows.get(ChoreRow, row.chore_id)
        bed = rows.find(BedRow, chore.bed_id)
        unit = chore.unit_id or (bed.unit_id if bed else None)
        if chore.fish_lot_id:
            unit = _lot_unit(rows, chore.fish_lot_id, None)
        if row.kind == "done" and row.minutes:
            rate = _rate(rows, row.actor, row.on_day)
            yield labour.Work("settlements", row.id, unit, row.on_day, chore.title, row.minutes, row.actor, rate)
    actors = {row.operation: row.actor for row in rows[JournalRow]}
    for row in rows[HarvestRow]:
        if row.minutes:
            planting = rows.find(PlantingRow, row.planting_id)
            unit = (
                rows.get(BedRow, planting.bed_id).unit_id
                if planting
                else _lot_unit(rows, row.fish_lot_id or 0, row.day)
            )
            actor = actors[row.operation]
            rate = _rate(rows, actor, row.day)
            yield labour.Work("harvests", row.id, unit, row.day, "weighing", row.minutes, actor, rate)


@says(labour.work)
def everything_that_took_minutes(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        found = [one for one in _work(rows) if in_span(one.day, span)]
        yield span, sorted(found, key=lambda one: (one.day, one.kind, one.id))


@says(labour.worked)
def minutes_by_unit(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        found = [one for one in _work(rows) if in_span(one.day, span)]
        units = sorted({one.unit_id for one in found}, key=lambda id: (id is not None, id or 0))
        yield span, Anyhow(_worked(unit, [one for one in found if one.unit_id == unit]) for unit in units)


def _worked(unit: int | None, work: list[labour.Work]) -> labour.Worked:
    return labour.Worked(
        unit,
        len(work),
        len({one.day for one in work}),
        sum(one.minutes for one in work),
        sum(one.minutes for one in work if one.rate_minor is None),
        sum(one.minutes * (one.rate_minor or 0) for one in work),
    )


class Anyhow(list[Any]):
    """Answers whose place of None the databases choose."""

    def __eq__(self, other: object) -> bool:
        return isinstance(other, list) and len(self) == len(other) and all(one in self for one in other)

    __hash__ = None  # type: ignore[assignment]


@says(labour.days_with_minutes)
def days_on_which_minutes_are_booked(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, len({one.day for one in _work(rows) if in_span(one.day, span)})


def _code(rows: Tables, id: int | None) -> str | None:
    unit = rows.find(UnitRow, id)
    return unit.code if unit else None


def _note(rows: Tables, row: NoteRow) -> Note:
    bed, chore = rows.find(BedRow, row.bed_id), rows.find(ChoreRow, row.chore_id)
    held = bed or rows.find(BedRow, chore.bed_id if chore else None)
    unit = row.unit_id or (held.unit_id if held else chore.unit_id if chore else None)
    code = _code(rows, unit)
    where = chore.title if chore else rows.bed_code(bed.id) if bed else code
    names = ("id", "day", "bed_id", "chore_id", "text", "file", "file_name", "file_sha256")
    changed = Changed(row.changed) if row.changed else None
    return Note(**columns(row, *names), unit_id=unit, unit=code, where=where, changed=changed)


def _latest_first(rows: Tables) -> list[Note]:
    ordered = sorted(rows[NoteRow], key=lambda row: (row.day, row.id), reverse=True)
    return [_note(rows, row) for row in ordered]


@says(notes.notes)
def every_note(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, [one for one in _latest_first(rows) if in_span(one.day, span)]


@says(notes.note)
def each_note(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[NoteRow]:
        yield (row.id,), _note(rows, row)


@says(notes.notes_of_chore)
def notes_of_each_chore(rows: Tables) -> Iterator[Answer]:
    for chore in rows[ChoreRow]:
        yield (chore.id,), [one for one in _latest_first(rows) if one.chore_id == chore.id]


@says(power.devices)
def every_device(rows: Tables) -> Iterator[Answer]:
    names = ("id", "name", "unit_id", "rated_mw", "rated_typed", "minutes_a_day", "from_day", "until_day", "note")
    ordered = sorted(rows[DeviceRow], key=lambda row: (*rows.walking(row.unit_id), row.from_day, row.id))
    yield (), [Device(**columns(row, *names), unit=_code(rows, row.unit_id)) for row in ordered]


@says(power.meters)
def every_meter(rows: Tables) -> Iterator[Answer]:
    names = ("id", "day", "unit_id", "shown_wh", "shown_typed", "note")
    ordered = sorted(rows[MeterRow], key=lambda row: (*rows.walking(row.unit_id), row.day, row.id))
    yield (), [MeterReading(**columns(row, *names), unit=_code(rows, row.unit_id)) for row in ordered]


@says(power.meters_around)
def meters_read_around_each_day(rows: Tables) -> Iterator[Answer]:
    names = ("id", "day", "unit_id", "shown_wh", "shown_typed", "note")
    days = {row.day + timedelta(days=shift) for row in rows[MeterRow] for shift in (-1, 0, 1)}
    for unit in {row.unit_id for row in rows[MeterRow]} | {None}:
        own = [row for row in rows[MeterRow] if row.unit_id == unit]
        for day in sorted(days):
            before = max((row.day for row in own if row.day < day), default=None)
            after = min((row.day for row in own if row.day > day), default=None)
            near = sorted((row for row in own if row.day in (before, day, after)), key=lambda row: (row.day, row.id))
            yield (unit, day), [MeterReading(**columns(row, *names), unit=_code(rows, unit)) for row in near]


@says(power.power_prices)
def every_power_price(rows: Tables) -> Iterator[Answer]:
    names = ("id", "from_day", "price_minor", "per_wh", "typed")
    ordered = sorted(rows[PowerPriceRow], key=lambda row: row.from_day)
    yield (), [PowerPrice(**columns(row, *names)) for row in ordered]


def _supply(row: SupplyRow) -> Supply:
    told = columns(row, "id", "name", "reorder_at", "reorder_typed", "note")
    return Supply(**told, category=Category(row.category), held_by=HeldBy(row.held_by))


@says(supplies.supplies)
def every_supply(rows: Tables) -> Iterator[Answer]:
    yield (), [_supply(row) for row in sorted(rows[SupplyRow], key=lambda row: row.name.lower())]


@says(supplies.supply)
def each_supply(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[SupplyRow]:
        yield (row.id,), _supply(row)


def _bought(rows: Tables, row: SupplyLotRow) -> SupplyLot:
    names = ("id", "supply_id", "day", "amount", "amount_typed", "cost_id", "lot_code", "opened_day", "expires_day")
    supply, cost = rows.get(SupplyRow, row.supply_id), rows.find(CostRow, row.cost_id)
    return SupplyLot(
        **columns(row, *names, "note"),
        supply=supply.name,
        held_by=HeldBy(supply.held_by),
        cost_minor=cost.amount_minor if cost else None,
        cost_typed=cost.amount_typed if cost else None,
        payee=cost.payee if cost else None,
    )


@says(supplies.lots)
def what_was_bought_of_each_supply(rows: Tables) -> Iterator[Answer]:
    for supply in rows[SupplyRow]:
        own = [row for row in rows[SupplyLotRow] if row.supply_id == supply.id]
        own.sort(key=lambda row: (row.day, row.id), reverse=True)
        yield (supply.id,), [_bought(rows, row) for row in own]


@says(supplies.lot)
def each_that_was_bought(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[SupplyLotRow]:
        yield (row.id,), _bought(rows, row)


def _taken(rows: Tables, row: SupplyUseRow) -> SupplyUse:
    names = ("id", "supply_id", "day", "amount", "amount_typed", "unit_id", "note")
    supply = rows.get(SupplyRow, row.supply_id)
    return SupplyUse(
        **columns(row, *names),
        supply=supply.name,
        held_by=HeldBy(supply.held_by),
        kind=Movement(row.kind),
        unit=_code(rows, row.unit_id),
    )


@says(supplies.uses)
def what_was_taken_from_each_supply(rows: Tables) -> Iterator[Answer]:
    for supply in rows[SupplyRow]:
        own = [row for row in rows[SupplyUseRow] if row.supply_id == supply.id]
        own.sort(key=lambda row: (row.day, row.id), reverse=True)
        for most in (1, 100):
            yield (supply.id, most), [_taken(rows, row) for row in own[:most]]


@says(supplies.use)
def each_that_was_taken(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[SupplyUseRow]:
        yield (row.id,), _taken(rows, row)


@says(stock.came)
def what_came_into_supplies(rows: Tables) -> Iterator[Answer]:
    for last in DAYS:
        found = []
        for row in sorted(rows[SupplyLotRow], key=lambda row: (row.supply_id, row.day, row.id)):
            supply, cost = rows.get(SupplyRow, row.supply_id), rows.find(CostRow, row.cost_id)
            paid = cost.amount_minor if cost else 0
            if row.day <= last:
                category = Category(supply.category)
                found.append(
                    stock.Came(
                        supply.id, supply.name, category, HeldBy(supply.held_by), row.day, row.amount, paid, row.id
                    )
                )
        yield (last,), found


@says(stock.went)
def what_went_out_of_supplies(rows: Tables) -> Iterator[Answer]:
    for last in DAYS:
        yield (last,), _went(rows, last, lambda row: row.unit_id)
        yield (last, False), _went(rows, last, lambda row: None)


def _went(rows: Tables, last: date, unit_of: Callable[[SupplyUseRow], int | None]) -> list[stock.Went]:
    groups: dict[tuple[Any, ...], list[SupplyUseRow]] = {}
    for row in rows[SupplyUseRow]:
        if row.day <= last:
            same = [one for one in rows[SupplyUseRow] if (one.supply_id, one.day) == (row.supply_id, row.day)]
            counts = sum(one.kind == "counted" and one.id <= row.id for one in same)
            groups.setdefault((row.supply_id, row.day, Movement(row.kind), unit_of(row), counts), []).append(row)
    found = [
        stock.Went(*key[:4], len(group), sum(one.amount for one in group), group[-1].id)
        for key, group in groups.items()
    ]
    return sorted(found, key=lambda one: (one.supply_id, one.day, one.last_id))


def held_day_by_day(rows: Tables, supply: SupplyRow) -> list[stock.Level]:
    """What the books hold of a supply on the days on which it moved, since it was counted last."""
    uses = [row for row in rows[SupplyUseRow] if row.supply_id == supply.id]
    last = max(((row.day, row.id) for row in uses if row.kind == "counted"), default=(date.min, 0))
    steps = [(row.day, 1, row.amount) for row in rows[SupplyLotRow] if row.supply_id == supply.id]
    steps = [step for step in steps if step[0] > last[0]]
    steps += [(row.day, 0, row.amount) for row in uses if row.id == last[1]]
    steps += [(row.day, 2, -row.amount) for row in uses if row.kind != "counted" and (row.day, row.id) > last]
    held: dict[date, int] = {}
    for day, _, amount in sorted(steps, key=lambda step: step[:2]):
        held[day] = max(0, [0, *held.values()][-1] + amount)
    return [stock.Level(day, amount) for day, amount in held.items()]


@says(stock.levels)
def what_is_held_of_each_supply(rows: Tables) -> Iterator[Answer]:
    found = {supply.id: held_day_by_day(rows, supply) for supply in rows[SupplyRow]}
    yield (), {id: days for id, days in found.items() if days}


@says(beds.all_sizes)
def every_size_of_every_bed(rows: Tables) -> Iterator[Answer]:
    names = ("id", "bed_id", "from_day", "area_mm2", "area_typed")
    ordered = sorted(rows[BedSizeRow], key=lambda row: (row.bed_id, row.from_day))
    yield (), [BedSize(**columns(row, *names)) for row in ordered]


@says(fish.stays)
def where_every_lot_lived(rows: Tables) -> Iterator[Answer]:
    found = []
    for lot in rows[FishLotRow]:
        places = rows.places(lot.id)
        for at, place in enumerate(places):
            moved = places[at + 1].from_day - timedelta(days=1) if at + 1 < len(places) else None
            found.append(fish.Stay(lot.id, place.unit_id, place.from_day, moved or lot.closed_day))
    yield (), found
