"""Figures in the farm's own weights and measures, with only the digits that mean something."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from farmops.figures import Figure, Number
from farmops.quantities import (
    AREA,
    MASS,
    VOLUME,
    Measures,
    in_unit,
    main_area_unit,
    main_mass_unit,
    main_volume_unit,
    major,
    show_money,
    show_money_exact,
)
from farmops.quantities.numbers import show_decimal
from farmops.quantities.worded import Worded

MG_PER_G, MG_PER_KG, MM2_PER_M2, WH_PER_KWH = 1_000, 1_000_000, 1_000_000, 1_000


def shown(figure: Figure, measures: Measures) -> str:
    """The value of a figure as a person reads it, or why there is none."""
    if figure.value is None:
        return figure.reason or "not known"
    return shown_value(figure.value, figure.unit, measures)


def shown_value(value: Number, unit: str, measures: Measures) -> str:
    """A number in one of the units of storage as a person reads it."""
    show = UNITS.get(unit)
    return _worded(show(value, measures) if show else f"{value} {unit}", value, unit, measures)


def shown_bare(figure: Figure, measures: Measures) -> str:
    """The same without its currency and without what it is per: for a column whose head says them."""
    show = BARE.get(figure.unit)
    if show is None or figure.value is None:
        return shown(figure, measures)
    return _worded(str(show(figure.value, measures)), figure.value, figure.unit, measures)


def _worded(words: str, value: Number, unit: str, measures: Measures) -> str:
    """Words that know their number, where the farm has a unit for it."""
    if isinstance(words, Worded) or unit not in IN_FARM_UNITS:
        return words
    size, name = IN_FARM_UNITS[unit](measures)
    return Worded(words, Fraction(value) * size, name)


def yield_in_farm_units(value: Number, measures: Measures) -> Fraction:
    """A yield in mg per mm2 (that is kg per m2) as main weight unit per main area unit."""
    mass, area = main_mass_unit(measures), main_area_unit(measures)
    return Fraction(value) * _size(AREA, area) / _size(MASS, mass)


def price_in_farm_units(value: Number, measures: Measures) -> Fraction:
    """A price in minor units per mg as minor units per main weight unit."""
    return Fraction(value) * _size(MASS, main_mass_unit(measures))


def per_area_in_farm_units(value: Number, measures: Measures) -> Fraction:
    """A sum in minor units per mm2 as minor units per main area unit."""
    return Fraction(value) * _size(AREA, main_area_unit(measures))


def _size(dimension: object, unit: str) -> Fraction:
    return Fraction(1) / in_unit(1, dimension, unit)  # type: ignore[arg-type]


def _mass(value: Number, measures: Measures) -> str:
    return MASS.show(round(value), measures)


def _area(value: Number, measures: Measures) -> str:
    return AREA.show(round(value), measures)


def _money(value: Number, measures: Measures) -> str:
    return show_money(round(value), measures)


def _yield(value: Number, measures: Measures) -> str:
    amount = yield_in_farm_units(value, measures)
    return f"{show_decimal(amount, 2, measures)} {main_mass_unit(measures)} per {main_area_unit(measures)}"


def _price(value: Number, measures: Measures) -> str:
    return f"{show_money(round(price_in_farm_units(value, measures)), measures)} per {main_mass_unit(measures)}"


def _value_per_area(value: Number, measures: Measures) -> str:
    return f"{show_money(round(per_area_in_farm_units(value, measures)), measures)} per {main_area_unit(measures)}"


def _years(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value), 1, measures)} years"


def _per_hour(value: Number, measures: Measures) -> str:
    return f"{show_money(round(Fraction(value) * 60), measures)} per hour"


def _bare_per_area(value: Number, measures: Measures) -> str:
    return show_money_exact(round(per_area_in_farm_units(value, measures)), measures)


def _bare_per_hour(value: Number, measures: Measures) -> str:
    return show_money_exact(round(Fraction(value) * 60), measures)


def _bare_money(value: Number, measures: Measures) -> str:
    return show_money_exact(round(value), measures)


def _bare_yield(value: Number, measures: Measures) -> str:
    return show_decimal(yield_in_farm_units(value, measures), 2, measures)


def _bare_price(value: Number, measures: Measures) -> str:
    return show_money_exact(round(price_in_farm_units(value, measures)), measures)


def _days(value: Number, measures: Measures) -> str:
    return "1 day" if value == 1 else f"{value} days"


def _minutes(value: Number, measures: Measures) -> str:
    return f"{value} min"


def _energy(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value) / WH_PER_KWH, 1, measures)} kWh"


def _area_days(value: Number, measures: Measures) -> str:
    return f"{_area(value, measures)} × days"


def _volume_days(value: Number, measures: Measures) -> str:
    return f"{VOLUME.show(round(value), measures)} × days"


def _mass_days(value: Number, measures: Measures) -> str:
    return f"{_mass(value, measures)} × days"


def _fish(value: Number, measures: Measures) -> str:
    return f"{value} fish"


def _share(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value) * 100, 1, measures)} %"


def _ratio(value: Number, measures: Measures) -> str:
    return show_decimal(Fraction(value), 2, measures)


def _a_day(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value), 2, measures)} % a day"


def _degree_days(value: Number, measures: Measures) -> str:
    return f"{round(value)} degree-days C"


def _density(value: Number, measures: Measures) -> str:
    mass, volume = main_mass_unit(measures), main_volume_unit(measures)
    times = 1000 if volume == "L" else 100
    amount = Fraction(value) * times * _size(VOLUME, volume) / _size(MASS, mass)
    return f"{show_decimal(amount, 1, measures)} {mass} per {times} {volume}"


def _mass_a_day(value: Number, measures: Measures) -> str:
    """Grams: nitrogen and feed of a day are small, and the tables that they are held against are in grams."""
    return f"{show_decimal(Fraction(value) / MG_PER_G, 1, measures)} g a day"


def _feed_rate(value: Number, measures: Measures) -> str:
    """Grams per square metre, as the published ranges have it."""
    return f"{show_decimal(Fraction(value) * MG_PER_G, 1, measures)} g per m2 a day"


def _volume(value: Number, measures: Measures) -> str:
    return VOLUME.show(round(value), measures)


def _flow(value: Number, measures: Measures) -> str:
    return f"{VOLUME.show(round(value), measures)} an hour"


def _turns(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value), 2, measures)} times an hour"


def _strength(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value), 1, measures)} mg/L"


def _strength_a_week(value: Number, measures: Measures) -> str:
    return f"{show_decimal(Fraction(value), 1, measures)} mg/L a week"


def _sum(measures: Measures) -> Fraction:
    return major(1, measures)


IN_FARM_UNITS: dict[str, Callable[[Measures], tuple[Fraction, str]]] = {
    "minor": lambda farm: (_sum(farm), farm.currency),
    "mg per mm2": lambda farm: (yield_in_farm_units(1, farm), f"{main_mass_unit(farm)} per {main_area_unit(farm)}"),
    "minor per mg": lambda farm: (
        _sum(farm) * price_in_farm_units(1, farm),
        f"{farm.currency} per {main_mass_unit(farm)}",
    ),
    "minor per mm2": lambda farm: (
        _sum(farm) * per_area_in_farm_units(1, farm),
        f"{farm.currency} per {main_area_unit(farm)}",
    ),
    "minor per minute": lambda farm: (_sum(farm) * 60, f"{farm.currency} per hour"),
    "Wh": lambda farm: (Fraction(1, WH_PER_KWH), "kWh"),
    "mg a day": lambda farm: (Fraction(1, MG_PER_G), "g a day"),
    "mg per mm2 a day": lambda farm: (Fraction(MG_PER_G), "g per m2 a day"),
    "share": lambda farm: (Fraction(100), "%"),
    "minutes": lambda farm: (Fraction(1), "min"),
    "ratio": lambda farm: (Fraction(1), ""),
    **{
        unit: lambda farm, unit=unit: (Fraction(1), unit)  # type: ignore[misc]
        for unit in ("years", "days", "fish", "% a day")
    },
}
"""How many of a unit of the farm one of a unit of storage is, and that unit, for numbers that go out."""

UNITS: dict[str, Callable[[Number, Measures], str]] = {
    "mg": _mass,
    "mm2": _area,
    "minor": _money,
    "mg per mm2": _yield,
    "minor per mg": _price,
    "minor per mm2": _value_per_area,
    "minor per minute": _per_hour,
    "years": _years,
    "days": _days,
    "minutes": _minutes,
    "Wh": _energy,
    "mm2 days": _area_days,
    "ml days": _volume_days,
    "mg days": _mass_days,
    "fish": _fish,
    "share": _share,
    "ratio": _ratio,
    "% a day": _a_day,
    "C days": _degree_days,
    "mg per ml": _density,
    "mg a day": _mass_a_day,
    "mg per mm2 a day": _feed_rate,
    "ml": _volume,
    "ml an hour": _flow,
    "an hour": _turns,
    "mg per L": _strength,
    "mg per L a week": _strength_a_week,
}
BARE: dict[str, Callable[[Number, Measures], str]] = {
    "minor": _bare_money,
    "mg per mm2": _bare_yield,
    "minor per mg": _bare_price,
    "minor per mm2": _bare_per_area,
    "minor per minute": _bare_per_hour,
}
