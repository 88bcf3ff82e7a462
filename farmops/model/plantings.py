"""Crops, and plantings of them: from sowing or transplanting to clearing."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class StartedBy(StrEnum):
    """How a planting came into its bed."""

    SOWING = "sowing"
    TRANSPLANTING = "transplanting"


@dataclass(frozen=True, slots=True)
class Crop:
    """What is grown; `library_key` names the packaged facts about it, if there are any."""

    id: int
    name: str
    library_key: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewCrop:
    """A crop that the farm begins to grow."""

    name: str
    library_key: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class CropChange:
    """A correction of a crop."""

    crop_id: int
    name: str | Keep = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class Planting:
    """A crop in a bed. `area_mm2` None means the whole bed; `cleared_day` is its last day, None while it grows."""

    id: int
    bed_id: int
    bed: str
    unit: str
    crop_id: int
    crop: str
    variety: str | None
    started_day: date
    started_by: StartedBy
    cleared_day: date | None
    plants: int | None
    area_mm2: int | None
    area_typed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewPlanting:
    """What a person says when a crop goes into a bed: one that is grown here, or one to begin with.

    One that is `sure` is not asked about an area that its bed hardly has.
    """

    bed_id: int
    crop: int | NewCrop
    started_day: date
    started_by: StartedBy = StartedBy.TRANSPLANTING
    variety: str | None = None
    plants: int | None = None
    area: Measured | None = None
    note: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class PlantingChange:
    """A correction of a planting, or its clearing."""

    planting_id: int
    started_day: date | Keep = KEEP
    started_by: StartedBy | Keep = KEEP
    cleared_day: date | Keep | None = KEEP
    variety: str | Keep | None = KEEP
    plants: int | Keep | None = KEEP
    area: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP
    sure: bool = False
