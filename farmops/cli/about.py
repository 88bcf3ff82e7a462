"""What the packaged tables say of a crop or a fish species, in the farm's units, with its source and standing."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from farmops.cli.output import line
from farmops.library import CropFacts, SpeciesFacts
from farmops.quantities import AREA, LENGTH, TEMPERATURE, Measures, in_unit
from farmops.quantities.numbers import show_decimal

UM_PER_CM = 10_000
MM2_PER_M2 = 1_000_000
Show = Callable[[float], str]
Lines = list[tuple[str, str | None]]


def print_crop(facts: CropFacts, measures: Measures) -> None:
    """The facts about a crop, one a line; what is not known is left out."""
    number = _number(measures)
    area = AREA.main_unit(measures)
    density = _density(measures)
    counted = f" after {facts.counted_from}" if facts.counted_from else ""
    spacing = _range(facts.spacing_cm_low, facts.spacing_cm_high, lambda cm: _length(cm, measures))
    _print(
        [
            ("known as", f"{facts.name}, {facts.latin_name}"),
            ("spacing", spacing),
            ("plants", _range(facts.plants_per_m2_low, facts.plants_per_m2_high, density, f" per {area}")),
            ("germination", _range(facts.germination_days_low, facts.germination_days_high, number, " days")),
            ("first harvest", _range(facts.days_to_harvest_low, facts.days_to_harvest_high, number, f" days{counted}")),
            ("next pick", f"{facts.pick_again_days} days, common practice" if facts.pick_again_days else None),
            ("temperature", _range(facts.temp_low_c, facts.temp_high_c, _temperature(measures))),
            ("pH", _range(facts.ph_low, facts.ph_high, number)),
            ("beds", ", ".join(facts.bed_kinds)),
            ("source", facts.source),
            ("standing", facts.standing),
        ]
    )


def print_species(facts: SpeciesFacts, measures: Measures) -> None:
    """The facts about a species, one a line; what is not known is left out."""
    number, temperature = _number(measures), _temperature(measures)
    _print(
        [
            ("known as", f"{facts.name}, {facts.latin_name}"),
            ("lives between", _range(facts.vital_low_c, facts.vital_high_c, temperature)),
            ("grows best at", _range(facts.best_low_c, facts.best_high_c, temperature)),
            ("ammonia (TAN)", _limit("below", facts.tan_limit_mg_l, number)),
            ("nitrite", _limit("below", facts.nitrite_limit_mg_l, number)),
            ("oxygen", _limit("above", facts.oxygen_floor_mg_l, number)),
            ("feed protein", _range(facts.feed_protein_low, facts.feed_protein_high, number, " %")),
            ("law", facts.law_note),
            ("source", facts.source),
            ("standing", facts.standing),
        ]
    )


def _print(lines: Lines) -> None:
    for head, words in lines:
        if words:
            line(f"{head:<15}{words}")


def _range(low: float | None, high: float | None, show: Show, unit: str = "") -> str | None:
    ends = list(dict.fromkeys(show(end) for end in (low, high) if end is not None))
    return " to ".join(ends) + unit if ends else None


def _limit(side: str, limit: float | None, show: Show) -> str | None:
    return f"{side} {show(limit)} mg/L" if limit is not None else None


def _number(measures: Measures) -> Show:
    return lambda value: show_decimal(Fraction(value), 1, measures, strip=True)


def _temperature(measures: Measures) -> Show:
    return lambda degrees_c: TEMPERATURE.show(degrees_c, measures)


def _length(cm: float, measures: Measures) -> str:
    return LENGTH.show(round(cm * UM_PER_CM), measures)


def _density(measures: Measures) -> Show:
    per_m2 = in_unit(MM2_PER_M2, AREA, AREA.main_unit(measures))
    return lambda plants: show_decimal(Fraction(plants) / per_m2, 1, measures, strip=True)
