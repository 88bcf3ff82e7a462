"""Beds: where crops stand, what fills them, and how large each is from which day."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class BedKind(StrEnum):
    """What the roots stand in."""

    MEDIA = "media"
    RAFT = "raft"
    FILM = "film"
    SOIL = "soil"


@dataclass(frozen=True, slots=True)
class Bed:
    """A bed of a unit. `name` is short and unique within the unit; `code` is `UNIT-NAME`; depth in micrometres."""

    id: int
    unit_id: int
    unit: str
    name: str
    kind: BedKind
    depth_um: int | None
    depth_typed: str | None
    note: str | None

    @property
    def code(self) -> str:
        """The name under which the bed is called from anywhere on the farm."""
        return f"{self.unit}-{self.name}"


@dataclass(frozen=True, slots=True)
class BedSize:
    """The planted area of a bed from a day on, in square millimetres."""

    id: int
    bed_id: int
    from_day: date
    area_mm2: int
    area_typed: str


@dataclass(frozen=True, slots=True)
class NewBed:
    """What a person says of a new bed; one that is `sure` is not asked about an unlikely depth."""

    unit_id: int
    name: str
    from_day: date
    area: Measured | None = None
    kind: BedKind = BedKind.MEDIA
    depth: Measured | None = None
    note: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class BedChange:
    """A correction of a bed; its size has an entry of its own, because it holds from a day."""

    bed_id: int
    name: str | Keep = KEEP
    kind: BedKind | Keep = KEEP
    depth: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP
    sure: bool = False


@dataclass(frozen=True, slots=True)
class NewBedSize:
    """The planted area of a bed from a day on; the same day again corrects it.

    One that is `sure` is not asked about plantings that stand there and are larger.
    """

    bed_id: int
    from_day: date
    area: Measured
    sure: bool = False
