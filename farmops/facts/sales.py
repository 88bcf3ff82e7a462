"""Sales and standing orders, and what of the weighings marked sold a sale could be about."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.sales import Sale, SaleLine, StandingOrder
from farmops.records.reading import Reader

SALES = "SELECT sale.id, sale.day, sale.buyer, sale.note FROM sale"
LINES = """
    SELECT sale_line.id, sale_line.sale_id, sale_line.planting_id, sale_line.fish_lot_id,
        COALESCE(crop.name, fish_lot.code) AS what, unit.code || '-' || bed.name AS bed, sale_line.sold_by,
        sale_line.amount, sale_line.amount_typed, sale_line.unsold, sale_line.returned, sale_line.price_minor,
        sale_line.per_amount, sale_line.price_typed, sale_line.mass_mg, sale_line.mass_typed
    FROM sale_line
    JOIN sale ON sale.id = sale_line.sale_id
    LEFT JOIN planting ON planting.id = sale_line.planting_id
    LEFT JOIN crop ON crop.id = planting.crop_id
    LEFT JOIN bed ON bed.id = planting.bed_id
    LEFT JOIN unit ON unit.id = bed.unit_id
    LEFT JOIN fish_lot ON fish_lot.id = sale_line.fish_lot_id
"""
ORDERS = """
    SELECT standing_order.id, standing_order.buyer, standing_order.crop_id, standing_order.species,
        COALESCE(crop.name, standing_order.species) AS what, standing_order.sold_by, standing_order.amount,
        standing_order.amount_typed, standing_order.price_minor, standing_order.per_amount,
        standing_order.price_typed, standing_order.rule_text, standing_order.rule_words, standing_order.start_day,
        standing_order.until_day, standing_order.note
    FROM standing_order LEFT JOIN crop ON crop.id = standing_order.crop_id
"""
LAST_SOLD = """
    SELECT planting_id, fish_lot_id, MAX(day) AS day FROM harvest
    WHERE use = 'sold' AND day BETWEEN :first AND :last
    GROUP BY planting_id, fish_lot_id ORDER BY planting_id, fish_lot_id
"""
TOO_EARLY = """
    SELECT sale.day, COALESCE(crop.name, fish_lot.code) AS what,
        COALESCE(planting.started_day, fish_lot.stocked_day) AS since
    FROM sale_line
    JOIN sale ON sale.id = sale_line.sale_id
    LEFT JOIN planting ON planting.id = sale_line.planting_id
    LEFT JOIN crop ON crop.id = planting.crop_id
    LEFT JOIN fish_lot ON fish_lot.id = sale_line.fish_lot_id
    WHERE sale.day < COALESCE(planting.started_day, fish_lot.stocked_day)
    ORDER BY sale.day, sale_line.id LIMIT 1
"""
EMPTY = """
    SELECT sale.id FROM sale LEFT JOIN sale_line ON sale_line.sale_id = sale.id
    WHERE sale_line.id IS NULL ORDER BY sale.id LIMIT 1
"""


def sales(reader: Reader, first: date, last: date) -> list[Sale]:
    """The sales of a span of days, both included, in the order of days, with their lines."""
    where = "WHERE sale.day BETWEEN :first AND :last"
    found = reader.all(Sale, f"{SALES} {where} ORDER BY sale.day, sale.id", first=first, last=last)
    lines: dict[int, list[SaleLine]] = {}
    for line in reader.all(SaleLine, f"{LINES} {where} ORDER BY sale_line.id", first=first, last=last):
        lines.setdefault(line.sale_id, []).append(line)
    return [replace(one, lines=tuple(lines.get(one.id, ()))) for one in found]


def sale(reader: Reader, id: int) -> Sale | None:
    """The sale of that number."""
    found = reader.one(Sale, f"{SALES} WHERE sale.id = :id", id=id)
    lines = reader.all(SaleLine, f"{LINES} WHERE sale.id = :id ORDER BY sale_line.id", id=id)
    return replace(found, lines=tuple(lines)) if found else None


@dataclass(frozen=True, slots=True)
class LastSold:
    """The last day of a span on which a weighing from a planting or a fish lot was marked sold."""

    planting_id: int | None
    fish_lot_id: int | None
    day: date


def last_sold(reader: Reader, first: date, last: date) -> list[LastSold]:
    """From which plantings and lots something was marked sold in a span of days."""
    return reader.all(LastSold, LAST_SOLD, first=first, last=last)


@dataclass(frozen=True, slots=True)
class SoldTooEarly:
    """A sale of something that was not there yet."""

    day: date
    what: str
    since: date


def sold_too_early(reader: Reader) -> SoldTooEarly | None:
    """A line of a sale on a day before its planting started or its fish were stocked, if there is one."""
    return reader.one(SoldTooEarly, TOO_EARLY)


def sale_without_lines(reader: Reader) -> int | None:
    """The number of a sale that says nothing of what was sold, if there is one."""
    found = reader.value(EMPTY)
    return None if found is None else int(found)


def orders(reader: Reader) -> list[StandingOrder]:
    """Every standing order, by buyer and number."""
    return reader.all(StandingOrder, f"{ORDERS} ORDER BY standing_order.buyer, standing_order.id")


def order(reader: Reader, id: int) -> StandingOrder | None:
    """The standing order of that number."""
    return reader.one(StandingOrder, f"{ORDERS} WHERE standing_order.id = :id", id=id)
