"""Notes and photos on the farm, a unit, a bed or a chore, and what was changed there."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep


class Changed(StrEnum):
    """What was changed on a unit, so that later readings can be told from those before."""

    PUMP = "pump"
    AIR_PUMP = "air pump"
    SIPHON = "siphon"
    MEDIA = "media"
    FILTER = "filter"
    LINER = "liner"
    HEATER = "heater"
    FEED = "feed"
    WATER_SOURCE = "water source"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A copy that is kept beside the store: its name there, the name it came with, and the hash of its content."""

    file: str
    name: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Note:
    """A note, a kept file, or both, on the farm or on one unit, bed or chore; `changed` marks a change of hardware."""

    id: int
    day: date
    unit_id: int | None
    unit: str | None
    bed_id: int | None
    chore_id: int | None
    where: str | None
    text: str | None
    changed: Changed | None
    file: str | None
    file_name: str | None
    file_sha256: str | None


@dataclass(frozen=True, slots=True)
class NewNote:
    """A note as a person makes it; it says something, shows a file or marks what was changed."""

    day: date
    text: str | None = None
    unit_id: int | None = None
    bed_id: int | None = None
    chore_id: int | None = None
    changed: Changed | None = None
    file: KeptFile | None = None


@dataclass(frozen=True, slots=True)
class NoteChange:
    """A correction of a note; where it stands and its file stay."""

    note_id: int
    day: date | Keep = KEEP
    text: str | Keep | None = KEEP
    changed: Changed | Keep | None = KEEP
