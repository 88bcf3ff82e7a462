"""Harvests: weighings of what came out, from which planting or fish lot, and what became of it."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.lot_codes import LotCode
from farmops.model.values import KEEP, Keep, Measured


class Use(StrEnum):
    """What became of a harvest."""

    SOLD = "sold"
    HOME = "home"
    GIVEN = "given"
    WASTE = "waste"
    FEED = "feed"

    @property
    def counts(self) -> bool:
        """Whether the weight counts as yield: sold, eaten at home or given away."""
        return self in COUNTING_USES


COUNTING_USES = (Use.SOLD, Use.HOME, Use.GIVEN)


@dataclass(frozen=True, slots=True)
class Harvest:
    """One weighing. `mass_mg` is net of the tare; exactly one of planting and fish lot is set.

    `dressed_mg` is what was left of fish that were gutted, None where they were not weighed again.
    """

    id: int
    day: date
    unit: str
    bed: str | None
    what: str
    planting_id: int | None
    fish_lot_id: int | None
    mass_mg: int
    mass_typed: str
    tare_mg: int
    tare_typed: str | None
    number: int | None
    use: Use
    note: str | None
    operation: str
    dressed_mg: int | None = None
    dressed_typed: str | None = None

    @property
    def lot_code(self) -> str:
        """What stands on its label: see `model.lot_codes`."""
        return str(LotCode(self.bed or self.what, self.planting_id, self.day))


@dataclass(frozen=True, slots=True)
class NewHarvest:
    """One weighing as a person books it; `mass` is the net weight. Names a planting or a fish lot.

    `fingerprint` marks a row of an imported file, so that the same row is never booked twice. What somebody else booked
    already, or what is far from the usual, is booked when the person is `sure` of it.
    """

    day: date
    mass: Measured
    planting_id: int | None = None
    fish_lot_id: int | None = None
    tare: Measured | None = None
    number: int | None = None
    use: Use = Use.HOME
    note: str | None = None
    fingerprint: str | None = None
    sure: bool = False
    dressed: Measured | None = None


@dataclass(frozen=True, slots=True)
class HarvestChange:
    """A correction of a weighing."""

    harvest_id: int
    day: date | Keep = KEEP
    mass: Measured | Keep = KEEP
    tare: Measured | Keep | None = KEEP
    planting_id: int | Keep | None = KEEP
    fish_lot_id: int | Keep | None = KEEP
    number: int | Keep | None = KEEP
    use: Use | Keep = KEEP
    note: str | Keep | None = KEEP
    dressed: Measured | Keep | None = KEEP
