"""Weights, volumes, areas, lengths, temperatures and money: as typed, as exact integers, as read."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from farmops.quantities.amounts import Dimension
    from farmops.quantities.dimensions import (
        AREA,
        LENGTH,
        MASS,
        VOLUME,
        from_unit,
        in_unit,
        main_area_unit,
        main_length_unit,
        main_mass_unit,
        main_volume_unit,
    )
    from farmops.quantities.lives import parse_life, show_life
    from farmops.quantities.measures import CHOICES, METRIC, US, Measures
    from farmops.quantities.money import currency_decimals, major, parse_money, show_money, show_money_exact
    from farmops.quantities.prices import Price, parse_price, show_price, show_price_exact
    from farmops.quantities.temperature import TEMPERATURE, celsius
    from farmops.quantities.weighing import Weighing, weigh

HOMES = {
    "Dimension": "amounts",
    "AREA": "dimensions",
    "LENGTH": "dimensions",
    "MASS": "dimensions",
    "VOLUME": "dimensions",
    "from_unit": "dimensions",
    "in_unit": "dimensions",
    "main_area_unit": "dimensions",
    "main_length_unit": "dimensions",
    "main_mass_unit": "dimensions",
    "main_volume_unit": "dimensions",
    "CHOICES": "measures",
    "parse_life": "lives",
    "show_life": "lives",
    "METRIC": "measures",
    "Measures": "measures",
    "US": "measures",
    "currency_decimals": "money",
    "major": "money",
    "parse_money": "money",
    "show_money": "money",
    "show_money_exact": "money",
    "Price": "prices",
    "parse_price": "prices",
    "show_price": "prices",
    "show_price_exact": "prices",
    "TEMPERATURE": "temperature",
    "celsius": "temperature",
    "Weighing": "weighing",
    "weigh": "weighing",
}


def __getattr__(name: str) -> object:
    """Load the module a name lives in when it is first asked for: a command that weighs nothing loads no weights."""
    if name not in HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"{__name__}.{HOMES[name]}"), name)
    globals()[name] = value
    return value


__all__ = [
    "AREA",
    "CHOICES",
    "LENGTH",
    "MASS",
    "METRIC",
    "TEMPERATURE",
    "US",
    "VOLUME",
    "Dimension",
    "Measures",
    "Price",
    "Weighing",
    "celsius",
    "currency_decimals",
    "from_unit",
    "in_unit",
    "main_area_unit",
    "main_length_unit",
    "main_mass_unit",
    "main_volume_unit",
    "major",
    "parse_life",
    "parse_money",
    "parse_price",
    "show_life",
    "show_money",
    "show_money_exact",
    "show_price",
    "show_price_exact",
    "weigh",
]
