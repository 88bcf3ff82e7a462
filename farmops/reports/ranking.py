"""The order of the units if something were assumed otherwise: what an answer hangs on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.figures import Figure, given
from farmops.model.costs import Basis, JointMethod, JointSplit
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.costs import CostOf, Kind
from farmops.reports.returns import Asked, Returns, UnitReturns, in_span
from farmops.reports.spans import Span, span_of
from farmops.reports.splitting import split_cost, split_in_force

AS_SET = "as the farm is set"
BASES = {Basis.CASH: "money paid only", Basis.OPERATING: "operating cost only", Basis.FULL: "full cost"}
METHODS = (JointMethod.WEIGHT, JointMethod.SALES_VALUE, JointMethod.NET_REALISABLE_VALUE, JointMethod.CONSTANT_MARGIN)
DEARER, CHEAPER = Fraction(6, 5), Fraction(4, 5)


@dataclass(frozen=True, slots=True)
class Assumed:
    """What is assumed: an hour at `rate_minor` where given, else labour times `labour`; prices times `prices`."""

    words: str
    split: JointSplit
    labour: Fraction = Fraction(1)
    prices: Fraction = Fraction(1)
    rate_minor: int | None = None


@dataclass(frozen=True, slots=True)
class Ranked:
    """The units in order under one assumption, best first; those without the number are left out."""

    words: str
    by_net: tuple[str, ...]
    by_cost: tuple[str, ...]


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
    others = [_ranked(on[basis], Assumed(BASES[basis], split)) for basis in Basis if basis is not asked.basis]
    others += [_ranked(here, one) for one in _assumptions(here, split, rate_minor)]
    return Ranking(farm, span, asked.basis, _ranked(here, Assumed(AS_SET, split)), tuple(others))


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
    made = [(one.unit, *_numbers(one, assumed)) for one in found.units if one.harvest.value or one.fish.value]
    return Ranked(
        assumed.words,
        _order([(unit, None if net is None else -net) for unit, net, _ in made]),
        _order([(unit, cost) for unit, _, cost in made]),
    )


def _order(numbers: Sequence[tuple[str, Fraction | None]]) -> tuple[str, ...]:
    known = [(number, unit) for unit, number in numbers if number is not None]
    return tuple(unit for _, unit in sorted(known, key=lambda one: one[0]))


def _numbers(one: UnitReturns, assumed: Assumed) -> tuple[Fraction | None, Fraction | None]:
    """Net return and cost of a weight of produce, in minor units and minor units per mg."""
    cost = _cost(one, assumed)
    produce, fish = (_dearer(figure, assumed.prices) for figure in (one.value_of_produce, one.value_of_fish))
    part, _ = split_cost(one.unit, cost, (one.marketable, produce), (one.fish, fish), assumed.split)
    known = None not in (produce.value, fish.value, cost.all.value)
    net = Fraction((produce.value or 0) + (fish.value or 0) - (cost.all.value or 0)) if known else None
    paid = part.value is not None and one.marketable.value
    return net, Fraction(part.value or 0) / Fraction(one.marketable.value or 1) if paid else None


def _dearer(figure: Figure, times: Fraction) -> Figure:
    if figure.value is None or times == 1:
        return figure
    return given(figure.name, round(figure.value * times), figure.unit, "at other prices")


def _cost(one: UnitReturns, assumed: Assumed) -> CostOf:
    cost = one.bears
    counted = cost.of(Kind.LABOUR)
    if cost.all.value is None or (assumed.labour == 1 and assumed.rate_minor is None):
        return cost
    before = cost.sum_of(Kind.LABOUR)
    if assumed.rate_minor is None:
        labour = round(before * assumed.labour)
    else:
        labour = round(Fraction(assumed.rate_minor) * (one.minutes.value or 0) / 60)
    rest = tuple(figure for figure in cost.joint if not any(figure is other for other in counted))
    whole = given(cost.all.name, cost.all.value - before + labour, cost.all.unit, assumed.words)
    return replace(cost, all=whole, joint=(*rest, given("labour", labour, cost.all.unit, assumed.words)))
