"""The lines of Returns: what is read for a group, its columns, and the cells of each line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from farmops.figures import Figure
from farmops.quantities import Measures, main_area_unit, main_mass_unit
from farmops.quantities.numbers import show_decimal
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, returns, yearly
from farmops.reports.shown import shown, shown_bare, yield_in_farm_units
from farmops.reports.spans import Span
from farmops.reports.spread import Spread
from farmops.reports.store import Store
from farmops.reports.yields import By, YieldLine, Yields, yields
from farmops.tui.widgets.listing_lines import Cell, Column
from farmops.tui.widgets.sparks import Bar

Found = Returns | Yields | tuple[Returns, ...]
Row = tuple[str, dict[str, Figure]]
GROUPS = ("unit", "bed", "crop", "lot", "month", "year")
FARM = "the farm"
NAMES = {
    "cost per weight": "cost_per_mass",
    "produce": "marketable",
    "per area": "yield_per_area",
    "fish": "fish",
    "fish cost": "fish_cost_per_mass",
    "value": "value",
    "cost": "cost",
    "net": "net",
    "an hour": "per_hour",
    "over operating": "over_operating",
    "value per area": "value_per_area",
    "pays at": "break_even_price",
}
"""Figures of a unit by the words of their columns, in the order in which they are walked."""
OF_YIELDS = {
    "produce": "marketable",
    "per area": "yield_per_area",
    "cost per weight": "cost_per_mass",
    "value": "value",
    "cost": "cost",
    "net": "net",
}
HEADS = tuple(NAMES)
ORDERS = ("walking order", *HEADS)
MONEY = ("fish", "fish cost", "value", "cost", "net", "an hour", "over operating", "value per area", "pays at")


def read(store: Store, *, asked: Asked, group: str) -> Found:
    """The report of a group."""
    if group == "unit":
        return returns(store, asked)
    if group == "month":
        return monthly(store, asked)
    if group == "year":
        return yearly(store, asked)
    return yields(store, asked, By(group))


def span_of(found: Found) -> Span:
    """The days a report answers for."""
    return Span(found[0].span.first, found[-1].span.last) if isinstance(found, tuple) else found.span


def rows_of(found: Found, group: str) -> list[Row]:
    """Names and figures, the farm last."""
    if isinstance(found, Returns):
        return [(one.unit, figures_of(one)) for one in (*found.units, found.farm)] if found.units else []
    if isinstance(found, Yields):
        return [(one.name, yield_figures(one)) for one in found.lines]
    return [(named(one, group), figures_of(one.farm)) for one in found]


def named(one: Returns, group: str) -> str:
    """A month or a year by its name."""
    return f"{one.span.first:%Y}" if group == "year" else f"{one.span.first:%b %Y}"


def figures_of(one: UnitReturns) -> dict[str, Figure]:
    """The figures of a unit by the words of their columns."""
    return {head: getattr(one, name) for head, name in NAMES.items()}


def yield_figures(one: YieldLine) -> dict[str, Figure]:
    """The figures of a bed or a crop by the words of their columns."""
    return {head: getattr(one, name) for head, name in OF_YIELDS.items()}


def ordered(rows: list[Row], head: str | None) -> list[Row]:
    """Rows by a column, the most first, those without a number last; the farm stays at the end."""
    if head is None:
        return rows

    def rank(row: Row) -> tuple[bool, float]:
        figure = row[1].get(head)
        value = figure.value if figure else None
        return (value is None, -float(value or 0))

    return sorted((row for row in rows if row[0] != FARM), key=rank) + [row for row in rows if row[0] == FARM]


def columns(group: str, measures: Measures) -> Sequence[Column]:
    """The columns of a group, units of measure in their heads; the last ones where there is room."""
    mass, area, money = main_mass_unit(measures), main_area_unit(measures), measures.currency
    found = [
        Column("name", group),
        Column("produce", "produce", align="right"),
        Column("per area", f"{mass}/{area}", align="point"),
        Column("drawn", "", grow=True),
        Column("cost per weight", f"{money}/{mass}", align="point"),
        Column("fish", "fish", align="right", priority=3),
        Column("fish cost", f"fish/{mass}", align="point", priority=5),
        Column("value", "value", align="point", priority=4),
        Column("cost", "cost", align="point", priority=4),
        Column("net", "net", align="point", priority=1),
        Column("an hour", "an hour", align="point", priority=2),
        Column("over operating", "over operating", align="point", priority=6),
        Column("value per area", f"value/{area}", align="point", priority=6),
        Column("pays at", f"pays at /{mass}", align="point", priority=7),
    ]
    if group in ("unit", "month", "year"):
        return found
    named = [*found[:4], *(one for one in found[4:] if one.key in OF_YIELDS)]
    return [named[0], Column("produce", "fish", align="right"), *named[2:]] if group == "lot" else named


def cells(row: Row, measures: Measures, largest: float, spread: Spread | None = None) -> tuple[Cell, ...]:
    """The cells of a line: masses, a bar, prices, money."""
    name, figures = row
    found: list[Cell] = [name, shown(figures["produce"], measures)]
    found += per_area(figures["per area"], measures, largest, spread)
    if "cost per weight" in figures:
        found.append(bare(figures["cost per weight"], measures))
    return (*found, *(bare(figures[head], measures) for head in MONEY if head in figures))


def per_area(figure: Figure, measures: Measures, largest: float, spread: Spread | None) -> tuple[Cell, Cell]:
    """A yield as a number and a bar to the scale of the largest, with its uncertainty where there are enough weeks."""
    if figure.value is None:
        return "-", figure.reason or ""
    words = show_decimal(yield_in_farm_units(figure.value, measures), 2, measures)
    scale = float(yield_in_farm_units(1, measures))
    low, high = (spread.low * scale, spread.high * scale) if spread else (None, None)
    return words, Bar(float(figure.value) * scale, low=low, high=high, largest=largest * scale)


def largest_of(rows: Sequence[Row], spreads: Mapping[str, Spread]) -> float:
    """What the bars are drawn to: the largest yield and the end of its doubt, or of the doubt of any other."""
    values = [row[1]["per area"].value for row in rows]
    ends = [spreads[row[0]].high for row in rows if row[0] in spreads]
    return max([*(float(value) for value in values if value is not None), *ends], default=0.0)


def bare(figure: Figure, measures: Measures) -> str:
    """A number without what its head says; `-` where there is none."""
    return "-" if figure.value is None else shown_bare(figure, measures)
