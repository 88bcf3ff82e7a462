"""What weighings add up to, each valued at the list price of its day.

The sums go through the weighings once, planting by planting and price by price, in the order of an index that holds
all they need; none is looked at that lies outside the span.
"""

from __future__ import annotations

from datetime import date, timedelta

from farmops.facts.harvests import COUNTS
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

LISTED = """
    WITH held AS (
        SELECT crop_id, species, from_day, price_minor, per_mg FROM price
        UNION ALL SELECT id, NULL, :always, NULL, NULL FROM crop
        UNION ALL SELECT DISTINCT CAST(NULL AS BIGINT), species, :always, CAST(NULL AS BIGINT), CAST(NULL AS BIGINT)
            FROM fish_lot
    ), listed AS (
        SELECT crop_id, species, from_day, price_minor, per_mg,
            LEAD(from_day) OVER (PARTITION BY crop_id, species ORDER BY from_day) AS until_day
        FROM held
    )
"""
"""The spans of days in which each product has one price; before its first one it has none."""
VALUE = "(2 * harvest.mass_mg * listed.price_minor + listed.per_mg) / (2 * listed.per_mg)"
KINDS = {"sold": "harvest.use = 'sold'", "eaten": "(harvest.use = 'home' OR harvest.use = 'given')"}
"""What counts, in two kinds, so that each weighing is valued once."""
OF_KIND = {"weighings": "COUNT(*)", "mg": "SUM(harvest.mass_mg)", "value_minor": f"SUM({VALUE})"}
SUMS = {
    "weighings": "COUNT(*)",
    "mass_mg": "SUM(harvest.mass_mg)",
    **{
        f"{kind}_{what}": f"{formula} FILTER (WHERE {use})"
        for kind, use in KINDS.items()
        for what, formula in OF_KIND.items()
    },
    "unpriced": f"COUNT(*) FILTER (WHERE listed.per_mg IS NULL AND {COUNTS})",
}
SUMMED = ", ".join(f"{formula} AS {name}" for name, formula in SUMS.items())
ADDED = ", ".join(f"CAST(COALESCE(SUM({name}), 0) AS BIGINT) AS {name}" for name in SUMS)
CAST = ", ".join(f"CAST(COALESCE({formula}, 0) AS BIGINT) AS {name}" for name, formula in SUMS.items())
WHILE_LISTED = """
    harvest.day >= CASE WHEN listed.from_day > :first THEN listed.from_day ELSE :first END
    AND harvest.day < CASE WHEN listed.until_day < :after THEN listed.until_day ELSE :after END
"""
PICKED = f"""
    SELECT planting.id, {SUMMED}
    FROM planting CROSS JOIN listed CROSS JOIN harvest
    WHERE listed.crop_id = planting.crop_id AND harvest.planting_id = planting.id AND {WHILE_LISTED}
    GROUP BY planting.id
"""
TAKEN = f"""
    SELECT lot_place.unit_id, fish_lot.species, {SUMMED}
    FROM fish_lot CROSS JOIN listed CROSS JOIN harvest CROSS JOIN lot_place
    WHERE listed.species = fish_lot.species AND harvest.fish_lot_id = fish_lot.id AND {WHILE_LISTED}
        AND lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
            SELECT MAX(there.from_day) FROM lot_place AS there
            WHERE there.fish_lot_id = harvest.fish_lot_id AND there.from_day <= harvest.day
        )
    GROUP BY lot_place.unit_id, fish_lot.species
"""

TOTALS = f"""
    {LISTED}, picked AS ({PICKED}), taken AS ({TAKEN})
    SELECT bed.unit_id, bed.id AS bed_id, crop.id AS crop_id, crop.name AS crop, NULL AS species, {ADDED}
    FROM picked
    JOIN planting ON planting.id = picked.id
    JOIN bed ON bed.id = planting.bed_id
    JOIN crop ON crop.id = planting.crop_id
    GROUP BY bed.unit_id, bed.id, crop.id, crop.name
    UNION ALL
    SELECT unit_id, NULL, NULL, NULL, species, {ADDED} FROM taken GROUP BY unit_id, species
    ORDER BY unit_id, bed_id, crop, species
"""

LOTS = f"""
    {LISTED}
    SELECT lot_place.unit_id, NULL AS bed_id, NULL AS crop_id, NULL AS crop, fish_lot.species,
        fish_lot.id AS lot_id, fish_lot.code AS lot, {CAST}
    FROM fish_lot CROSS JOIN listed CROSS JOIN harvest CROSS JOIN lot_place
    WHERE listed.species = fish_lot.species AND harvest.fish_lot_id = fish_lot.id AND {WHILE_LISTED}
        AND lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
            SELECT MAX(there.from_day) FROM lot_place AS there
            WHERE there.fish_lot_id = harvest.fish_lot_id AND there.from_day <= harvest.day
        )
    GROUP BY lot_place.unit_id, fish_lot.id, fish_lot.code, fish_lot.species, listed.from_day
    ORDER BY fish_lot.code, lot_place.unit_id, listed.from_day
"""


@dataclass(frozen=True, slots=True)
class HarvestTotal:
    """What a span brought from one crop in one bed, or from the fish of one species in one unit.

    Masses in milligrams. `sold` are the weighings marked sold, `eaten` those eaten at home or given; both together
    count, waste and feed do not. Values sum weighings, each valued to the minor unit at the list price of its day;
    `unpriced` of those that count had no price.
    """

    unit_id: int
    bed_id: int | None
    crop_id: int | None
    crop: str | None
    species: str | None
    weighings: int
    mass_mg: int
    sold_weighings: int
    sold_mg: int
    sold_value_minor: int
    eaten_weighings: int
    eaten_mg: int
    eaten_value_minor: int
    unpriced: int

    @property
    def counting_weighings(self) -> int:
        """How many weighings count."""
        return self.sold_weighings + self.eaten_weighings

    @property
    def counting_mg(self) -> int:
        """The weight that counts."""
        return self.sold_mg + self.eaten_mg

    @property
    def value_minor(self) -> int:
        """What the weighings that count are worth at the list."""
        return self.sold_value_minor + self.eaten_value_minor


def totals(reader: Reader, first: date, last: date) -> list[HarvestTotal]:
    """The weighings of a span summed by unit, bed, crop and species."""
    after = last + timedelta(days=1) if last < date.max else last
    return reader.all(HarvestTotal, TOTALS, first=first, after=after, always=date.min)


@dataclass(frozen=True, slots=True)
class LotTotal(HarvestTotal):
    """What a span brought from one fish lot in one unit, for each of the list prices there were."""

    lot_id: int
    lot: str


def of_lots(reader: Reader, first: date, last: date) -> list[LotTotal]:
    """The weighings of a span summed by fish lot, unit and list price."""
    after = last + timedelta(days=1) if last < date.max else last
    return reader.all(LotTotal, LOTS, first=first, after=after, always=date.min)
