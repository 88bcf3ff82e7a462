"""Whether a unit earns back what it took to build: payback, worth today and rate of return, from what it did so far."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction

from farmops.economics.capital import discounted_payback, internal_rate, net_present_value, payback
from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts import units as unit_facts
from farmops.facts.costs import BorneCost
from farmops.facts.reading import Store
from farmops.figures import (
    Figure,
    Number,
    RecordLine,
    Records,
    difference,
    given,
    missing,
    of_records,
    quotient,
    worked,
)
from farmops.model.costs import Basis
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.returns import Asked, UnitReturns, in_span
from farmops.reports.spans import Span, active_days, span_of

MONEY, YEARS, SHARE = "minor", "years", "share"
DAYS_A_YEAR = 365
FEWEST_DAYS = 90
EXACT = 10**9
USUAL_INTEREST = Fraction(5, 100)
NEVER = "it is not earned back within its life"
NO_RATE = "there is no one rate: it loses money, or pays out more than once"
Calculation = Callable[[Sequence[Number]], Number | float | None]
NOTHING_BUILT = "not enough records: nothing bought to last is booked for it"


@dataclass(frozen=True, slots=True)
class Investment:
    """One unit as an investment. `a_year` is value less operating cost, and less labour where it is counted."""

    unit: str
    outlay: Figure
    a_year: Figure
    payback: Figure
    discounted_payback: Figure
    worth_today: Figure
    rate_of_return: Figure

    def figures(self) -> dict[str, Figure]:
        """Every figure by its name."""
        return {name: getattr(self, name) for name in FIGURES}


FIGURES = ("outlay", "a_year", "payback", "discounted_payback", "worth_today", "rate_of_return")


@dataclass(frozen=True, slots=True)
class Investments:
    """The units as investments at a rate of interest, each over the life of what lasts longest in it."""

    settings: Farm
    span: Span
    interest: Fraction
    labour: bool
    units: tuple[Investment, ...]


def investments(
    store: Store, asked: Asked, interest: Fraction = USUAL_INTEREST, *, labour: bool = False
) -> Investments:
    """Every unit that was ever active in the span or had something built for it."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        found = in_span(store, reader, farm, span, Basis.FULL)
        bought = cost_facts.capital(reader, span.last)
        states = unit_facts.all_states(reader)
        lines = []
        for unit, line in zip(unit_facts.units(reader), found.units, strict=True):
            things = [one for one in bought if one.unit_id == unit.id]
            days = active_days(states.get(unit.id, []), span)
            if things or days:
                lines.append(_investment(line, things, days, interest, labour=labour))
        return Investments(farm, span, interest, labour, tuple(lines))


def _investment(
    line: UnitReturns, things: Sequence[BorneCost], days: int, interest: Fraction, *, labour: bool
) -> Investment:
    outlay, a_year = _outlay(line.unit, things), _a_year(line, days, labour=labour)
    rate = given("interest a year", interest, SHARE, "as asked for")
    flows = Flows(things)
    without, with_interest = (outlay, a_year), (outlay, a_year, rate)
    over = f"over {flows.years} years, what wears out earlier bought again"

    def made(
        name: str, unit: str, parts: tuple[Figure, ...], formula: str, again: Calculation, reason: str = ""
    ) -> Figure:
        known = all(part.value is not None for part in parts)
        if known and again([part.value or 0 for part in parts]) is None:
            return missing(f"{name} of {line.unit}", unit, reason, *parts)
        return worked(f"{name} of {line.unit}", unit, parts, f"{formula}, {over}", _exact(again))

    return Investment(
        line.unit,
        outlay,
        a_year,
        made("payback", YEARS, without, "years until the outlay is earned back", flows.payback, NEVER),
        made("payback with interest", YEARS, with_interest, "the same, at worth today", flows.discounted, NEVER),
        made("worth today", MONEY, with_interest, "all that is paid and earned, at its worth today", flows.worth),
        made("rate of return", SHARE, without, "the interest at which it is worth nothing", flows.rate, NO_RATE),
    )


def _exact(again: Calculation) -> Callable[[Sequence[Number]], Number]:
    """A result as an exact number, so that it can be worked out again and compared."""
    return lambda values: Fraction(again(values) or 0).limit_denominator(EXACT)


@dataclass(frozen=True, slots=True)
class Flows:
    """Money out and in by year: all built at once, what wears out earlier bought again, worth left at the end."""

    things: Sequence[BorneCost]

    @property
    def years(self) -> int:
        """Years of the life of what lasts longest."""
        return max((math.ceil((one.life_months or 1) / 12) for one in self.things), default=1)

    def of(self, values: Sequence[Number]) -> list[int]:
        """One amount per year, the first today, in minor units; `values` are the outlay and what comes in a year."""
        flows = [-round(values[0]), *([round(values[1])] * self.years)]
        for one in self.things:
            left = one.salvage_minor or 0
            life = max(1, round((one.life_months or 1) / 12))
            for year in range(life, self.years, life):
                flows[year] -= one.amount_minor - left
            flows[-1] += left
        return flows

    def payback(self, values: Sequence[Number]) -> Fraction | None:
        """Years until the outlay is earned back."""
        return payback(self.of(values))

    def discounted(self, values: Sequence[Number]) -> float | None:
        """The same with every amount at its worth today."""
        return discounted_payback(float(values[2]), self.of(values))

    def worth(self, values: Sequence[Number]) -> int:
        """Net present value in minor units."""
        return round(net_present_value(float(values[2]), self.of(values)))

    def rate(self, values: Sequence[Number]) -> float | None:
        """Internal rate of return as a fraction."""
        return internal_rate(self.of(values)).rate


def _outlay(unit: str, things: Sequence[BorneCost]) -> Figure:
    name = f"what it took to build {unit}"
    if not things:
        return missing(name, MONEY, NOTHING_BUILT)
    lines = [RecordLine("costs", one.id, f"{one.day} {one.what}", one.amount_minor) for one in things]
    value = sum(one.amount_minor for one in things)
    return of_records(name, value, MONEY, "what was bought for it to last", Records("costs", len(lines), lambda: lines))


def _a_year(line: UnitReturns, days: int, *, labour: bool) -> Figure:
    name = f"what {line.unit} leaves in a year"
    if days < FEWEST_DAYS:
        active = "1 day" if days == 1 else f"{days} days"
        reason = f"not enough records: it was active on {active} of the span, and {FEWEST_DAYS} are needed"
        return missing(name, MONEY, reason)
    left = line.over_operating
    if labour:
        left = difference(f"left of {line.unit} after labour", MONEY, left, line.labour, "less labour")
    length = given("years it was active", Fraction(days, DAYS_A_YEAR), YEARS, f"{days} active days")
    what = "value less operating cost" + (" and labour" if labour else "")
    return quotient(name, MONEY, left, length, f"{what} ÷ years it was active", nothing="it was not active", note=None)
