"""Power as it is booked and as it is used: devices, meters and prices as lists; energy and cost place by place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from datetime import date
from fractions import Fraction

from farmops.economics.power import PowerUse, power_uses
from farmops.facts import power as power_facts
from farmops.facts import units as unit_facts
from farmops.facts.farm import farm
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, missing
from farmops.model.frozen import dataclass
from farmops.model.power import Device, MeterReading, PowerPrice
from farmops.reports.pools import MONEY, rounded
from farmops.reports.power import FORMULA, PowerWords

ENERGY = "Wh"
NO_PRICE = "no price of power held on these days"


@dataclass(frozen=True, slots=True)
class PowerBook:
    """What runs on power, what meters showed, and what power cost from day to day."""

    devices: tuple[Device, ...]
    meters: tuple[MeterReading, ...]
    prices: tuple[PowerPrice, ...]


@dataclass(frozen=True, slots=True)
class PlaceUse:
    """Power of a unit, or of what all share (None), over a span.

    Attributes:
        unit: its code.
        metered_days: days that a meter tells.
        rated_days: days that rated watts and hours tell.
        watt_hours: energy [Wh].
        cost_minor: what it cost, rounded once [minor units]; None where no price held on any day.
        unpriced_days: days with use on which no price held.
        figures: `energy` and `cost`, down to readings of meters and devices.
    """

    unit: str | None
    metered_days: int
    rated_days: int
    watt_hours: int
    cost_minor: int | None
    unpriced_days: int
    figures: dict[str, Figure] = field(default_factory=dict, compare=False)


def power_book(store: Store) -> PowerBook:
    """Every device, reading of a meter and price. Raises NoFarm."""
    with store.reading() as reader:
        farm(reader)
        return _book(reader)


def _book(reader: Reader) -> PowerBook:
    return PowerBook(
        tuple(power_facts.devices(reader)), tuple(power_facts.meters(reader)), tuple(power_facts.power_prices(reader))
    )


def power_used(store: Store, first: date, last: date) -> list[PlaceUse]:
    """Power of every place with use in a span, what all share first, then in walking order. Raises NoFarm."""
    with store.reading() as reader:
        farm(reader)
        book, units = _book(reader), unit_facts.units(reader)
    uses = power_uses(book.devices, book.meters, book.prices, first, last)
    places = [(None, None), *((one.id, one.code) for one in units)]
    words = PowerWords({one.id: one for one in book.devices}, {one.id: one for one in book.meters})
    return list(_by_place(uses, places, words))


def _by_place(
    uses: Sequence[PowerUse], places: Sequence[tuple[int | None, str | None]], words: PowerWords
) -> Iterator[PlaceUse]:
    for unit_id, code in places:
        own = [one for one in uses if one.unit_id == unit_id]
        if own:
            priced = [one.cost for one in own if one.cost is not None]
            yield PlaceUse(
                code,
                sum(one.days for one in own if one.metered),
                sum(one.days for one in own if not one.metered),
                round(sum((one.watt_hours for one in own), Fraction(0))),
                round(sum(priced, Fraction(0))) if priced else None,
                sum(one.days for one in own if one.cost is None),
                _figures(code or "what all share", own, words),
            )


def _figures(name: str, own: Sequence[PowerUse], words: PowerWords) -> dict[str, Figure]:
    energy = [(0, words.of(one), one.watt_hours) for one in own]
    priced = [(0, words.of(one), one.cost) for one in own if one.cost is not None]
    none = missing(f"power of {name}", MONEY, NO_PRICE)
    return {
        "energy": rounded(
            f"energy of {name}", "power", energy, "by meters, else by rated watts and hours", unit=ENERGY
        ),
        "cost": rounded(f"power of {name}", "power", priced, FORMULA, _unpriced(own)) if priced else none,
    }


def _unpriced(own: Sequence[PowerUse]) -> str | None:
    days = sum(one.days for one in own if one.cost is None)
    return f"No price held on {days} days; they are not counted." if days else None
