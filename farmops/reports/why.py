"""Any number by its name: the figure to open, of the farm, a unit, a bed, a crop, a fish lot or a supply."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import timedelta
from enum import StrEnum
from functools import partial
from typing import TypeVar

from farmops.facts.reading import Store
from farmops.figures import Figure
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.reports import balance, names
from farmops.reports.fish import lot_on_day
from farmops.reports.investment import investments
from farmops.reports.power_used import power_used
from farmops.reports.returns import Asked, UnitReturns, returns
from farmops.reports.supplies_held import supply_book, supply_called
from farmops.reports.yields import By, yields

DAYS_OF_POWER = 30
T = TypeVar("T")


class Of(StrEnum):
    """What a number can be of."""

    FARM = "the farm"
    UNIT = "a unit"
    BED = "a bed"
    CROP = "a crop"
    LOT = "a fish lot"
    SUPPLY = "a supply"


@dataclass(frozen=True, slots=True)
class Thing:
    """What a number is asked of: its kind, and its code or name; the farm needs none."""

    of: Of = Of.FARM
    name: str = ""


Finder = Callable[[Store, Asked, Thing], Figure]


def _of_returns(field: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    found: Figure = getattr(_unit_line(store, asked, thing), field)
    return found


def _unit_line(store: Store, asked: Asked, thing: Thing) -> UnitReturns:
    report = returns(store, asked)
    if thing.of is Of.FARM:
        return report.farm
    return _named(thing, {one.unit: one for one in report.units})


def _of_yields(by: By, field: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    lines = yields(store, asked, by).lines
    found: Figure = getattr(_named(thing, {one.name: one for one in lines}), field)
    return found


def _of_payback(field: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    found: Figure = getattr(_named(thing, {one.unit: one for one in investments(store, asked).units}), field)
    return found


def _of_balance(side: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    return balance.balance_of(store, thing.name, asked.last or asked.today).line(side).figure


def _of_lot(name: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    lot = names.lot(store, thing.name)
    last = asked.last or asked.today
    return lot_on_day(store, lot.id, min(last, lot.closed_day or last)).figure(name)


def _of_power(field: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    last = asked.last or asked.today
    first = asked.first or last - timedelta(days=DAYS_OF_POWER - 1)
    places = {one.unit: one for one in power_used(store, first, last) if one.unit is not None}
    return _named(thing, places).figures[field]


def _of_supply(field: str, store: Store, asked: Asked, thing: Thing) -> Figure:
    supply = supply_called(store, thing.name)
    return supply_book(store, supply, asked.last or asked.today).line.figures[field]


def _named(thing: Thing, found: Mapping[str, T]) -> T:
    wanted = " ".join(thing.name.split()).casefold()
    one = next((one for name, one in found.items() if name.casefold() == wanted), None)
    if one is None:
        known = ", ".join(found) or "none yet"
        raise NotFound(f"Nothing is told of {plain(thing.name)} as {thing.of} here. Known: {known}.")
    return one


RETURNS = {
    "cost-per-pound": "cost_per_mass",
    "cost-per-kg": "cost_per_mass",
    "fish-cost-per-pound": "fish_cost_per_mass",
    "fish-cost-per-kg": "fish_cost_per_mass",
    "cost": "cost",
    "produce": "marketable",
    "harvest": "harvest",
    "fish": "fish",
    "yield": "yield_per_area",
    "area": "area",
    "value": "value",
    "net": "net",
    "over-operating": "over_operating",
    "per-hour": "per_hour",
    "value-per-area": "value_per_area",
    "break-even-price": "break_even_price",
    "break-even-harvest": "break_even_yield",
    "labour": "labour",
    "minutes": "minutes",
}
YIELDS = {
    "cost-per-pound": "cost_per_mass",
    "cost-per-kg": "cost_per_mass",
    "cost": "cost",
    "produce": "marketable",
    "harvest": "harvest",
    "yield": "yield_per_area",
    "area": "area",
    "value": "value",
    "net": "net",
}
PAYBACK = {
    "outlay": "outlay",
    "a-year": "a_year",
    "payback": "payback",
    "discounted-payback": "discounted_payback",
    "worth-today": "worth_today",
    "rate-of-return": "rate_of_return",
}
FISH = {
    "mean-weight": "weight",
    **{
        name: name
        for name in (
            *("number", "weight", "weight-error", "weight-today", "biomass", "density", "survival", "feed", "gain"),
            *("feed-conversion", "sgr", "tgc", "dressing-yield"),
        )
    },
}
OF_LOTS = {"fish": "marketable", **{name: YIELDS[name] for name in ("cost-per-pound", "cost", "value", "net")}}


def _finders(how: Callable[..., Figure], fields: Mapping[str, str]) -> dict[str, Finder]:
    return {name: partial(how, field) for name, field in fields.items()}


KNOWN: dict[Of, dict[str, Finder]] = {
    Of.FARM: _finders(_of_returns, RETURNS),
    Of.UNIT: {
        **_finders(_of_balance, {name: name for name in balance.NAMES}),
        **_finders(_of_returns, RETURNS),
        **_finders(_of_payback, PAYBACK),
        **_finders(_of_power, {"energy": "energy", "power-cost": "cost"}),
    },
    Of.BED: _finders(partial(_of_yields, By.BED), YIELDS),
    Of.CROP: _finders(partial(_of_yields, By.CROP), YIELDS),
    Of.LOT: {**_finders(partial(_of_yields, By.LOT), OF_LOTS), **_finders(_of_lot, FISH)},
    Of.SUPPLY: _finders(_of_supply, {"held": "held", "worth": "worth"}),
}
"""What can be asked of each kind of thing, by the names that people type."""


def known_of(kinds: Iterable[Of]) -> list[str]:
    """The names of the figures of some kinds of things, each once."""
    return list(dict.fromkeys(name for kind in kinds for name in KNOWN[kind]))


def figure(store: Store, name: str, asked: Asked, thing: Thing) -> Figure:
    """The figure of a name. Raises NotFound, with the names there are."""
    if name in KNOWN[thing.of]:
        return KNOWN[thing.of][name](store, asked, thing)
    others = [kind for kind, finders in KNOWN.items() if name in finders]
    hint = f" It is told of {' and '.join(others)}." if others else ""
    raise NotFound(
        f"There is no figure {plain(name)} of {thing.of}.{hint} Known of {thing.of}: {', '.join(KNOWN[thing.of])}."
    )
