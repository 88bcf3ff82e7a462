"""Weight, volume, area and length as farms speak of them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from farmops.quantities import tables
from farmops.quantities.amounts import Customs, Dimension
from farmops.quantities.grammar import Vocabulary, read_amount
from farmops.quantities.measures import Measures
from farmops.quantities.showing import Step
from farmops.quantities.sides import area_of_sides, split_sides
from farmops.quantities.tables import Unit


def _by_name(units: tuple[Unit, ...]) -> Mapping[str, Unit]:
    return {unit.name: unit for unit in units}


_M, _V, _A, _L = map(_by_name, (tables.MASSES, tables.VOLUMES, tables.AREAS, tables.LENGTHS))


def _step(unit: Unit, at_least: int | str, places: int, smaller: Unit | None = None, *, strip: bool = False) -> Step:
    return Step(unit, Fraction(at_least), places, strip, smaller)


def _exact(*steps: tuple[Unit, int]) -> tuple[Step, ...]:
    """Steps with as many decimals as the base unit needs, in units that hold it a power of ten times."""
    return tuple(_step(unit, 1, places, strip=True) for unit, places in steps)


_GRAMS = (_step(_M["g"], 10, 0), _step(_M["g"], 1, 1, strip=True), _step(_M["mg"], 0, 0))

MASS = Dimension(
    word="weight",
    base="mg",
    largest=10_000 * 10**6,
    choice="mass",
    all_units=tables.MASSES,
    exact_steps=_exact((_M["kg"], 6), (_M["g"], 3), (_M["mg"], 0)),
    customs={
        "lb_oz": Customs(
            Vocabulary(tables.MASSES, _M["lb"], (_M["lb"], _M["oz"])),
            (
                _step(_M["lb"], 10, 0, _M["oz"]),
                _step(_M["lb"], "1/16", 1, _M["oz"]),
                _step(_M["oz"], "1/10", 2, strip=True),
                *_GRAMS,
            ),
            ("1 lb 6 oz", "1 6", "22 oz", "1.4 lb", "620 g"),
        ),
        "kg": Customs(
            Vocabulary(tables.MASSES, _M["kg"]),
            (_step(_M["kg"], 1000, 0), _step(_M["kg"], 100, 1), _step(_M["kg"], 1, 2), *_GRAMS),
            ("620 g", "0.62 kg", "1.24", "1 lb 6 oz"),
        ),
    },
    read_part=read_amount,
)

VOLUME = Dimension(
    word="volume",
    base="mL",
    largest=10_000 * 10**6,
    choice="volume",
    all_units=tables.VOLUMES,
    exact_steps=_exact((_V["L"], 3), (_V["mL"], 0)),
    customs={
        "gal": Customs(
            Vocabulary(tables.VOLUMES, _V["gal"]),
            (
                _step(_V["gal"], 100, 0),
                _step(_V["gal"], 1, 1),
                _step(_V["fl oz"], 10, 0),
                _step(_V["fl oz"], 1, 1, strip=True),
                _step(_V["mL"], 0, 0),
            ),
            ("275 gal", "12.5", "3 qt", "8 fl oz", "40 L"),
        ),
        "L": Customs(
            Vocabulary(tables.VOLUMES, _V["L"]),
            (_step(_V["L"], 100, 0), _step(_V["L"], 10, 1), _step(_V["L"], 1, 2), _step(_V["mL"], 0, 0)),
            ("1000 L", "12.5", "350 mL", "1.2 m3", "10 gal"),
        ),
    },
    read_part=read_amount,
)

LENGTH = Dimension(
    word="length",
    base="um",
    largest=10**10,
    choice="length",
    all_units=tables.LENGTHS,
    exact_steps=_exact((_L["m"], 6), (_L["cm"], 4), (_L["mm"], 3), (_L["um"], 0)),
    customs={
        "ft": Customs(
            Vocabulary(tables.LENGTHS, _L["ft"]),
            (
                _step(_L["ft"], "1/12", 1, _L["in"]),
                _step(_L["in"], "1/10", 2, strip=True),
                _step(_L["mm"], 0, 3, strip=True),
            ),
            ("3 ft 6 in", "12 in", "3.5", "30 cm"),
        ),
        "cm": Customs(
            Vocabulary(tables.LENGTHS, _L["cm"]),
            (_step(_L["m"], 3, 2), _step(_L["cm"], 1, 1, strip=True), _step(_L["mm"], 0, 3, strip=True)),
            ("30 cm", "30.5", "1.2 m", "12 in"),
        ),
        "m": Customs(
            Vocabulary(tables.LENGTHS, _L["m"]),
            (_step(_L["m"], 1, 2), _step(_L["cm"], 1, 1, strip=True), _step(_L["mm"], 0, 3, strip=True)),
            ("1.2 m", "0.3", "30 cm", "12 in"),
        ),
    },
    read_part=read_amount,
)


def read_area(text: str, vocabulary: Vocabulary, measures: Measures) -> Fraction:
    """An area [mm2] by its unit or by its two sides."""
    sides = split_sides(text)
    if len(sides) == 1:
        return read_amount(text, vocabulary, measures)
    return area_of_sides(sides, LENGTH.vocabulary(measures), measures)


AREA = Dimension(
    word="area",
    base="mm2",
    largest=10**12,
    choice="area",
    all_units=tables.AREAS,
    exact_steps=_exact((_A["m2"], 6), (_A["cm2"], 2), (_A["mm2"], 0)),
    customs={
        "sq_ft": Customs(
            Vocabulary(tables.AREAS, _A["sq ft"]),
            (
                _step(_A["sq ft"], 100, 0),
                _step(_A["sq ft"], "1/2", 1),
                _step(_A["sq in"], 1, 1, strip=True),
                _step(_A["mm2"], 0, 0),
            ),
            ("25 sq ft", "25", "4 x 6 ft", "1.2 m2"),
        ),
        "m2": Customs(
            Vocabulary(tables.AREAS, _A["m2"]),
            (
                _step(_A["m2"], 100, 0),
                _step(_A["m2"], 10, 1),
                _step(_A["m2"], "1/10", 2),
                _step(_A["cm2"], 10, 0),
                _step(_A["cm2"], 1, 1, strip=True),
                _step(_A["mm2"], 0, 0),
            ),
            ("1.2 m2", "1.2", "1.2 x 1 m", "25 sq ft"),
        ),
    },
    read_part=read_area,
)


def in_unit(value: int, dimension: Dimension, unit_name: str) -> Fraction:
    """An amount in base units, exactly, in the unit named: milligrams to pounds.

    Raises:
        NotUnderstood: the dimension has no such unit.
    """
    return value / dimension.unit(unit_name).size


def from_unit(number: Fraction | int, dimension: Dimension, unit_name: str) -> int:
    """So many of the unit named, in base units, rounded once, half to even.

    Raises:
        NotUnderstood: the dimension has no such unit.
    """
    return round(number * dimension.unit(unit_name).size)


def main_mass_unit(measures: Measures) -> str:
    """`lb` or `kg`."""
    return MASS.main_unit(measures)


def main_volume_unit(measures: Measures) -> str:
    """`gal` or `L`."""
    return VOLUME.main_unit(measures)


def main_area_unit(measures: Measures) -> str:
    """`sq ft` or `m2`."""
    return AREA.main_unit(measures)


def main_length_unit(measures: Measures) -> str:
    """`ft`, `cm` or `m`."""
    return LENGTH.main_unit(measures)
