"""What goes into the water of a unit: doses, top-ups and where the water comes from."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.readings import Form, Measure, NewReading
from farmops.model.supplies import HeldBy
from farmops.model.values import KEEP, Keep, Measured


class SourceKind(StrEnum):
    """Where water comes from; mains water says what it is disinfected with."""

    RAIN = "rain"
    WELL = "well"
    SURFACE = "surface"
    CHLORINE = "mains with chlorine"
    CHLORAMINE = "mains with chloramine"
    MAINS = "mains"

    @property
    def disinfected(self) -> bool:
        """Whether what it was disinfected with may still be in it; mains of unknown kind count as if it were."""
        return self in (SourceKind.CHLORINE, SourceKind.CHLORAMINE, SourceKind.MAINS)


@dataclass(frozen=True, slots=True)
class Dose:
    """Something that was added to the water of a unit; the amount in milligrams or millilitres, as `held_by` says.

    `by` is who booked it, None while it is being booked; `supply` is what it was drawn from, if from any.
    """

    id: int
    day: date
    unit_id: int
    unit: str
    what: str
    held_by: HeldBy
    amount: int
    amount_typed: str
    why: str | None
    note: str | None
    by: str | None
    supply: str | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of something, by weight or by volume, beside what was typed for it."""

    held_by: HeldBy
    measured: Measured


@dataclass(frozen=True, slots=True)
class NewDose:
    """A dose as a person books it; what it takes is drawn from a supply where one is named."""

    unit_id: int
    day: date
    what: str
    amount: Amount
    why: str | None = None
    note: str | None = None
    supply_id: int | None = None


@dataclass(frozen=True, slots=True)
class DoseChange:
    """A correction of a dose; its unit stays."""

    dose_id: int
    day: date | Keep = KEEP
    what: str | Keep = KEEP
    amount: Amount | Keep = KEEP
    why: str | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class WaterSource:
    """Where water comes from."""

    id: int
    name: str
    kind: SourceKind
    note: str | None


@dataclass(frozen=True, slots=True)
class NewSource:
    """A source as a person names it."""

    name: str
    kind: SourceKind
    note: str | None = None


@dataclass(frozen=True, slots=True)
class SourceChange:
    """A correction of a source."""

    source_id: int
    name: str | Keep = KEEP
    kind: SourceKind | Keep = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class SourceValue:
    """What the water of a source is like from a day on, in the unit of `READ_IN`; nitrogen compounds as N."""

    id: int
    source_id: int
    source: str
    from_day: date
    measure: Measure
    value: float
    form: Form | None
    typed: str


@dataclass(frozen=True, slots=True)
class NewSourceValues:
    """What the water of a source is like from a day on."""

    source_id: int
    from_day: date
    readings: tuple[NewReading, ...]


@dataclass(frozen=True, slots=True)
class SourceValuesSet:
    """The values that were set, in the order they were given."""

    values: tuple[SourceValue, ...]


@dataclass(frozen=True, slots=True)
class TopUp:
    """Water that was put into a unit, in millilitres."""

    id: int
    day: date
    unit_id: int
    unit: str
    volume_ml: int
    volume_typed: str
    source_id: int | None
    source: str | None
    kind: SourceKind | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewTopUp:
    """A top-up as a person books it."""

    unit_id: int
    day: date
    volume: Measured
    source_id: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class TopUpChange:
    """A correction of a top-up; its unit stays."""

    top_up_id: int
    day: date | Keep = KEEP
    volume: Measured | Keep = KEEP
    source_id: int | Keep | None = KEEP
    note: str | Keep | None = KEEP
