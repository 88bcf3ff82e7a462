"""The fish that are alive on a day: how many are left, and how heavy one was when last weighed."""

from __future__ import annotations

from datetime import date

from farmops.facts.populations import lives
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

LIVE = """
    SELECT fish_lot.id AS lot_id, fish_lot.code, fish_lot.species, fish_lot.library_key, lot_place.unit_id,
        picked.mass_mg / picked.number AS picked_mean_mg
    FROM fish_lot
    JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = fish_lot.id AND held.from_day <= :on_day
    )
    JOIN unit ON unit.id = lot_place.unit_id
    LEFT JOIN harvest AS picked ON picked.id = (
        SELECT held.id FROM harvest AS held
        WHERE held.fish_lot_id = fish_lot.id AND held.number IS NOT NULL AND held.day <= :on_day
        ORDER BY held.day DESC, held.id DESC LIMIT 1
    )
    WHERE fish_lot.stocked_day <= :on_day AND (fish_lot.closed_day IS NULL OR fish_lot.closed_day >= :on_day)
    ORDER BY unit.position, unit.id, fish_lot.stocked_day, fish_lot.id
"""


@dataclass(frozen=True, slots=True)
class LiveLot:
    """A lot that is alive on a day, and the unit it lives in. Weights of one fish in milligrams.

    `mean_mg` rests on the weighing of `weighed_day`, of a sample or at stocking; `picked_mean_mg` is that of the last
    fish that were counted and weighed as a harvest, None where there were none.
    """

    lot_id: int
    code: str
    species: str
    library_key: str | None
    unit_id: int
    number: int
    mean_mg: int
    weighed_day: date
    picked_mean_mg: int | None

    @property
    def heavy_mg(self) -> int:
        """The weight of one fish, rather too much than too little."""
        return max(self.mean_mg, self.picked_mean_mg or 0)


def live_on(reader: Reader, on: date) -> list[LiveLot]:
    """The lots that are alive on a day, in walking order; those of which none is left are passed over."""
    rows = list(reader.rows(LIVE, on_day=on))
    held = {lot: life.on(on) for lot, life in lives(reader, [row["lot_id"] for row in rows]).items()}
    found = [(row, held.get(row["lot_id"])) for row in rows]
    return [
        LiveLot(number=left.number, mean_mg=left.mean_mg, weighed_day=left.weighed_day, **row)
        for row, left in found
        if left and left.mean_mg is not None
    ]
