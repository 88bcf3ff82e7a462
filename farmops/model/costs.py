"""Costs: money paid for a unit or shared by all, used up at once or over the life of a thing; and prices."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.notes import KeptFile
from farmops.model.values import KEEP, Keep, Measured


class CostKind(StrEnum):
    """Whether a cost is used up in its period or bought to last."""

    OPERATING = "operating"
    CAPITAL = "capital"


class Category(StrEnum):
    """What kind of thing the money went for."""

    FEED = "feed"
    SEED = "seed and plants"
    FISH = "fish"
    POWER = "power"
    WATER = "water"
    SUPPLIES = "supplies"
    REPAIRS = "repairs"
    BUILDING = "building"
    TOOLS = "tools"
    INSURANCE = "insurance"
    FEES = "fees and permits"
    LABOUR = "hired labour"
    OTHER = "other"


class Basis(StrEnum):
    """Which costs are counted."""

    CASH = "cash"
    OPERATING = "operating"
    FULL = "full"


class Driver(StrEnum):
    """What shared costs go to the units by, weighted by the days each was active."""

    EQUAL = "equal"
    BED_AREA = "bed area"
    TANK_VOLUME = "tank volume"
    BIOMASS = "biomass"
    MINUTES = "minutes worked"
    WATT_HOURS = "pump watt-hours"
    FIXED_SHARES = "fixed shares"


class JointMethod(StrEnum):
    """How a joint cost is split; the words stand beside every number that rests on it."""

    WEIGHT = "weight"
    SALES_VALUE = "sales value"
    NET_REALISABLE_VALUE = "net realisable value"
    CONSTANT_MARGIN = "constant gross margin"
    FIXED_SHARES = "fixed shares"


ALL_SHARED = "all"
"""The word for shared costs of every category that has no driver of its own."""


@dataclass(frozen=True, slots=True)
class Cost:
    """Money paid, in minor units. `unit` None: shared by all active units. Capital has a life and a salvage.

    What was for a bed was for its unit too, what was for a fish lot for the unit it lived in that day. `receipt` is the
    name under which a copy of `receipt_name` is kept beside the store.
    """

    id: int
    day: date
    what: str
    category: Category
    payee: str | None
    amount_minor: int
    amount_typed: str
    unit_id: int | None
    unit: str | None
    bed_id: int | None
    bed: str | None
    fish_lot_id: int | None
    lot: str | None
    kind: CostKind
    life_months: int | None
    salvage_minor: int | None
    label: str | None
    recurring_cost_id: int | None
    receipt: str | None
    receipt_name: str | None
    receipt_sha256: str | None
    note: str | None

    @property
    def where(self) -> str | None:
        """The bed, fish lot or unit that it was for; None where all share it."""
        return self.bed or self.lot or self.unit


def same_payment(one: Cost, payee: str | None, what: str) -> bool:
    """Whether a cost of the same day and amount looks like the same payment: of one payee, else for one thing."""
    if one.payee is None or payee is None:
        return one.payee == payee and one.what.casefold() == what.casefold()
    return one.payee.casefold() == payee.casefold()


@dataclass(frozen=True, slots=True)
class NewCost:
    """A cost as a person books it: for a unit, a bed or a fish lot alone, or for none of them and shared.

    One of the same day, payee and amount as another is booked when it is said to be paid `again`.
    """

    day: date
    what: str
    amount: Measured
    category: Category = Category.OTHER
    payee: str | None = None
    unit_id: int | None = None
    kind: CostKind = CostKind.OPERATING
    life_months: int | None = None
    salvage_minor: int | None = None
    note: str | None = None
    bed_id: int | None = None
    fish_lot_id: int | None = None
    label: str | None = None
    receipt: KeptFile | None = None
    again: bool = False


@dataclass(frozen=True, slots=True)
class CostChange:
    """A correction of a cost. To name a unit, a bed or a fish lot takes it from the others."""

    cost_id: int
    day: date | Keep = KEEP
    what: str | Keep = KEEP
    amount: Measured | Keep = KEEP
    category: Category | Keep = KEEP
    payee: str | Keep | None = KEEP
    unit_id: int | Keep | None = KEEP
    kind: CostKind | Keep = KEEP
    life_months: int | Keep | None = KEEP
    salvage_minor: int | Keep | None = KEEP
    note: str | Keep | None = KEEP
    bed_id: int | Keep | None = KEEP
    fish_lot_id: int | Keep | None = KEEP
    label: str | Keep | None = KEEP
    receipt: KeptFile | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class ListPrice:
    """What a crop, or fish of a species, is worth from a day on: minor units per milligrams, never divided."""

    id: int
    crop_id: int | None
    species: str | None
    what: str
    from_day: date
    price_minor: int
    per_mg: int
    typed: str


@dataclass(frozen=True, slots=True)
class NewPrice:
    """A price from a day on, for a crop or a species; the same day again corrects it."""

    from_day: date
    price_minor: int
    per_mg: int
    typed: str
    crop_id: int | None = None
    species: str | None = None


@dataclass(frozen=True, slots=True)
class PriceChange:
    """A correction of a price: of its first day, or of what it is, its three fields together."""

    price_id: int
    from_day: date | Keep = KEEP
    price_minor: int | Keep = KEEP
    per_mg: int | Keep = KEEP
    typed: str | Keep = KEEP


class Product(StrEnum):
    """Which product of a unit a cost was for; joint is for both."""

    PRODUCE = "produce"
    FISH = "fish"
    JOINT = "joint"


@dataclass(frozen=True, slots=True)
class DriverFrom:
    """What shared costs of a category, or `all` others, go to the units by from a day on.

    `shares` are the fixed shares, unit id and parts of them all; empty for every other driver.
    """

    id: int
    category: str
    from_day: date
    driver: Driver
    shares: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class NewDriver:
    """A driver from a day on; the same day again corrects it. `category` None means all that have none of their own."""

    from_day: date
    driver: Driver
    category: Category | None = None
    shares: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class JointSplit:
    """How the cost of a unit is split between produce and fish from a day on."""

    id: int
    from_day: date
    method: JointMethod
    produce_thousandths: int | None


@dataclass(frozen=True, slots=True)
class NewJointSplit:
    """A method from a day on; the same day again corrects it. Only fixed shares take thousandths for the produce."""

    from_day: date
    method: JointMethod
    produce_thousandths: int | None = None


@dataclass(frozen=True, slots=True)
class LabourRate:
    """What an hour of work is worth from a day on, of one person or of all who have no rate of their own (None)."""

    id: int
    from_day: date
    person_id: int | None
    person: str | None
    rate_minor: int
    typed: str


@dataclass(frozen=True, slots=True)
class NewLabourRate:
    """A rate from a day on; the same day again corrects it."""

    from_day: date
    rate: Measured
    person_id: int | None = None
