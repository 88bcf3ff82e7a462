"""What stands below the lines of Returns: verdicts and notes, and pictures of cost, of weeks and of prices."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction
from statistics import median

from farmops.exchange.compare_text import sentence
from farmops.quantities import Measures, main_mass_unit
from farmops.reports.costs import Kind
from farmops.reports.returns import Returns
from farmops.reports.shown import shown, shown_value
from farmops.reports.spread import MOST_COMPARED, Sure
from farmops.reports.yields import Yields
from farmops.tui.screens.returns_lines import FARM, Found, named
from farmops.tui.widgets.pictures import Stack, columns_over, gathered, stacks, wrapped
from farmops.tui.widgets.sparks import Signs

MOST_NAMED, MOST_BARS = 5, 12
HIGH = 4
FAR_OFF = 3
"""Times the middle price from which a column is cut off, so that one poor month does not flatten all others."""
PRICE, MASS = "minor per mg", "mg"
KINDS = tuple(Kind)
TOO_FEW_WEEKS = "Nothing to draw: no whole week with a weighing in this span."
NO_PRICES = "Nothing to draw: in no month of this span was there both a cost and a harvest."
PART_OF_COST = "The cost is a part of what the units it grew in cost, by weight or by value, as w tells."
NOT_BY_BED = "What the cost is made up of is told by unit, month and year; g shows them."
NOT_BY_LOT = "Weeks are drawn of produce, not of fish; g shows units, beds and crops."
SOME_COMPARED = f"The best {MOST_COMPARED} units are each held against the next. c holds any two beside each other."
NO_COSTS = "Nothing to draw: no costs are booked in this span."


def words_of(found: Found, sure: Sure, unit: str | None, measures: Measures) -> list[str]:
    """Which neighbours are compared where not all are, their verdicts, the clear ones first, then what else to know."""
    own = [one for one in sure.neighbours if unit is None or unit in (one.first, one.second)]
    clear_first = sorted(own, key=lambda one: one.better is None)
    some = [SOME_COMPARED] if len(sure.spreads) > MOST_COMPARED and sure.neighbours else []
    return [*some, *(sentence(one, measures) for one in clear_first), *notes(found, measures)]


def notes(found: Found, measures: Measures) -> list[str]:
    """What is not shared, what sales cover, what is not counted, and what is missing and why."""
    if isinstance(found, Yields):
        return [PART_OF_COST]
    if not isinstance(found, Returns):
        return []
    nobody = [f"{shown(found.unshared, measures)} is shared, but no unit was active to bear it."]
    words = dict.fromkeys(
        note for note in (found.farm.cost_per_mass.note, *(one.cost.note for one in found.units)) if note
    )
    gaps: dict[str, list[str]] = {}
    for one in found.units:
        for figure in (one.cost_per_mass, one.yield_per_area, one.value, one.per_hour):
            if figure.value is None and figure.reason and one.unit not in gaps.get(figure.reason, []):
                gaps.setdefault(figure.reason, []).append(one.unit)
    return [
        *(nobody if found.unshared.value else []),
        *found.sales.words,
        *words,
        *(f"{some_of(units)}: {reason}." for reason, units in gaps.items()),
    ]


def some_of(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    listed = ", ".join(names[:MOST_NAMED])
    return f"{listed} and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else listed


def costs_drawn(found: Found, group: str, unit: str | None, measures: Measures, width: int, signs: Signs) -> list[str]:
    """A bar for each unit, or month, of what its cost is made up of."""
    if isinstance(found, Returns):
        lines = [one for one in found.units if unit in (None, one.unit)]
        lines_of = [(one.unit, one) for one in lines]
    elif isinstance(found, tuple):
        lines_of = [(named(one, group), one.farm) for one in found]
    else:
        return [NOT_BY_BED]
    bars = [
        Stack(name, tuple(float(one.bears.sum_of(kind)) for kind in KINDS), shown(one.cost, measures))
        for name, one in lines_of
        if one.cost.value
    ]
    some, which = some_bars(bars, in_time=isinstance(found, tuple))
    return [f"What the cost is made up of{which}", *(list(stacks(some, KINDS, width, signs)) or [NO_COSTS])]


def some_bars(bars: Sequence[Stack], *, in_time: bool) -> tuple[Sequence[Stack], str]:
    """As many bars as are read at a glance, of months the last, of units those that cost most; and which, in words."""
    if len(bars) <= MOST_BARS:
        return bars, ""
    if in_time:
        return bars[-MOST_BARS:], f", the last {MOST_BARS}"
    dearest = sorted(bars, key=lambda one: one.total, reverse=True)
    return dearest[:MOST_BARS], f", the {MOST_BARS} units that cost most"


def weeks_drawn(
    weekly: Sequence[float], name: str, first: date, measures: Measures, width: int, signs: Signs
) -> list[str]:
    """A column for each week of produce that counts; several weeks to a column where room is short."""
    top = shown_value(round(max(gathered(weekly, width)[0], default=0.0)), MASS, measures)
    values, size = gathered(weekly, width - len(top) - 1)
    top = shown_value(round(max(values, default=0.0)), MASS, measures)
    days = [first + timedelta(days=7 * size * at) for at in range(len(values))]
    labels = [f"{day:%b}" if at == 0 or day.month != days[at - 1].month else "" for at, day in enumerate(days)]
    drawn = list(columns_over(values, labels, width, HIGH, top, signs))
    every = "every week" if size == 1 else f"every {size} weeks"
    return [f"Produce of {name}, {every}", *(drawn or [TOO_FEW_WEEKS])]


def prices_drawn(
    months: Sequence[Returns], unit: str | None, measures: Measures, width: int, signs: Signs
) -> list[str]:
    """A column for each month of what a weight of produce cost; a gap where there is no number."""
    lines = [next((one for one in month.units if one.unit == unit), month.farm) for month in months]
    values = [None if one.cost_per_mass.value is None else float(one.cost_per_mass.value) for one in lines]
    known = [(value, month) for value, month in zip(values, months, strict=True) if value is not None]
    title = f"What a {main_mass_unit(measures)} of produce cost, {unit or FARM}, month by month"
    if not known:
        return [title, NO_PRICES]
    labels = [f"{one.span.first:%b}" for one in months]
    told = [f"{word} {_price(value, measures)} in {month.span.first:%b %Y}" for word, (value, month) in _ends(known)]
    most = min(max(value for value, _ in known), FAR_OFF * median(value for value, _ in known))
    top = _price(most, measures).partition(" per ")[0]
    return [title, *columns_over(values, labels, width, HIGH, top, signs, most), *wrapped(told, width)]


def _ends(known: Sequence[tuple[float, Returns]]) -> list[tuple[str, tuple[float, Returns]]]:
    low, high = (chosen(known, key=lambda one: one[0]) for chosen in (min, max))
    return [("lowest", low), ("highest", high), ("last", known[-1])]


def _price(value: float, measures: Measures) -> str:
    return shown_value(Fraction(value), PRICE, measures)
