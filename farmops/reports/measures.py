"""What value and cost of a unit come to: over operating cost, per hour, per area, and where it would just pay."""

from __future__ import annotations

from farmops.figures import Figure, difference, missing, quotient, total
from farmops.model.costs import Basis
from farmops.model.frozen import dataclass
from farmops.reports.costs import OPERATING, CostOf, Kind

MASS, MONEY, MINUTES = "mg", "minor", "minutes"
PRICE, PER_AREA, PER_MINUTE = "minor per mg", "minor per mm2", "minor per minute"
NO_MINUTES = "no minutes are booked for it"
NOT_ON_CASH = "money paid counts things bought to last at once; ask for the operating or the full cost"


@dataclass(frozen=True, slots=True)
class Bears:
    """The cost that a unit bears on a basis, the minutes worked for it, and why they tell too little, if so."""

    cost: CostOf
    minutes: Figure
    basis: Basis
    few_minutes: str | None = None


def measures_of(
    code: str, bears: Bears, value: Figure, values: tuple[Figure, Figure], marketable: Figure, area: Figure
) -> dict[str, Figure]:
    """The measures of a unit by name; `values` are of produce and of fish."""
    operating, labour = _operating(code, bears), _labour(code, bears)
    over = difference(f"returns over operating cost of {code}", MONEY, value, operating, "value - operating cost")
    per_area = quotient(
        f"value per area of {code}", PER_AREA, value, area, "value ÷ bed area", nothing="it has no bed area"
    )
    return {
        "value_per_area": per_area,
        "operating_cost": operating,
        "over_operating": over,
        "labour": labour,
        "minutes": bears.minutes,
        "per_hour": _per_hour(code, bears, value, labour),
        **_break_even(code, bears.cost.all, values, marketable),
    }


def _operating(code: str, bears: Bears) -> Figure:
    name = f"operating cost of {code}"
    if bears.basis is Basis.CASH:
        return missing(name, MONEY, NOT_ON_CASH)
    if bears.cost.all.value is None:
        return missing(name, MONEY, bears.cost.all.reason or "no costs are booked", bears.cost.all)
    return total(name, MONEY, bears.cost.of(*OPERATING), "supplies used, power, and what else was paid")


def _labour(code: str, bears: Bears) -> Figure:
    return total(f"labour on {code}", MONEY, bears.cost.of(Kind.LABOUR), "minutes at the rate of their days")


def _per_hour(code: str, bears: Bears, value: Figure, labour: Figure) -> Figure:
    """What an hour of work earned: the net return with the price of the hours put back."""
    name = f"returns per hour of work, {code}"
    net = difference(f"net return of {code}", MONEY, value, bears.cost.all, "value - cost")
    kept = total(f"left for the work on {code}", MONEY, (net, labour), "net return + labour that was counted")
    if bears.few_minutes and bears.minutes.value is not None and kept.value is not None:
        return missing(name, PER_MINUTE, bears.few_minutes, kept, bears.minutes)
    formula = "left for the work ÷ minutes worked, times 60"
    return quotient(name, PER_MINUTE, kept, bears.minutes, formula, nothing=NO_MINUTES)


def _break_even(code: str, cost: Figure, values: tuple[Figure, Figure], marketable: Figure) -> dict[str, Figure]:
    """The price, and the harvest at the price it had, at which produce pays what fish leave unpaid."""
    produce, fish = values
    left = difference(f"cost of {code} that fish leave unpaid", MONEY, cost, fish, "cost - value of fish")
    nothing = "no produce that counts was weighed"
    price = quotient(
        f"break-even price of produce, {code}",
        PRICE,
        left,
        marketable,
        "cost that fish leave unpaid ÷ produce",
        nothing=nothing,
    )
    earned = quotient(
        f"what produce of {code} was worth", PRICE, produce, marketable, "value ÷ weight", nothing=nothing
    )
    harvest = quotient(
        f"break-even harvest of {code}",
        MASS,
        left,
        earned,
        "cost that fish leave unpaid ÷ worth of a weight",
        nothing="its produce was worth nothing",
    )
    return {"break_even_price": price, "break_even_yield": harvest}
