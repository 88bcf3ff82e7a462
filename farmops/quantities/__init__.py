"""Weights, volumes, areas, lengths, temperatures and money: as typed, as exact integers, as read."""

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
from farmops.quantities.measures import CHOICES, METRIC, US, Measures
from farmops.quantities.money import currency_decimals, major, parse_money, show_money, show_money_exact
from farmops.quantities.prices import Price, parse_price, show_price, show_price_exact
from farmops.quantities.temperature import TEMPERATURE, celsius
from farmops.quantities.weighing import Weighing, weigh

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
    "parse_money",
    "parse_price",
    "show_money",
    "show_money_exact",
    "show_price",
    "show_price_exact",
    "weigh",
]
