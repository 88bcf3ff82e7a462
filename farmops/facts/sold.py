"""Weighings marked sold beside the lines of sales from the same plantings and fish lots."""

from __future__ import annotations

from datetime import date

from farmops.facts.harvests import PRICED, SOURCES
from farmops.facts.sales import LINES
from farmops.model.frozen import dataclass
from farmops.model.sales import SaleLine
from farmops.records.reading import Reader

TOUCHED_SOURCES = """
    SELECT {source}.id FROM {source}
    WHERE EXISTS (SELECT 1 FROM sale_line WHERE sale_line.{source}_id = {source}.id) AND (
        EXISTS (
            SELECT 1 FROM harvest WHERE harvest.{source}_id = {source}.id AND harvest.use = 'sold'
                AND harvest.day BETWEEN :first AND :last
        ) OR EXISTS (
            SELECT 1 FROM sale_line JOIN sale ON sale.id = sale_line.sale_id
            WHERE sale_line.{source}_id = {source}.id AND sale.day BETWEEN :first AND :last
        )
    )
"""
"""Plantings, or lots, with lines of sales from which something was marked sold or sold in a span.

Each is asked for by itself through an index: a farm that books no sales looks at no weighing.
"""
PLANTINGS, LOTS = TOUCHED_SOURCES.format(source="planting"), TOUCHED_SOURCES.format(source="fish_lot")
TOUCHED = f"(sale_line.planting_id IN ({PLANTINGS}) OR sale_line.fish_lot_id IN ({LOTS}))"
HEADS = f"""
    SELECT sale_line.id, sale.day, sale.buyer FROM sale_line JOIN sale ON sale.id = sale_line.sale_id
    WHERE {TOUCHED} ORDER BY sale_line.id
"""
MARKED = f"""
    SELECT harvest.id, harvest.day, unit.id AS unit_id, bed.id AS bed_id, crop.id AS crop_id, fish_lot.species,
        harvest.planting_id, harvest.fish_lot_id, harvest.mass_mg, price.price_minor, price.per_mg
    {SOURCES} {PRICED}
    WHERE harvest.use = 'sold' AND (harvest.planting_id IN ({PLANTINGS}) OR harvest.fish_lot_id IN ({LOTS}))
    ORDER BY harvest.id
"""


@dataclass(frozen=True, slots=True)
class MarkedSold:
    """A weighing marked sold, where it came from, and the list price of its day, None where it has none."""

    id: int
    day: date
    unit_id: int
    bed_id: int | None
    crop_id: int | None
    species: str | None
    planting_id: int | None
    fish_lot_id: int | None
    mass_mg: int
    price_minor: int | None
    per_mg: int | None


@dataclass(frozen=True, slots=True)
class SoldOn:
    """A line of a sale with its day and buyer."""

    day: date
    buyer: str
    line: SaleLine


@dataclass(frozen=True, slots=True)
class _Head:
    id: int
    day: date
    buyer: str


def marked_sold(reader: Reader, first: date, last: date) -> list[MarkedSold]:
    """All weighings marked sold from what has lines of sales and was marked sold, or sold, in a span of days."""
    return reader.all(MarkedSold, MARKED, first=first, last=last)


def lines_of(reader: Reader, first: date, last: date) -> list[SoldOn]:
    """All lines of sales from what was marked sold, or sold, in a span of days."""
    heads = {one.id: one for one in reader.all(_Head, HEADS, first=first, last=last)}
    if not heads:
        return []
    lines = reader.all(SaleLine, f"{LINES} WHERE {TOUCHED} ORDER BY sale_line.id", first=first, last=last)
    return [SoldOn(heads[line.id].day, heads[line.id].buyer, line) for line in lines]
