"""Supplies: feed, filter pads, seed and the like: bought, held, used up, counted, past their date."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.costs import Category
from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class HeldBy(StrEnum):
    """What a supply is counted in."""

    MASS = "mass"
    VOLUME = "volume"
    COUNT = "count"


class Movement(StrEnum):
    """What a change of the stock was: used up, thrown away, or what a count found to be there."""

    USED = "used"
    THROWN_AWAY = "thrown away"
    COUNTED = "counted"


@dataclass(frozen=True, slots=True)
class Supply:
    """A thing that is bought, held and used up; its amounts are milligrams, millilitres or pieces."""

    id: int
    name: str
    category: Category
    held_by: HeldBy
    reorder_at: int | None
    reorder_typed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewSupply:
    """A supply as a person enters it; `reorder` is what is left when more is to be bought."""

    name: str
    held_by: HeldBy = HeldBy.MASS
    category: Category = Category.SUPPLIES
    reorder: Measured | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class SupplyChange:
    """A correction of a supply; what it is counted in stays."""

    supply_id: int
    name: str | Keep = KEEP
    category: Category | Keep = KEEP
    reorder: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class SupplyLot:
    """What was bought of a supply at once, in its unit; what it cost, or nothing for what was there already."""

    id: int
    supply_id: int
    supply: str
    held_by: HeldBy
    day: date
    amount: int
    amount_typed: str
    cost_id: int | None
    cost_minor: int | None
    cost_typed: str | None
    payee: str | None
    lot_code: str | None
    opened_day: date | None
    expires_day: date | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewSupplyLot:
    """What is bought of a supply at once: `paid` for all of it, None for what was there already.

    What seems to be among the costs already is booked when it is said to be paid `again`.
    """

    supply_id: int
    day: date
    amount: Measured
    paid: Measured | None = None
    payee: str | None = None
    lot_code: str | None = None
    opened_day: date | None = None
    expires_day: date | None = None
    note: str | None = None
    again: bool = False


@dataclass(frozen=True, slots=True)
class SupplyLotChange:
    """A correction of what was bought."""

    lot_id: int
    day: date | Keep = KEEP
    amount: Measured | Keep = KEEP
    paid: Measured | Keep | None = KEEP
    payee: str | Keep | None = KEEP
    lot_code: str | Keep | None = KEEP
    opened_day: date | Keep | None = KEEP
    expires_day: date | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class SupplyUse:
    """What was taken from a supply, in its unit, for one unit or for all (None); or what a count found to be left."""

    id: int
    supply_id: int
    supply: str
    held_by: HeldBy
    day: date
    kind: Movement
    amount: int
    amount_typed: str
    unit_id: int | None
    unit: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewSupplyUse:
    """What is taken from a supply, for one unit or for all (None); counted, it is what was found to be left."""

    supply_id: int
    day: date
    amount: Measured
    unit_id: int | None = None
    kind: Movement = Movement.USED
    note: str | None = None


@dataclass(frozen=True, slots=True)
class SupplyUseChange:
    """A correction of what was taken or counted."""

    use_id: int
    day: date | Keep = KEEP
    amount: Measured | Keep = KEEP
    unit_id: int | Keep | None = KEEP
    note: str | Keep | None = KEEP
