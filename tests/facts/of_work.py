"""What the tables say of plantings, weighings and money."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import date
from fractions import Fraction
from itertools import product
from math import floor

from farmops.facts import costs, harvest_totals, harvests, plantings, weighings
from farmops.model.costs import Category, Cost, CostKind, ListPrice, Product
from farmops.model.harvests import Harvest, Use
from farmops.model.plantings import Crop, Planting, StartedBy
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.costs import CostRow, DriverRow, PriceRow
from farmops.records.fish import FishLotRow
from farmops.records.harvests import HarvestRow
from farmops.records.journal import JournalRow
from farmops.records.plantings import CropRow, PlantingRow
from farmops.records.supplies import SupplyLotRow
from farmops.records.units import UnitRow, UnitStateRow
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, days_around, in_span, says


def _crop(row: CropRow) -> Crop:
    return Crop(**columns(row, "id", "name", "library_key", "note"))


@says(plantings.crops)
def every_crop(rows: Tables) -> Iterator[Answer]:
    yield (), [_crop(row) for row in sorted(rows[CropRow], key=lambda row: row.name)]


@says(plantings.crop)
def each_crop(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[CropRow]:
        yield (row.id,), _crop(row)


@says(plantings.crop_called)
def each_crop_by_name(rows: Tables) -> Iterator[Answer]:
    yield ("nothing",), None
    for row in rows[CropRow]:
        yield (f"  {row.name.lower().replace(' ', '  ')} ",), _crop(row)


def _planting(rows: Tables, row: PlantingRow) -> Planting:
    bed = rows.get(BedRow, row.bed_id)
    names = ("id", "bed_id", "crop_id", "variety", "started_day", "cleared_day", "plants", "area_mm2", "area_typed")
    return Planting(
        **columns(row, *names, "note"),
        bed=rows.bed_code(row.bed_id),
        unit=rows.get(UnitRow, bed.unit_id).code,
        crop=rows.get(CropRow, row.crop_id).name,
        started_by=StartedBy(row.started_by),
    )


def _bed_by_bed(rows: Tables) -> list[Planting]:
    def key(row: PlantingRow) -> tuple[object, ...]:
        bed = rows.get(BedRow, row.bed_id)
        return (*rows.walking(bed.unit_id), bed.name, row.started_day, row.id)

    return [_planting(rows, row) for row in sorted(rows[PlantingRow], key=key)]


@says(plantings.plantings)
def every_planting(rows: Tables) -> Iterator[Answer]:
    yield (), _bed_by_bed(rows)


@says(plantings.planting)
def each_planting(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[PlantingRow]:
        yield (row.id,), _planting(rows, row)


@says(plantings.growing)
def plantings_growing(rows: Tables) -> Iterator[Answer]:
    ends = [day for row in rows[PlantingRow] for day in (row.started_day, row.cleared_day) if day]
    for day in days_around([*DAYS, *ends]):
        stands = [p for p in _bed_by_bed(rows) if in_span(day, (p.started_day, p.cleared_day or date.max))]
        yield (day,), stands


@says(plantings.in_bed)
def plantings_in_a_bed(rows: Tables) -> Iterator[Answer]:
    for bed in rows[BedRow]:
        yield (bed.id,), [p for p in _bed_by_bed(rows) if p.bed_id == bed.id]


@says(plantings.of_crop_in_bed)
def plantings_of_a_crop_in_a_bed(rows: Tables) -> Iterator[Answer]:
    for bed in rows[BedRow]:
        for crop in rows[CropRow]:
            own = [p for p in _bed_by_bed(rows) if (p.bed_id, p.crop_id) == (bed.id, crop.id)]
            yield (bed.id, crop.id), own


def unit_of(rows: Tables, row: HarvestRow) -> UnitRow:
    if row.planting_id is not None:
        return rows.get(UnitRow, rows.get(BedRow, rows.get(PlantingRow, row.planting_id).bed_id).unit_id)
    place = rows.place_on(row.fish_lot_id or 0, row.day)
    assert place is not None
    return rows.get(UnitRow, place.unit_id)


def _harvest(rows: Tables, row: HarvestRow) -> Harvest:
    planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
    names = ("id", "day", "planting_id", "fish_lot_id", "mass_mg", "mass_typed", "tare_mg", "tare_typed", "number")
    return Harvest(
        **columns(row, *names, "note", "operation", "dressed_mg", "dressed_typed"),
        unit=unit_of(rows, row).code,
        bed=rows.bed_code(planting.bed_id) if planting else None,
        what=rows.get(CropRow, planting.crop_id).name if planting else rows.get(FishLotRow, lot and lot.id).code,
        use=Use(row.use),
    )


def _by_day(rows: Tables) -> list[HarvestRow]:
    return sorted(rows[HarvestRow], key=lambda row: (row.day, row.id))


@says(harvests.harvests)
def weighings_of_spans(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, [_harvest(rows, row) for row in _by_day(rows) if in_span(row.day, span)]


@says(harvests.of_lot)
def weighings_from_each_lot(rows: Tables) -> Iterator[Answer]:
    for lot in (9999, *(row.id for row in rows[FishLotRow])):
        yield (lot,), [_harvest(rows, row) for row in _by_day(rows) if row.fish_lot_id == lot]


@says(harvests.harvest)
def each_weighing(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[HarvestRow]:
        yield (row.id,), _harvest(rows, row)


def list_price(rows: Tables, row: HarvestRow) -> PriceRow | None:
    """The list price that a weighing is valued at."""
    planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
    product = (planting.crop_id if planting else None, lot.species if lot else None)
    held = [p for p in rows[PriceRow] if (p.crop_id, p.species) == product and p.from_day <= row.day]
    return max(held, key=lambda p: p.from_day, default=None)


def _worth(rows: Tables, row: HarvestRow) -> int:
    held = list_price(rows, row)
    if held is None or not Use(row.use).counts:
        return 0
    return floor(Fraction(row.mass_mg * held.price_minor, held.per_mg) + Fraction(1, 2))


@says(harvest_totals.totals)
def weighings_summed(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        groups: dict[tuple[object, ...], list[HarvestRow]] = {}
        for row in rows[HarvestRow]:
            if in_span(row.day, span):
                planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
                place = (planting.bed_id, planting.crop_id) if planting else (None, None)
                key = (unit_of(rows, row).id, *place, lot.species if lot else None)
                groups.setdefault(key, []).append(row)
        yield span, Unordered(_total(rows, key, group) for key, group in groups.items())


def _total(rows: Tables, key: tuple[object, ...], group: list[HarvestRow]) -> harvest_totals.HarvestTotal:
    unit, bed, crop, species = key
    counting = [row for row in group if Use(row.use).counts]
    sold = [row for row in counting if row.use == Use.SOLD]
    eaten = [row for row in counting if row.use != Use.SOLD]
    return harvest_totals.HarvestTotal(
        unit_id=unit,  # type: ignore[arg-type]
        bed_id=bed,  # type: ignore[arg-type]
        crop_id=crop,  # type: ignore[arg-type]
        crop=rows.get(CropRow, crop).name if crop else None,  # type: ignore[arg-type]
        species=species,  # type: ignore[arg-type]
        weighings=len(group),
        mass_mg=sum(row.mass_mg for row in group),
        sold_weighings=len(sold),
        sold_mg=sum(row.mass_mg for row in sold),
        sold_value_minor=sum(_worth(rows, row) for row in sold),
        eaten_weighings=len(eaten),
        eaten_mg=sum(row.mass_mg for row in eaten),
        eaten_value_minor=sum(_worth(rows, row) for row in eaten),
        unpriced=sum(list_price(rows, row) is None for row in counting),
    )


@says(harvest_totals.of_lots)
def fish_summed_by_lot_and_price(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        groups: dict[tuple[object, ...], list[HarvestRow]] = {}
        for row in rows[HarvestRow]:
            lot = rows.find(FishLotRow, row.fish_lot_id)
            if in_span(row.day, span) and lot is not None:
                price = list_price(rows, row)
                key = (unit_of(rows, row).id, lot.id, price.from_day if price else None)
                groups.setdefault(key, []).append(row)
        yield span, Unordered(_lot_total(rows, key, group) for key, group in groups.items())


def _lot_total(rows: Tables, key: tuple[object, ...], group: list[HarvestRow]) -> harvest_totals.LotTotal:
    lot = rows.get(FishLotRow, key[1])  # type: ignore[arg-type]
    summed = _total(rows, (key[0], None, None, lot.species), group)
    return harvest_totals.LotTotal(**columns(summed, *fields_of(summed)), lot_id=lot.id or 0, lot=lot.code)


def fields_of(summed: harvest_totals.HarvestTotal) -> list[str]:
    return [one.name for one in fields(summed)]


class Unordered:
    """Equal to a list of the same lines in any order."""

    def __init__(self, lines: Iterator[object]) -> None:
        self.lines = sorted(map(repr, lines))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, list) and self.lines == sorted(map(repr, other))

    __hash__ = None  # type: ignore[assignment]


@says(harvests.valued)
def weighings_valued(rows: Tables) -> Iterator[Answer]:
    for unit in rows[UnitRow]:
        for span in SPANS:
            own = [row for row in _by_day(rows) if in_span(row.day, span) and unit_of(rows, row).id == unit.id]
            yield (unit.id, *span), [_valued(rows, row, unit.id) for row in own]


def _valued(rows: Tables, row: HarvestRow, unit_id: int) -> harvests.ValuedHarvest:
    planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
    return harvests.ValuedHarvest(
        **columns(row, "id", "day", "mass_mg", "mass_typed", "tare_typed"),
        unit_id=unit_id,
        bed_id=planting.bed_id if planting else None,
        crop_id=planting.crop_id if planting else None,
        what=_harvest(rows, row).what,
        species=lot.species if lot else None,
        use=Use(row.use),
        value_minor=_worth(rows, row),
    )


@says(harvests.daily)
def produce_by_unit_and_day(rows: Tables) -> Iterator[Answer]:
    for first, last in SPANS:
        sums: dict[tuple[int, date], int] = {}
        for row in rows[HarvestRow]:
            if in_span(row.day, (first, last)) and row.planting_id is not None and Use(row.use).counts:
                key = (unit_of(rows, row).id, row.day)
                sums[key] = sums.get(key, 0) + row.mass_mg
        yield (first, last), [harvests.DayTotal(*key, sums[key]) for key in sorted(sums)]


def _booked(rows: Tables, row: HarvestRow) -> weighings.BookedWeighing:
    planting, lot = rows.find(PlantingRow, row.planting_id), rows.find(FishLotRow, row.fish_lot_id)
    return weighings.BookedWeighing(
        **columns(row, "id", "day", "fish_lot_id", "mass_mg", "mass_typed", "tare_mg", "number"),
        unit=unit_of(rows, row).code,
        bed_id=planting.bed_id if planting else None,
        bed=rows.bed_code(planting.bed_id) if planting else None,
        crop_id=planting.crop_id if planting else None,
        what=lot.code if lot else rows.get(CropRow, planting.crop_id if planting else None).name,
        use=Use(row.use),
        actor=next(one.actor for one in rows[JournalRow] if one.operation == row.operation),
    )


@says(weighings.booked)
def weighings_and_who_booked_them(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, [_booked(rows, row) for row in _by_day(rows) if in_span(row.day, span)]


@says(weighings.ground)
def ground_that_a_planting_takes(rows: Tables) -> Iterator[Answer]:
    for one in rows[PlantingRow]:
        for day in days_around([one.started_day, *(size.from_day for size in rows[BedSizeRow])]):
            sizes = [size for size in rows[BedSizeRow] if size.bed_id == one.bed_id and size.from_day <= day]
            whole = max(sizes, key=lambda size: size.from_day).area_mm2 if sizes else None
            area = whole if one.area_mm2 is None else one.area_mm2
            crop = rows.get(CropRow, one.crop_id).name
            yield (one.id, day), weighings.Ground(crop, rows.bed_code(one.bed_id), area)
    yield (10**6, date(2026, 5, 1)), None


@says(weighings.of_the_kind)
def weighings_of_a_crop_in_a_bed_or_of_a_lot(rows: Tables) -> Iterator[Answer]:
    every = [_booked(rows, row) for row in _by_day(rows)]
    for one in rows[PlantingRow]:
        yield (one.id, None), [w for w in every if (w.bed_id, w.crop_id) == (one.bed_id, one.crop_id)]
    for lot in rows[FishLotRow]:
        yield (None, lot.id), [w for w in every if w.fish_lot_id == lot.id]


@says(weighings.lately)
def weighings_that_tell_what_is_usual_now(rows: Tables) -> Iterator[Answer]:
    for planting, lot in [(one.id, None) for one in rows[PlantingRow]] + [(None, one.id) for one in rows[FishLotRow]]:
        own = set() if planting is None else _same_bed_and_crop(rows, planting)
        every = [row for row in _by_day(rows) if (row.planting_id in own if lot is None else row.fish_lot_id == lot)]
        for day in days_around(row.day for row in every):
            counting = [row for row in every if row.day <= day and Use(row.use).counts and (lot is None or row.number)]
            for most, mass_mg in product((0, 1, 30), {1, *(row.mass_mg for row in every)}):
                last = counting[max(len(counting) - most, 0) :]
                wanted = [row for row in every if row in last or (row.day, row.mass_mg) == (day, mass_mg)]
                yield (planting, lot, day, mass_mg, most), [_booked(rows, row) for row in wanted]


def _same_bed_and_crop(rows: Tables, planting: int) -> set[int]:
    one = rows.get(PlantingRow, planting)
    return {row.id for row in rows[PlantingRow] if (row.bed_id, row.crop_id) == (one.bed_id, one.crop_id)}


@says(harvests.of_plantings)
def produce_by_planting_so_far(rows: Tables) -> Iterator[Answer]:
    for day in days_around(row.day for row in rows[HarvestRow]):
        found = {}
        for planting in rows[PlantingRow]:
            own = [
                row
                for row in rows[HarvestRow]
                if row.planting_id == planting.id and row.day <= day and Use(row.use).counts
            ]
            if own:
                days = [row.day for row in own]
                total = sum(row.mass_mg for row in own)
                found[planting.id] = harvests.PlantingTotal(planting.id, total, min(days), max(days))
        yield (day,), found


def _produce(rows: Tables) -> list[HarvestRow]:
    return [row for row in _by_day(rows) if row.planting_id is not None and Use(row.use).counts]


@says(harvests.daily)
def produce_day_by_day(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        found: dict[tuple[int, date], int] = {}
        for row in _produce(rows):
            if in_span(row.day, span):
                key = (unit_of(rows, row).id, row.day)
                found[key] = found.get(key, 0) + row.mass_mg
        yield span, [harvests.DayTotal(unit, day, mass) for (unit, day), mass in sorted(found.items())]


@says(harvests.picked)
def produce_by_bed_crop_and_day(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        found: dict[tuple[int, int, date], int] = {}
        for row in _produce(rows):
            if in_span(row.day, span):
                planting = rows.get(PlantingRow, row.planting_id)
                key = (planting.bed_id, planting.crop_id, row.day)
                found[key] = found.get(key, 0) + row.mass_mg
        yield span, [harvests.Picked(*key, mass) for key, mass in sorted(found.items())]


@says(harvests.of_plantings)
def produce_of_plantings(rows: Tables) -> Iterator[Answer]:
    for on in days_around([*DAYS, *(row.day for row in rows[HarvestRow])]):
        found = {}
        for id in {row.planting_id for row in _produce(rows) if row.day <= on}:
            own = [row for row in _produce(rows) if row.planting_id == id and row.day <= on]
            days = [row.day for row in own]
            total = sum(row.mass_mg for row in own)
            found[id] = harvests.PlantingTotal(id or 0, total, min(days), max(days))
        yield (on,), found


@says(harvests.recorded_days)
def days_on_record(rows: Tables) -> Iterator[Answer]:
    days = [row.day for kind in (HarvestRow, CostRow) for row in rows[kind]]
    days += [state.from_day for state in rows[UnitStateRow]]
    yield (), (min(days), max(days)) if days else None


@says(harvests.span_of_planting)
def first_and_last_weighing_of_plantings(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for planting in rows[PlantingRow]:
        days = [row.day for row in rows[HarvestRow] if row.planting_id == planting.id]
        yield (planting.id,), (min(days), max(days)) if days else None


@says(harvests.span_of_lot)
def first_and_last_weighing_of_lots(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for lot in rows[FishLotRow]:
        days = [row.day for row in rows[HarvestRow] if row.fish_lot_id == lot.id]
        yield (lot.id,), (min(days), max(days)) if days else None


@says(harvests.fingerprints)
def marks_of_imported_rows(rows: Tables) -> Iterator[Answer]:
    yield (), {row.fingerprint for row in rows[HarvestRow] if row.fingerprint is not None}


def _cost(rows: Tables, row: CostRow) -> Cost:
    names = ("id", "day", "what", "payee", "amount_minor", "amount_typed", "life_months", "salvage_minor", "note")
    kept = ("label", "recurring_cost_id", "receipt", "receipt_name", "receipt_sha256", "bed_id", "fish_lot_id")
    unit, lot = rows.find(UnitRow, _borne(rows, row).unit_id), rows.find(FishLotRow, row.fish_lot_id)
    return Cost(
        **columns(row, *names, *kept),
        category=Category(row.category),
        kind=CostKind(row.kind),
        unit_id=unit.id if unit else None,
        unit=unit.code if unit else None,
        bed=rows.bed_code(row.bed_id) if row.bed_id else None,
        lot=lot.code if lot else None,
    )


def _paid(rows: Tables) -> list[CostRow]:
    return sorted(rows[CostRow], key=lambda row: (row.day, row.id))


@says(costs.costs)
def costs_of_spans(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, [_cost(rows, row) for row in _paid(rows) if in_span(row.day, span)]


@says(costs.cost)
def each_cost(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[CostRow]:
        yield (row.id,), _cost(rows, row)


@says(costs.of_amount)
def costs_of_the_same_amount(rows: Tables) -> Iterator[Answer]:
    for row in rows[CostRow]:
        for span in (row.day, row.day), *SPANS:
            alike = [one for one in _paid(rows) if one.amount_minor == row.amount_minor and in_span(one.day, span)]
            yield (*span, row.amount_minor), [_cost(rows, one) for one in alike]
            yield (*span, row.amount_minor + 1), []


def _lot_unit_on(rows: Tables, lot: int, day: date) -> int:
    here = rows.place_on(lot, day) or rows.places(lot)[0]
    return here.unit_id


def _borne(rows: Tables, row: CostRow) -> costs.BorneCost:
    bed = rows.find(BedRow, row.bed_id)
    unit = row.unit_id or (bed.unit_id if bed else None)
    if row.fish_lot_id is not None:
        unit = _lot_unit_on(rows, row.fish_lot_id, row.day)
    product = Product.JOINT
    if bed or (row.unit_id and row.category == "seed and plants"):
        product = Product.PRODUCE
    elif row.fish_lot_id or (row.unit_id and row.category == "fish"):
        product = Product.FISH
    named = [one for one in rows[DriverRow] if one.from_day <= row.day]
    held = [
        one
        for word in (row.category, "all")
        for one in sorted(named, key=lambda d: d.from_day, reverse=True)
        if one.category == word
    ]
    names = ("id", "day", "what", "amount_minor", "life_months", "salvage_minor")
    return costs.BorneCost(
        **columns(row, *names),
        category=Category(row.category),
        kind=CostKind(row.kind),
        unit_id=unit,
        product=product,
        driver_id=held[0].id if held else None,
        stocked=any(lot.cost_id == row.id for lot in rows[SupplyLotRow]),
    )


@says(costs.borne)
def costs_and_who_bears_them(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        yield span, [_borne(rows, row) for row in _paid(rows) if in_span(row.day, span)]


@says(costs.capital)
def things_bought_to_last(rows: Tables) -> Iterator[Answer]:
    for day in days_around([*DAYS, *(row.day for row in rows[CostRow])]):
        yield (day,), [_borne(rows, row) for row in _paid(rows) if row.kind == "capital" and row.day <= day]


@says(costs.totals)
def costs_summed(rows: Tables) -> Iterator[Answer]:
    for span in SPANS:
        groups: dict[tuple[object, ...], list[int]] = {}
        for row in rows[CostRow]:
            if in_span(row.day, span):
                one = _borne(rows, row)
                key = (one.unit_id, one.kind, one.category, one.product, one.driver_id, one.stocked)
                groups.setdefault(key, []).append(row.amount_minor)
        found = [costs.CostTotal(*key, len(sums), sum(sums)) for key, sums in groups.items()]  # type: ignore[arg-type]
        yield span, Unordered(iter(found))


def _list_price(rows: Tables, row: PriceRow) -> ListPrice:
    crop = rows.find(CropRow, row.crop_id)
    names = ("id", "crop_id", "species", "from_day", "price_minor", "per_mg", "typed")
    return ListPrice(**columns(row, *names), what=crop.name if crop else row.species or "")


@says(costs.prices)
def every_list_price(rows: Tables) -> Iterator[Answer]:
    found = [_list_price(rows, row) for row in rows[PriceRow]]
    yield (), sorted(found, key=lambda one: (one.what, one.from_day))


@says(costs.price)
def each_list_price(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[PriceRow]:
        yield (row.id,), _list_price(rows, row)
