"""Fish lots: fish kept together, from stocking until the last one is gone."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class LossCause(StrEnum):
    """Why fish died, as far as it is known."""

    UNKNOWN = "unknown"
    OXYGEN = "oxygen"
    WATER = "water"
    TEMPERATURE = "temperature"
    DISEASE = "disease"
    INJURY = "injury"
    PREDATOR = "predator"
    JUMPED_OUT = "jumped out"
    CULLED = "culled"


class Disposal(StrEnum):
    """What was done with dead fish."""

    BURIED = "buried"
    COMPOSTED = "composted"
    WASTE_BIN = "waste bin"
    COLLECTED = "collected"
    SENT_TO_VET = "sent to a vet"
    OTHER = "other"


class Ate(StrEnum):
    """How much of a feeding was eaten."""

    ALL = "all"
    SOME = "some"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class FishLot:
    """Fish kept together. `mean_mg` is the mean weight of one fish at stocking; `closed_day` the last day with fish.

    `number` is that at stocking, 0 where they all came out of another lot; `source` says where they come from, and
    `paper` is the paper that goes with them.
    """

    id: int
    code: str
    species: str
    library_key: str | None
    stocked_day: date
    number: int
    mean_mg: int
    mean_typed: str
    closed_day: date | None
    note: str | None
    unit_id: int
    unit: str
    source: str | None = None
    paper_id: int | None = None
    paper: str | None = None


@dataclass(frozen=True, slots=True)
class NewFishLot:
    """What a person says when fish go into a unit; one that is `sure` is not asked about a species without facts."""

    code: str
    species: str
    unit_id: int
    stocked_day: date
    number: int
    mean: Measured
    library_key: str | None = None
    note: str | None = None
    source: str | None = None
    paper_id: int | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class FishLotChange:
    """A correction of a lot, or its closing when no fish are left."""

    lot_id: int
    code: str | Keep = KEEP
    species: str | Keep = KEEP
    stocked_day: date | Keep = KEEP
    number: int | Keep = KEEP
    mean: Measured | Keep = KEEP
    closed_day: date | Keep | None = KEEP
    note: str | Keep | None = KEEP
    source: str | Keep | None = KEEP
    paper_id: int | Keep | None = KEEP
    sure: bool = False
