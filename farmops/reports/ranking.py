"""The order of the units if something were assumed otherwise: what an answer hangs on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.figures import Figure, Number, given, total, worked
from farmops.model.costs import Basis, JointMethod, JointSplit
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.costs import CostOf, Kind
from farmops.reports.returns import MONEY, Asked, Returns, UnitReturns, in_span, per_mass, value_and_net
from farmops.reports.spans import Span, span_of
from farmops.reports.splitting import split_cost, split_in_force

AS_SET = "as the farm is set"
BASES = {Basis.CASH: "money paid only", Basis.OPERATING: "operating cost only", Basis.FULL: "full cost"}
METHODS = (JointMethod.WEIGHT, JointMethod.SALES_VALUE, JointMethod.NET_REALISABLE_VALUE, JointMethod.CONSTANT_MARGIN)
DEARER, CHEAPER = Fraction(6, 5), Fraction(4, 5)


@dataclass(frozen=True, slots=True)
class Assumed:
    """What is assumed: an hour at `rate_minor` where given, else labour times `labour`; prices times `prices`.

    Where all is `as_found`, the numbers are those of Returns.
    """

    words: str
    split: JointSplit
    labour: Fraction = Fraction(1)
    prices: Fraction = Fraction(1)
    rate_minor: int | None = None
    as_found: bool = False


@dataclass(frozen=True, slots=True)
class Numbers:
    """What a unit is ranked by: its net return, in minor units, and what a weight of produce cost, per mg."""

    unit: str
    net: Figure
    cost_per_mass: Figure


@dataclass(frozen=True, slots=True)
class Ranked:
    """The units in order under one assumption, best first; those without the number are left out of its order."""

    words: str
    by_net: tuple[str, ...]
    by_cost: tuple[str, ...]
    units: tuple[Numbers, ...]


@dataclass(frozen=True, slots=True)
class Ranking:
    """The order of the units as the farm is set, and under each other assumption."""

    settings: Farm
    span: Span
    basis: Basis
    as_set: Ranked
    others: tuple[Ranked, ...]

    def changed(self, order: str) -> list[str]:
        """The assumptions under which an order, `by_net` or `by_cost`, is another one."""
        return [one.words for one in self.others if getattr(one, order) != getattr(self.as_set, order)]

    def figures(self) -> list[Figure]:
        """What the units are ranked by, under each assumption, whose words stand behind the names."""
        return [
            replace(figure, name=f"{figure.name}, {one.words}")
            for one in (self.as_set, *self.others)
            for unit in one.units
            for figure in (unit.net, unit.cost_per_mass)
        ]

    def first_changed(self, order: str) -> list[str]:
        """The assumptions under which another unit comes first."""
        first = getattr(self.as_set, order)[:1]
        return [one.words for one in self.others if getattr(one, order)[:1] != first]


def ranking(store: Store, asked: Asked, rate_minor: int | None = None) -> Ranking:
    """The units ranked on every basis, by every method, with other labour and prices; `rate_minor` is an hour's."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        split = split_in_force(cost_facts.joint_splits(reader), span.last)
        on = {basis: in_span(store, reader, farm, span, basis) for basis in Basis}
    here = on[asked.basis]
    bases = [basis for basis in Basis if basis is not asked.basis]
    others = [_ranked(on[basis], Assumed(BASES[basis], split, as_found=True)) for basis in bases]
    others += [_ranked(here, one) for one in _assumptions(here, split, rate_minor)]
    return Ranking(farm, span, asked.basis, _ranked(here, Assumed(AS_SET, split, as_found=True)), tuple(others))


def _assumptions(here: Returns, split: JointSplit, rate_minor: int | None) -> Iterator[Assumed]:
    for method in METHODS:
        if method is not split.method:
            yield Assumed(f"split by {method}", replace(split, method=method))
    if here.farm.labour.value:
        yield Assumed("labour not counted", split, labour=Fraction(0))
        yield Assumed("labour at twice its rate", split, labour=Fraction(2))
    if rate_minor is not None:
        from farmops.quantities import show_money

        words = f"an hour at {show_money(rate_minor, here.settings.measures)}"
        yield Assumed(words, split, rate_minor=rate_minor)
    yield Assumed("prices a fifth lower", split, prices=CHEAPER)
    yield Assumed("prices a fifth higher", split, prices=DEARER)


def _ranked(found: Returns, assumed: Assumed) -> Ranked:
    made = tuple(_numbers(one, assumed) for one in found.units if one.harvest.value or one.fish.value)
    by_net = _order((one.unit, None if one.net.value is None else -one.net.value) for one in made)
    return Ranked(assumed.words, by_net, _order((one.unit, one.cost_per_mass.value) for one in made), made)


def _order(numbers: Iterable[tuple[str, Number | None]]) -> tuple[str, ...]:
    known = [(number, unit) for unit, number in numbers if number is not None]
    return tuple(unit for _, unit in sorted(known, key=lambda one: one[0]))


def _numbers(one: UnitReturns, assumed: Assumed) -> Numbers:
    if assumed.as_found:
        return Numbers(one.unit, one.net, one.cost_per_mass)
    cost, fish = _cost(one, assumed), _dearer(one.value_of_fish, assumed)
    produce = _dearer(one.value_of_produce, assumed)
    part, _ = split_cost(one.unit, cost, (one.marketable, produce), (one.fish, fish), assumed.split)
    _, net = value_and_net(one.unit, (produce, fish), cost.all)
    return Numbers(one.unit, net, per_mass("produce", one.unit, part, one.marketable, assumed.split))


def _dearer(figure: Figure, assumed: Assumed) -> Figure:
    if assumed.prices == 1:
        return figure
    return worked(figure.name, figure.unit, (figure,), assumed.words, lambda values: round(values[0] * assumed.prices))


def _cost(one: UnitReturns, assumed: Assumed) -> CostOf:
    """The cost with its labour as assumed; what is not labour stays as it is."""
    cost = one.bears
    counted = cost.of(Kind.LABOUR)
    if cost.all.value is None or (assumed.labour == 1 and assumed.rate_minor is None):
        return cost
    booked = total("labour as the farm is set", MONEY, [figure for figure in counted if figure.value], "its labour")
    labour = _labour(booked, one.minutes, assumed)
    formula = "cost - labour as the farm is set + labour"
    whole = worked(cost.all.name, MONEY, (cost.all, booked, labour), formula, lambda values: _exchanged(*values))
    rest = tuple(figure for figure in cost.joint if not any(figure is other for other in counted))
    return replace(cost, all=whole, joint=(*rest, labour))


def _labour(booked: Figure, minutes: Figure, assumed: Assumed) -> Figure:
    """Labour at other pay; `minutes` that are not booked cost nothing."""
    rate = assumed.rate_minor
    if rate is None:
        return worked("labour", MONEY, (booked,), assumed.words, lambda values: round(values[0] * assumed.labour))
    if minutes.value is None:
        return given("labour", 0, MONEY, "no minutes are booked")
    return worked("labour", MONEY, (minutes,), assumed.words, lambda values: round(Fraction(rate) * values[0] / 60))


def _exchanged(whole: Number, old: Number, new: Number) -> Number:
    return whole - old + new
