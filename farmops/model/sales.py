"""Sales: what was sold to whom, from which planting or fish lot, and standing orders for it."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from fractions import Fraction

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured
from farmops.quantities.exact_weights import as_typed, in_ounces


class SoldBy(StrEnum):
    """What a price is for."""

    WEIGHT = "weight"
    BUNCH = "bunch"
    HEAD = "head"
    DOZEN = "dozen"
    EACH = "each"


@dataclass(frozen=True, slots=True)
class Terms:
    """How much and for what: `amount` in milligrams by weight, else in pieces, bunches, heads or dozens.

    The price is `price_minor` minor units for `per_amount` of them, never divided.
    """

    sold_by: SoldBy
    amount: Measured
    price_minor: int
    per_amount: int
    price_typed: str


@dataclass(frozen=True, slots=True)
class SaleLine:
    """What was sold from one planting or one fish lot. `unsold` and `returned` are parts of the amount.

    `mass_mg` is the weight of the whole amount where it was sold by count and weighed.
    """

    id: int
    sale_id: int
    planting_id: int | None
    fish_lot_id: int | None
    what: str
    bed: str | None
    sold_by: SoldBy
    amount: int
    amount_typed: str
    unsold: int
    returned: int
    price_minor: int
    per_amount: int
    price_typed: str
    mass_mg: int | None
    mass_typed: str | None

    @property
    def terms(self) -> Terms:
        """How much and for what."""
        amount = Measured(self.amount, self.amount_typed)
        return Terms(self.sold_by, amount, self.price_minor, self.per_amount, self.price_typed)

    @property
    def sold(self) -> int:
        """What stayed with the buyer."""
        return self.amount - self.unsold - self.returned

    @property
    def paid_minor(self) -> int:
        """What was paid for that, rounded once to the minor unit, half up; a weight counts as it was typed."""
        return halves_up(self._priced * self.price_minor, self.per_amount)

    @property
    def _priced(self) -> int | Fraction:
        """What the price is of. Milligrams were rounded, and would make less of half a cent: 12 oz at 3.50/lb."""
        if self.sold_by is not SoldBy.WEIGHT or not self.sold or self.price_typed.startswith("for "):
            return self.sold
        whole = as_typed(self.amount_typed, self.amount)
        if whole.denominator == 1:
            return self.sold
        return max(whole - in_ounces(self.unsold) - in_ounces(self.returned), Fraction(0))

    @property
    def sold_mg(self) -> int | None:
        """The weight of what stayed with the buyer; None where it was sold by count and not weighed."""
        if self.sold_by is SoldBy.WEIGHT:
            return self.sold
        return None if self.mass_mg is None else halves_up(self.mass_mg * self.sold, self.amount)

    @property
    def name(self) -> str:
        """`WREN-N CHARD`, or the code of a fish lot."""
        return f"{self.bed} {self.what}" if self.bed else self.what


def halves_up(above: int | Fraction, below: int) -> int:
    """The quotient of two numbers that are not negative, to the nearest whole number, half up."""
    return (2 * above + below) // (2 * below)


@dataclass(frozen=True, slots=True)
class Sale:
    """One sale to one buyer on a day."""

    id: int
    day: date
    buyer: str
    note: str | None
    lines: tuple[SaleLine, ...] = ()

    @property
    def paid_minor(self) -> int:
        """What was paid for all of it."""
        return sum(line.paid_minor for line in self.lines)


@dataclass(frozen=True, slots=True)
class NewSaleLine:
    """A line as a person books it; names a planting or a fish lot."""

    terms: Terms
    planting_id: int | None = None
    fish_lot_id: int | None = None
    unsold: int = 0
    returned: int = 0
    mass: Measured | None = None


@dataclass(frozen=True, slots=True)
class NewSale:
    """A sale as a person books it."""

    day: date
    buyer: str
    lines: tuple[NewSaleLine, ...]
    note: str | None = None


@dataclass(frozen=True, slots=True)
class SaleChange:
    """A correction of a sale; lines that are given take the place of all it had."""

    sale_id: int
    day: date | Keep = KEEP
    buyer: str | Keep = KEEP
    note: str | Keep | None = KEEP
    lines: tuple[NewSaleLine, ...] | Keep = KEEP


@dataclass(frozen=True, slots=True)
class ComingBack:
    """So much more of a line came back: `returned` by the buyer, or `unsold`; in the unit of its amount."""

    line_id: int
    returned: int = 0
    unsold: int = 0


@dataclass(frozen=True, slots=True)
class StandingOrder:
    """What a buyer takes again and again by a rule, until a day (None: for good)."""

    id: int
    buyer: str
    crop_id: int | None
    species: str | None
    what: str
    sold_by: SoldBy
    amount: int
    amount_typed: str
    price_minor: int
    per_amount: int
    price_typed: str
    rule_text: str
    rule_words: str
    start_day: date
    until_day: date | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewOrder:
    """A standing order as a person books it; `rule` in plain words, such as `Tue Fri` or `2 weeks on Sat`."""

    buyer: str
    terms: Terms
    rule: str
    start_day: date
    crop_id: int | None = None
    species: str | None = None
    until_day: date | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class OrderChange:
    """A correction of a standing order, or its end."""

    order_id: int
    buyer: str | Keep = KEEP
    terms: Terms | Keep = KEEP
    rule: str | Keep = KEEP
    start_day: date | Keep = KEEP
    until_day: date | Keep | None = KEEP
    note: str | Keep | None = KEEP
