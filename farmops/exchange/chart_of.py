"""Which chart a report is: readings, cycling, growth, yields with their doubt, costs, weeks, prices, the load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from fractions import Fraction
from math import nan

from farmops.exchange.charts import Chart, Curve, dated
from farmops.figures import Figure
from farmops.model.fish import FishLot
from farmops.model.readings import Measure, Reading
from farmops.quantities import MASS, Measures, main_mass_unit, major
from farmops.quantities.readings import show_value
from farmops.quantities.worded import Worded
from farmops.reports.costs import Kind
from farmops.reports.cycling import Cycling
from farmops.reports.growth import Ahead, Weighed
from farmops.reports.load import Load
from farmops.reports.markers import Marker
from farmops.reports.returns import Returns, UnitReturns
from farmops.reports.shown import price_in_farm_units, shown, yield_in_farm_units
from farmops.reports.spread import Spread
from farmops.reports.water import WaterLine

TWO_SD = 2
Band = tuple[float | None, float | None]
Row = tuple[str, Mapping[str, Figure]]


def readings_chart(
    lines: Sequence[WaterLine], band: Band, markers: Sequence[Marker], where: str, measures: Measures
) -> Chart:
    """The readings of one measure: the safe span behind them, what was changed, bad and doubtful ones by signs."""
    measure = lines[0].reading.measure if lines else Measure.PH
    known = [one for one in lines if _number(one.reading.value, measure, measures) is not None]
    pairs = [(one.reading.day, _in_farm_units(one.reading, measures)) for one in known]
    curves = [Curve("read", *dated(pairs))]
    for name, mark, chosen in (
        ("beyond a limit", "^", [one.judged.bad for one in known]),
        ("doubtful", "x", [one.reading.doubt is not None for one in known]),
    ):
        picked = [pair for pair, so in zip(pairs, chosen, strict=True) if so]
        if picked:
            curves.append(Curve(name, *dated(picked), mark=mark, joined=False))
    low, high = (None if edge is None else _number(edge, measure, measures) for edge in band)
    marks = tuple((one.day, one.words) for one in markers)
    return Chart(f"{where} {measure}", "", _up(measure, pairs, measures), tuple(curves), band=(low, high), marks=marks)


def _up(measure: Measure, pairs: Sequence[tuple[date, float]], measures: Measures) -> str:
    unit = getattr(show_value(1.0, measure, measures), "unit", "") if pairs else ""
    return f"{measure} ({unit})" if unit else str(measure)


def _in_farm_units(read: Reading, measures: Measures) -> float:
    return _number(read.value, read.measure, measures) or 0.0


def _number(value: float, measure: Measure, measures: Measures) -> float | None:
    """A stored value in the unit that the farm reads it in; None for no cycle."""
    words = show_value(value, measure, measures)
    return float(words.number) if isinstance(words, Worded) else None


def cycling_chart(found: Cycling, measures: Measures) -> Chart:
    """Ammonia, nitrite and nitrate since the cycling began."""
    curves = tuple(
        Curve(measure.value, *dated([(one.day, _in_farm_units(one, measures)) for one in curve]))
        for measure, curve in found.curves
        if curve
    )
    return Chart(f"{found.unit}, cycling since {found.since}", "", "mg/L as N", curves)


def growth_chart(
    lot: FishLot, weighed: Sequence[Weighed], ahead: Sequence[Ahead], on: date, measures: Measures
) -> Chart:
    """The weight of one fish: known with twice its standard error, and expected with its band."""
    known = Curve(
        "known",
        *dated([(one.day, _mass(one.mean_mg, measures)) for one in weighed]),
        ranges=tuple(_doubt(one, measures) for one in weighed),
    )
    coming = [one for one in ahead if one.day > on]
    expected = Curve(
        "expected, if they grow on like this",
        *dated([(one.day, _mass(one.mean_mg, measures)) for one in coming]),
        ranges=tuple(
            None
            if one.low_mg is None or one.high_mg is None
            else (_mass(one.low_mg, measures), _mass(one.high_mg, measures))
            for one in coming
        ),
    )
    title = f"{lot.code}, {lot.species}: weight of one fish"
    return Chart(title, "", main_mass_unit(measures), tuple(curve for curve in (known, expected) if curve.values))


def _doubt(one: Weighed, measures: Measures) -> tuple[float, float] | None:
    if one.se_mg is None:
        return None
    low, high = max(0.0, one.mean_mg - TWO_SD * one.se_mg), one.mean_mg + TWO_SD * one.se_mg
    return _mass(low, measures), _mass(high, measures)


def _mass(mg: float, measures: Measures) -> float:
    return float(MASS.show(round(mg), measures).number)


def yields_chart(rows: Sequence[Row], spreads: Mapping[str, Spread], title: str, measures: Measures) -> Chart:
    """Produce per area of each line, with the span it may lie in by the chance of its weeks."""
    named = [(name, figures["per area"]) for name, figures in rows if figures["per area"].value is not None]
    curve = Curve(
        "produce per area",
        tuple(name for name, _ in named),
        tuple(_yield(figure.value or 0, measures) for _, figure in named),
        tuple(_span(spreads.get(name), measures) for name, _ in named),
    )
    unit = next((words.unit for _, one in named if isinstance(words := shown(one, measures), Worded)), "")
    lines = " (lines: where it may lie)" if any(curve.ranges) else ""
    return Chart(title, f"produce, {unit}{lines}", "", (curve,), "bars")


def _span(spread: Spread | None, measures: Measures) -> tuple[float, float] | None:
    return None if spread is None else (_yield(spread.low, measures), _yield(spread.high, measures))


def _yield(value: float | Fraction, measures: Measures) -> float:
    return float(yield_in_farm_units(Fraction(value), measures))


def costs_chart(lines: Sequence[tuple[str, UnitReturns]], title: str, measures: Measures) -> Chart:
    """What the cost of each line is made up of."""
    with_cost = [(name, one) for name, one in lines if one.cost.value]
    names = tuple(name for name, _ in with_cost)
    curves = tuple(
        Curve(kind.value, names, tuple(float(major(one.bears.sum_of(kind), measures)) for _, one in with_cost))
        for kind in Kind
    )
    return Chart(title, measures.currency, "", curves, "stacks")


def weeks_chart(weekly: Sequence[float], name: str, first: date, measures: Measures) -> Chart:
    """Produce that counts, week by week."""
    days = tuple(f"{first + timedelta(days=7 * at):%d %b %y}" for at in range(len(weekly)))
    values = tuple(_mass(mg, measures) for mg in weekly)
    title = f"Produce of {name}, week by week"
    return Chart(title, "week from", main_mass_unit(measures), (Curve("produce", days, values),), "columns")


def prices_chart(months: Sequence[Returns], unit: str | None, whole: str, measures: Measures) -> Chart:
    """What a weight of produce cost, month by month; a month without a number is a gap."""
    lines = [(one.span.first, next((x for x in one.units if x.unit == unit), one.farm)) for one in months]
    pairs = [(day, _price(one.cost_per_mass, measures)) for day, one in lines]
    mass = main_mass_unit(measures)
    title = f"What a {mass} of produce cost, {unit or whole}, month by month"
    return Chart(title, "", f"{measures.currency} per {mass}", (Curve("cost", *dated(pairs)),))


def _price(figure: Figure, measures: Measures) -> float:
    if figure.value is None:
        return nan
    return float(price_in_farm_units(Fraction(figure.value), measures) * major(1, measures))


def load_chart(found: Load, title: str) -> Chart:
    """The minutes of the days ahead."""
    days = tuple(f"{one.day:%a} {one.day.day} {one.day:%b}" for one in found.days)
    curve = Curve("minutes", days, tuple(float(one.minutes) for one in found.days))
    return Chart(title, "minutes", "", (curve,), "bars")
