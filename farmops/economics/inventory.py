"""What used supplies cost when the same supply was bought at different prices: the weighted average."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from farmops.economics.allocation import proportion
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Bought:
    """A quantity that came in, in any whole unit (mg, ml, pieces), and what it cost [cents]."""

    quantity: int
    cost: int


@dataclass(frozen=True, slots=True)
class Used:
    """A quantity that went out, in the unit it was bought in."""

    quantity: int


@dataclass(frozen=True, slots=True)
class Stock:
    """What is held of one supply, and at what cost.

    Uses between two purchases are charged as differences of rounded sums, so a thousand small feedings cost
    what one large one would, and what is used and what is left always add up to what was bought, to the cent.

    Attributes:
        basis_quantity: held right after the last purchase, in any whole unit (mg, ml, pieces).
        basis_cost: what that cost [cents].
        used_quantity: used since then.
    """

    basis_quantity: int = 0
    basis_cost: int = 0
    used_quantity: int = 0

    @property
    def quantity(self) -> int:
        """What is held now."""
        return self.basis_quantity - self.used_quantity

    @property
    def cost(self) -> int:
        """What is held now stands in the books at this [cents]."""
        return self.basis_cost - self._charged(self.used_quantity)

    @property
    def unit_cost(self) -> Fraction | None:
        """Average cost of one unit of quantity [cents]; None where nothing was ever held."""
        return Fraction(self.basis_cost, self.basis_quantity) if self.basis_quantity else None

    def bought(self, quantity: int, cost: int) -> Stock:
        """The stock after a purchase, from which on a new average holds.

        Raises:
            Refused: the quantity is not above zero or the cost is negative.
        """
        if quantity <= 0 or cost < 0:
            raise Refused("A purchase has a quantity above zero and a cost of zero or more.")
        return Stock(self.quantity + quantity, self.cost + cost)

    def used(self, quantity: int) -> tuple[Stock, int]:
        """The stock after a use, and what was used at the average cost [cents].

        Raises:
            Refused: the quantity is negative or more than is held.
        """
        if quantity < 0:
            raise Refused("A used quantity is zero or more.")
        if quantity > self.quantity:
            raise Refused("More is used than is held; book the missing purchase first.")
        after = Stock(self.basis_quantity, self.basis_cost, self.used_quantity + quantity)
        return after, self.cost - after.cost

    def _charged(self, quantity: int) -> int:
        return proportion(self.basis_cost, quantity, self.basis_quantity) if quantity else 0


def moving_average(opening: Stock, movements: Iterable[Bought | Used]) -> tuple[list[int], Stock]:
    """Cost of every use at the average of what was held then, and the stock left.

    Args:
        opening: what was held before.
        movements: purchases and uses, in the order they happened.

    Returns:
        The cost of each use, in order [cents], and the closing stock.

    Raises:
        Refused: as `Stock.bought` and `Stock.used`.

    Source:
        Perpetual weighted average, OpenStax (2019), Principles of Accounting, Volume 1, 10.3.
    """
    stock, costs = opening, []
    for movement in movements:
        if isinstance(movement, Bought):
            stock = stock.bought(movement.quantity, movement.cost)
        else:
            stock, cost = stock.used(movement.quantity)
            costs.append(cost)
    return costs, stock


def periodic_average(opening: Stock, purchases: Iterable[Bought], used_quantity: int) -> tuple[int, Stock]:
    """Cost of all that a period used at one average over the opening stock and the period's purchases.

    Args:
        opening: what was held before the period.
        purchases: what the period bought.
        used_quantity: what the period used.

    Returns:
        The cost of what was used [cents] and the closing stock.

    Raises:
        Refused: as `Stock.bought` and `Stock.used`.

    Source:
        Periodic weighted average, OpenStax (2019), Principles of Accounting, Volume 1, 10.2.
    """
    costs, closing = moving_average(opening, [*purchases, Used(used_quantity)])
    return costs[0], closing
