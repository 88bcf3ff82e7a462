"""Comparisons in words: who is better, by how much, or why nobody can tell yet."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from farmops.economics.comparison import Verdict
from farmops.model.text import cut, filled, plain, width
from farmops.quantities import Measures, main_area_unit, main_mass_unit, show_money
from farmops.quantities.numbers import show_decimal
from farmops.reports.comparing import YIELD, Compared, Comparisons
from farmops.reports.returns import UnitReturns
from farmops.reports.shown import per_area_in_farm_units, shown, yield_in_farm_units

LONG, WEEKS_A_YEAR = 104, 52
MANY = 5
BY_CHANCE = "Of twenty that do not really differ, one is called better by chance."


BESIDE = (
    ("produce", "marketable"),
    ("fish", "fish"),
    ("yield", "yield_per_area"),
    ("value", "value"),
    ("value per area", "value_per_area"),
    ("cost", "cost"),
    ("cost of a weight", "cost_per_mass"),
    ("net return", "net"),
    ("over operating", "over_operating"),
    ("an hour of work", "per_hour"),
    ("pays at a price of", "break_even_price"),
)
WORDS, NUMBERS, GAP = 19, 20, 2


def beside_text(found: Comparisons, columns: int = 80) -> Iterator[str]:
    """What two units brought and cost, side by side; `-` where there is no number."""
    if found.beside is None:
        return
    names = [plain(one.unit) for one in found.beside]
    rows = [[_cell(one, name, found.settings.measures) for one in found.beside] for _, name in BESIDE]
    room = (columns - WORDS) // len(names)
    least = max(width(cell) for row in rows for cell in row) + 1
    wide = max(least, min(max(NUMBERS, *(width(name) + GAP for name in names)), room))
    yield " " * WORDS + "".join(filled(cut(name, wide - GAP), wide, right=True) for name in names)
    for (words, _), cells in zip(BESIDE, rows, strict=True):
        yield words.ljust(WORDS) + "".join(cell.rjust(wide) for cell in cells)


def _cell(unit: UnitReturns, name: str, measures: Measures) -> str:
    figure = unit.figures()[name]
    return "-" if figure.value is None else shown(figure, measures)


def compare_text(found: Comparisons, columns: int = 80) -> Iterator[str]:
    """The span, both side by side, a sentence for each crop and for the value, and what each brought in a week."""
    measures = found.settings.measures
    yield f"{found.first} against {found.second}, {found.span.first} to {found.span.last}"
    if found.beside is not None:
        yield ""
        yield from beside_text(found, columns)
    for one in found.lines:
        yield ""
        yield sentence(one, measures)
        if one.result is not None:
            yield f"  a week: {one.first} {amount(one.first_a_week, one, measures, digits=3)}, " + (
                f"{one.second} {amount(one.second_a_week, one, measures, digits=3)}"
            )
        yield from (f"  {words}" for words in cautions(one))
    if len(found.lines) >= MANY:
        yield ""
        yield BY_CHANCE


def sentence(one: Compared, measures: Measures) -> str:
    """The verdict on one crop, or on the value per area."""
    if one.reason:
        return f"{one.what}: not enough records. {one.reason}."
    if one.verdict is Verdict.TOO_LITTLE:
        more = one.result.more_weeks if one.result else 0
        return (
            f"{one.what}: too little data on {one.first} and {one.second}, {one.weeks} weeks; "
            f"{_weeks(more or 0)} more give a first answer."
        )
    if one.better is not None:
        other = one.second if one.better == one.first else one.first
        return f"{one.what}: {one.better} is clearly better than {other}, {_ahead(one, measures)}."
    words = _settled(one.result.more_weeks if one.result else None)
    return f"{one.what}: {one.first} and {one.second} are too close to call over {one.weeks} weeks; {words}."


def _settled(more: int | None) -> str:
    if not more:
        return "no number of weeks in sight would settle it"
    if more > LONG:
        return f"it would take about {round(more / WEEKS_A_YEAR)} more years to settle it"
    return f"about {_weeks(more)} more would settle it"


def cautions(one: Compared) -> Iterator[str]:
    """What a reader should keep in mind."""
    if one.result is not None and one.result.interval is not None:
        if one.result.rough:
            yield f"Only {one.weeks} weeks: no more than a hint."
        if not one.paired:
            yield "Not of the same weeks: the weather may be the reason."


def amount(value: float, one: Compared, measures: Measures, *, digits: int = 2) -> str:
    """An amount per area as a person reads it."""
    if one.unit == YIELD:
        number = show_decimal(yield_in_farm_units(Fraction(value), measures), digits, measures)
        return f"{number} {main_mass_unit(measures)} per {main_area_unit(measures)}"
    money = show_money(round(per_area_in_farm_units(Fraction(value), measures)), measures)
    return f"{money} per {main_area_unit(measures)}"


def _ahead(one: Compared, measures: Measures) -> str:
    low, high = one.more or (0.0, 0.0)
    return f"{_bare(low, one, measures)} to {amount(high, one, measures)} more over {one.weeks} weeks"


def _bare(value: float, one: Compared, measures: Measures) -> str:
    if one.unit == YIELD:
        return show_decimal(yield_in_farm_units(Fraction(value), measures), 2, measures)
    return show_money(round(per_area_in_farm_units(Fraction(value), measures)), measures)


def _weeks(count: int) -> str:
    return "1 week" if count == 1 else f"{count} weeks"
