"""The ration of a lot: the most feed for a day, what holds it there, and what was fed already."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.fish import Ate
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure
from farmops.model.values import Measured


class Cap(StrEnum):
    """What a ration never exceeds, the gravest first where two hold it to the same."""

    READING = "a reading out of its limits"
    TEMPERATURE = "the temperature of the water"
    HANDLING = "the day before they are handled"
    BEDS = "what the beds take"
    FILTER = "what the filter takes"
    TABLE = "the feed table"


@dataclass(frozen=True, slots=True)
class LotRation:
    """The most feed for a lot on a day in whole grams, None where `missing` says what has to be known first.

    `caps` are all that hold it down, in grams, and `cap` the one that decides; `out` is what is out of its limits.
    `fed_g` was fed already. `temperature_c` was read on `read_day`.
    """

    lot_id: int
    code: str
    unit_id: int
    grams: int | None
    cap: Cap | None = None
    caps: tuple[tuple[Cap, float], ...] = ()
    temperature_c: float | None = None
    read_day: date | None = None
    fed_g: float = 0.0
    feeds_a_day: int = 1
    out: Measure | None = None
    missing: str | None = None

    @property
    def left_g(self) -> int | None:
        """What may still be fed on the day [g]."""
        return None if self.grams is None else max(0, int(self.grams - self.fed_g))


@dataclass(frozen=True, slots=True)
class Fed:
    """What a lot was fed when its feeding chore was done, and how it ate."""

    lot_id: int
    mass: Measured
    ate: Ate | None = None
