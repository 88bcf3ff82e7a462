"""What a crop, a lot or a unit brought in, what it cost, and what would have to change for it to pay."""

from __future__ import annotations

from fractions import Fraction

from farmops.model.errors import Refused
from farmops.model.frozen import dataclass

MINUTES_PER_HOUR = 60


@dataclass(frozen=True, slots=True)
class Budget:
    """Returns and costs of one enterprise over one period; all in cents, and any of them may be zero.

    Attributes:
        gross_returns: what was sold, eaten or given, at its price.
        operating_cost: supplies used, power, water, feed and wages paid.
        ownership_cost: depreciation, insurance and whatever else is due though nothing grows.
        labour_cost: unpaid hours at the farm's rate.
    """

    gross_returns: int
    operating_cost: int
    ownership_cost: int = 0
    labour_cost: int = 0

    @property
    def total_cost(self) -> int:
        """Operating, ownership and labour cost together [cents]."""
        return self.operating_cost + self.ownership_cost + self.labour_cost

    @property
    def returns_over_operating_cost(self) -> int:
        """What is left once the running costs are paid [cents]; below zero, stopping would lose less."""
        return self.gross_returns - self.operating_cost

    @property
    def net_return(self) -> int:
        """What is left once every cost is paid [cents]; a loss is below zero."""
        return self.gross_returns - self.total_cost

    @property
    def return_to_labour(self) -> int:
        """What the unpaid hours earned together [cents]: the net return with their price put back."""
        return self.net_return + self.labour_cost

    def return_per_hour(self, minutes_worked: int) -> Fraction:
        """What one unpaid hour earned [cents per hour].

        Raises:
            Refused: no minutes are booked.
        """
        if minutes_worked <= 0:
            raise Refused("There is no return per hour: no minutes worked are booked.")
        return Fraction(self.return_to_labour * MINUTES_PER_HOUR, minutes_worked)

    def share_of_returns_needed(self) -> Fraction:
        """Total cost as a fraction of the returns [-]; above 1, the returns did not pay for all.

        Raises:
            Refused: nothing was brought in.
        """
        if self.gross_returns <= 0:
            raise Refused("No share of the returns pays the costs: nothing was brought in.")
        return Fraction(self.total_cost, self.gross_returns)


@dataclass(frozen=True, slots=True)
class PartialBudget:
    """The four effects of one change on the farm, all in cents.

    Source:
        SARE, Enterprise Budgets for Diversified Farms, Table 3.
    """

    added_returns: int
    reduced_costs: int
    added_costs: int
    reduced_returns: int

    @property
    def benefits(self) -> int:
        """What the change brings [cents]."""
        return self.added_returns + self.reduced_costs

    @property
    def drawbacks(self) -> int:
        """What the change takes [cents]."""
        return self.added_costs + self.reduced_returns

    @property
    def net_change(self) -> int:
        """Change of the yearly result [cents]; below zero, leave things as they are."""
        return self.benefits - self.drawbacks


def break_even_price(total_cost: int, quantity: int | Fraction, other_returns: int = 0) -> Fraction:
    """Price at which one product just pays what the others leave unpaid: (TC - other) / Y.

    Args:
        total_cost: cost of all products together [cents].
        quantity: what was harvested of this product, in any unit, above zero.
        other_returns: what the other products brought in [cents].

    Returns:
        Cents per unit of quantity; zero or less where the other products pay for all.

    Raises:
        Refused: nothing was harvested.
    """
    if quantity <= 0:
        raise Refused("There is no break-even price: nothing was harvested.")
    return (total_cost - other_returns) / Fraction(quantity)


def break_even_yield(total_cost: int, price: int | Fraction, other_returns: int = 0) -> Fraction:
    """Harvest at which one product just pays what the others leave unpaid: (TC - other) / P.

    Args:
        total_cost: cost of all products together [cents].
        price: what one unit of quantity sells for [cents], above zero.
        other_returns: what the other products brought in [cents].

    Returns:
        Quantity in the unit of the price; zero or less where the other products pay for all.

    Raises:
        Refused: the price is not above zero.
    """
    if price <= 0:
        raise Refused("There is no break-even yield: the product has no price.")
    return (total_cost - other_returns) / Fraction(price)


def break_even_units(fixed_cost: int, price: int | Fraction, unit_cost: int | Fraction) -> Fraction:
    """Pieces to sell until what each leaves over pays the fixed cost: FC / (P - VC).

    Args:
        fixed_cost: cost that does not depend on how many are sold [cents].
        price: what one piece sells for [cents].
        unit_cost: what one more piece costs [cents].

    Raises:
        Refused: a piece costs what it sells for, or more.

    Source:
        OpenStax (2019), Principles of Accounting, Volume 2, 3.2.
    """
    if price <= unit_cost:
        raise Refused("No number sold breaks even: one more costs as much as it sells for, or more.")
    return fixed_cost / (Fraction(price) - Fraction(unit_cost))


def payback_years(investment: int, net_cash_per_year: int) -> Fraction:
    """Years until an even yearly surplus has paid back an investment; both in cents.

    For uneven years see `capital.payback`.

    Raises:
        Refused: there is no yearly surplus.
    """
    if net_cash_per_year <= 0:
        raise Refused("It never pays back: there is no yearly surplus.")
    return Fraction(investment, net_cash_per_year)
