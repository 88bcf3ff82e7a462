"""Money paid, and list prices."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from farmops.model.costs import Category, Cost, CostKind, DriverFrom, JointSplit, ListPrice, Product
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

BEARER = """
    COALESCE(cost.unit_id, bed.unit_id,
        (SELECT lot_place.unit_id FROM lot_place
            WHERE lot_place.fish_lot_id = cost.fish_lot_id AND lot_place.from_day <= cost.day
            ORDER BY lot_place.from_day DESC LIMIT 1),
        (SELECT lot_place.unit_id FROM lot_place
            WHERE lot_place.fish_lot_id = cost.fish_lot_id ORDER BY lot_place.from_day LIMIT 1))
"""
COSTS = f"""
    SELECT cost.id, cost.day, cost.what, cost.category, cost.payee, cost.amount_minor, cost.amount_typed,
        unit.id AS unit_id, unit.code AS unit, cost.bed_id,
        CASE WHEN cost.bed_id IS NOT NULL THEN unit.code || '-' || bed.name END AS bed,
        cost.fish_lot_id, fish_lot.code AS lot, cost.kind, cost.life_months, cost.salvage_minor, cost.label,
        cost.recurring_cost_id, cost.receipt, cost.receipt_name, cost.receipt_sha256, cost.note
    FROM cost
    LEFT JOIN bed ON bed.id = cost.bed_id
    LEFT JOIN fish_lot ON fish_lot.id = cost.fish_lot_id
    LEFT JOIN unit ON unit.id = {BEARER}
"""
PRICES = """
    SELECT price.id, price.crop_id, price.species, COALESCE(crop.name, price.species) AS what, price.from_day,
        price.price_minor, price.per_mg, price.typed
    FROM price LEFT JOIN crop ON crop.id = price.crop_id
"""
BORNE = f"""
    SELECT cost.id, cost.day, cost.what, cost.category, cost.amount_minor, cost.kind, cost.life_months,
        cost.salvage_minor,
        {BEARER} AS unit_id,
        CASE WHEN cost.bed_id IS NOT NULL OR (cost.unit_id IS NOT NULL AND cost.category = 'seed and plants')
                THEN 'produce'
            WHEN cost.fish_lot_id IS NOT NULL OR (cost.unit_id IS NOT NULL AND cost.category = 'fish') THEN 'fish'
            ELSE 'joint' END AS product,
        COALESCE(
            (SELECT driver.id FROM driver WHERE driver.category = cost.category AND driver.from_day <= cost.day
                ORDER BY driver.from_day DESC LIMIT 1),
            (SELECT driver.id FROM driver WHERE driver.category = 'all' AND driver.from_day <= cost.day
                ORDER BY driver.from_day DESC LIMIT 1)
        ) AS driver_id,
        EXISTS (SELECT 1 FROM supply_lot WHERE supply_lot.cost_id = cost.id) AS stocked
    FROM cost LEFT JOIN bed ON bed.id = cost.bed_id
"""
TOTALS = f"""
    SELECT unit_id, kind, category, product, driver_id, stocked, COUNT(*) AS entries,
        CAST(SUM(amount_minor) AS BIGINT) AS amount_minor
    FROM ({BORNE} WHERE cost.day BETWEEN :first AND :last) AS borne
    GROUP BY unit_id, kind, category, product, driver_id, stocked
    ORDER BY unit_id, kind, category, product, driver_id, stocked
"""
DRIVERS = "SELECT id, category, from_day, driver FROM driver ORDER BY category, from_day"
SHARES = "SELECT driver_id, unit_id, parts FROM driver_share ORDER BY driver_id, unit_id"
SPLITS = "SELECT id, from_day, method, produce_thousandths FROM joint_split ORDER BY from_day"


@dataclass(frozen=True, slots=True)
class BorneCost:
    """A cost and who bears it: the unit it was for (None: shared), its product, and the driver in force on its day.

    What was for a bed was for its unit, what was for a lot for the unit it lived in that day. `stocked` marks what
    went into a supply, to be used up later.
    """

    id: int
    day: date
    what: str
    category: Category
    amount_minor: int
    kind: CostKind
    life_months: int | None
    salvage_minor: int | None
    unit_id: int | None
    product: Product
    driver_id: int | None
    stocked: bool


@dataclass(frozen=True, slots=True)
class CostTotal:
    """What was paid in a span by one kind of who bears it; minor units."""

    unit_id: int | None
    kind: CostKind
    category: Category
    product: Product
    driver_id: int | None
    stocked: bool
    entries: int
    amount_minor: int


def totals(reader: Reader, first: date, last: date) -> list[CostTotal]:
    """What was paid in a span of days, summed by who bears it."""
    return reader.all(CostTotal, TOTALS, first=first, last=last)


def borne(reader: Reader, first: date, last: date) -> list[BorneCost]:
    """What was paid in a span of days and who bears it, in the order of payment."""
    query = f"{BORNE} WHERE cost.day BETWEEN :first AND :last ORDER BY cost.day, cost.id"
    return reader.all(BorneCost, query, first=first, last=last)


def capital(reader: Reader, last: date) -> list[BorneCost]:
    """Everything that was bought to last up to and on a day, and who bears it."""
    query = f"{BORNE} WHERE cost.kind = 'capital' AND cost.day <= :last ORDER BY cost.day, cost.id"
    return reader.all(BorneCost, query, last=last)


def drivers(reader: Reader) -> list[DriverFrom]:
    """What shared costs went to the units by, by category and day."""
    shares: dict[int, tuple[tuple[int, int], ...]] = {}
    for row in reader.rows(SHARES):
        shares[row["driver_id"]] = (*shares.get(row["driver_id"], ()), (row["unit_id"], row["parts"]))
    return [replace(one, shares=shares.get(one.id, ())) for one in reader.all(DriverFrom, DRIVERS)]


def joint_splits(reader: Reader) -> list[JointSplit]:
    """How the cost of a unit was split between its products, by day."""
    return reader.all(JointSplit, SPLITS)


def costs(reader: Reader, first: date, last: date) -> list[Cost]:
    """What was paid in a span of days, both included, in the order of payment."""
    where = "WHERE cost.day BETWEEN :first AND :last"
    return reader.all(Cost, f"{COSTS} {where} ORDER BY cost.day, cost.id", first=first, last=last)


def cost(reader: Reader, id: int) -> Cost | None:
    """The cost of that id."""
    return reader.one(Cost, f"{COSTS} WHERE cost.id = :id", id=id)


def of_amount(reader: Reader, first: date, last: date, amount_minor: int) -> list[Cost]:
    """What was paid in a span of days, both included, that came to just so much each, in the order of payment."""
    where = "WHERE cost.day BETWEEN :first AND :last AND cost.amount_minor = :amount"
    return reader.all(Cost, f"{COSTS} {where} ORDER BY cost.day, cost.id", first=first, last=last, amount=amount_minor)


def prices(reader: Reader) -> list[ListPrice]:
    """Every list price, by product and day."""
    return reader.all(ListPrice, f"{PRICES} ORDER BY COALESCE(crop.name, price.species), price.from_day")


def price(reader: Reader, id: int) -> ListPrice | None:
    """The list price of that id."""
    return reader.one(ListPrice, f"{PRICES} WHERE price.id = :id", id=id)
