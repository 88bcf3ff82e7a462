"""Yield by bed, by crop and by month: produce per area, fish beside it, each number a figure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from enum import StrEnum

from farmops.facts import beds as bed_facts
from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import harvest_totals
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import units as unit_facts
from farmops.facts.harvest_totals import HarvestTotal, LotTotal
from farmops.facts.harvests import ValuedHarvest
from farmops.facts.reading import Reader, Store
from farmops.facts.sold import MarkedSold
from farmops.figures import Figure, RecordLine, Records, given, missing, of_records, total
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.plantings import Planting
from farmops.reports.crop_costs import CropCosts, costs_of_line, crop_costs
from farmops.reports.returns import AREA, MASS, Asked, Returns, in_span, yield_of
from farmops.reports.spans import Span, span_of
from farmops.reports.splitting import split_in_force
from farmops.reports.worth import Sold, sold_in, worth


class By(StrEnum):
    """What yields are told by."""

    BED = "bed"
    CROP = "crop"
    LOT = "lot"


@dataclass(frozen=True, slots=True)
class YieldLine:
    """One bed or one crop. Masses in mg, area in mm2, value, cost and net in minor units, a price in them per mg."""

    name: str
    harvest: Figure
    marketable: Figure
    area: Figure
    yield_per_area: Figure
    value: Figure
    cost: Figure
    cost_per_mass: Figure
    net: Figure


@dataclass(frozen=True, slots=True)
class Yields:
    """Yields in a span, by bed or by crop."""

    settings: Farm
    span: Span
    by: By
    lines: tuple[YieldLine, ...]


def yields(store: Store, asked: Asked, by: By) -> Yields:
    """What each bed, each crop or each fish lot brought, and cost."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        sold = sold_in(reader, farm.measures, span.first, span.last)
        found = in_span(store, reader, farm, span, asked.basis)
        sums: Sequence[HarvestTotal]
        if by is By.LOT:
            sums = harvest_totals.of_lots(reader, span.first, span.last)
        else:
            sums = [one for one in harvest_totals.totals(reader, span.first, span.last) if one.crop_id is not None]
        costs = _costs(reader, found, sums, fish=by is By.LOT)
        make = MAKE[by]
        areas = bed_facts.areas_on(reader, span.last)
        return Yields(farm, span, by, tuple(make(store, reader, span, sums, areas, sold, costs)))


def _costs(reader: Reader, found: Returns, sums: Sequence[HarvestTotal], *, fish: bool) -> CropCosts:
    wholes = {
        unit.id: line.cost_of_fish if fish else line.cost_of_produce
        for unit, line in zip(unit_facts.units(reader), found.units, strict=True)
    }
    return crop_costs(wholes, sums, split_in_force(cost_facts.joint_splits(reader), found.span.last))


def _by_bed(
    store: Store,
    reader: Reader,
    span: Span,
    sums: Sequence[HarvestTotal],
    areas: dict[int, int],
    sold: Sold,
    costs: CropCosts,
) -> Iterable[YieldLine]:
    for bed in bed_facts.beds(reader):
        own = [one for one in sums if one.bed_id == bed.id]
        name = f"bed area of {bed.code}"
        area = (
            given(name, areas[bed.id], AREA, f"its size on {span.last}")
            if bed.id in areas
            else missing(name, AREA, f"no size is booked for {bed.code} on {span.last}")
        )
        yield _line(store, span, bed.code, own, area, _same("bed_id", bed.id), sold, costs)


def _by_crop(
    store: Store,
    reader: Reader,
    span: Span,
    sums: Sequence[HarvestTotal],
    areas: dict[int, int],
    sold: Sold,
    costs: CropCosts,
) -> Iterable[YieldLine]:
    stood = [one for one in planting_facts.plantings(reader) if _stood_in(one, span)]
    for crop in planting_facts.crops(reader):
        own = [one for one in sums if one.crop_id == crop.id]
        plantings = [one for one in stood if one.crop_id == crop.id]
        if own or plantings:
            area = _planted(crop.name, plantings, areas)
            yield _line(store, span, crop.name, own, area, _same("crop_id", crop.id), sold, costs)


def _by_lot(
    store: Store,
    reader: Reader,
    span: Span,
    sums: Sequence[HarvestTotal],
    areas: dict[int, int],
    sold: Sold,
    costs: CropCosts,
) -> Iterable[YieldLine]:
    weighed = [one for one in sums if isinstance(one, LotTotal)]
    for lot in fish_facts.lots(reader):
        own = [one for one in weighed if one.lot_id == lot.id]
        if own:
            area = missing(f"bed area of {lot.code}", AREA, "fish have no bed")
            yield _line(store, span, lot.code, own, area, _of_lot(lot.id, lot.code), sold, costs, fish=True)


MAKE = {By.BED: _by_bed, By.CROP: _by_crop, By.LOT: _by_lot}
Fits = Callable[[ValuedHarvest | MarkedSold], bool]


def _same(field: str, id: int) -> Fits:
    return lambda one: getattr(one, field) == id


def _of_lot(id: int, code: str) -> Fits:
    return lambda one: one.fish_lot_id == id if isinstance(one, MarkedSold) else one.what == code


def _stood_in(planting: Planting, span: Span) -> bool:
    return planting.started_day <= span.last and (planting.cleared_day is None or planting.cleared_day >= span.first)


def _planted(crop: str, plantings: Sequence[Planting], areas: dict[int, int]) -> Figure:
    name = f"area planted with {crop}"
    parts = []
    for one in plantings:
        area = one.area_mm2 or areas.get(one.bed_id)
        if area is None:
            return missing(name, AREA, f"no size is booked for {one.bed}")
        parts.append(given(f"{one.bed} from {one.started_day}", area, AREA, "its own area, or the whole bed"))
    return total(name, AREA, parts, "all plantings that stood in the span, each counted once")


def _line(
    store: Store,
    span: Span,
    name: str,
    own: Sequence[HarvestTotal],
    area: Figure,
    fits: Fits,
    sold: Sold,
    costs: CropCosts,
    *,
    fish: bool = False,
) -> YieldLine:
    units = sorted({one.unit_id for one in own})

    def weighings() -> Sequence[ValuedHarvest]:
        with store.reading() as reader:
            found = [one for unit in units for one in harvest_facts.valued(reader, unit, span.first, span.last)]
        return [one for one in found if (one.species is not None) is fish and fits(one)]

    def records(count: int, counting: bool) -> Records:
        def fetch() -> list[RecordLine]:
            return [
                RecordLine("harvests", one.id, one.words, one.mass_mg)
                for one in weighings()
                if one.use.counts or not counting
            ]

        return Records("harvests", count, fetch)

    count, counting = sum(one.weighings for one in own), sum(one.counting_weighings for one in own)
    harvest = of_records(
        f"{'fish' if fish else 'produce'} of {name}, all",
        sum(one.mass_mg for one in own),
        MASS,
        "all weighings",
        records(count, False),
    )
    marketable = of_records(
        f"{'fish' if fish else 'produce'} of {name} that counts",
        sum(one.counting_mg for one in own),
        MASS,
        "weighings sold, eaten at home or given",
        records(counting, True),
    )
    value = worth(f"value of {name}", own, sold.of(fits), weighings)
    return YieldLine(
        name,
        harvest,
        marketable,
        area,
        yield_of(name, harvest, marketable, area),
        value,
        **costs_of_line(name, costs.of(name, own), marketable, value),
    )
