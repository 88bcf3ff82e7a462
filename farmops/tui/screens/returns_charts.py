"""The picture that stands below the lines of Returns, as a chart for a file."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.exchange.chart_of import costs_chart, prices_chart, weeks_chart, yields_chart
from farmops.exchange.charts import Chart
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.quantities import Measures
from farmops.reports.returns import Returns, UnitReturns
from farmops.reports.spans import Span
from farmops.reports.spread import Sure
from farmops.tui.screens.returns_below import NO_COSTS, NO_PRICES, NOT_BY_BED, TOO_FEW_WEEKS
from farmops.tui.screens.returns_lines import FARM, Found, Row, named


@dataclass(frozen=True, slots=True)
class Shown:
    """What Returns shows: the picture below, the lines of a group, and for which unit; `name` is whose weeks it has."""

    view: str
    found: Found
    group: str
    rows: Sequence[Row]
    sure: Sure
    months: Sequence[Returns] | None
    unit: str | None
    name: str
    span: Span
    measures: Measures

    @property
    def days(self) -> str:
        """The span in words."""
        return f"{self.span.first} to {self.span.last}"


def chart_of(shown: Shown) -> Chart:
    """The picture that is open; beside words that of the yields. Raises Refused where there is none."""
    return CHARTS.get(shown.view, _yields)(shown)


def _yields(shown: Shown) -> Chart:
    return yields_chart(
        shown.rows, shown.sure.spreads, f"Produce per area by {shown.group}, {shown.days}", shown.measures
    )


def _costs(shown: Shown) -> Chart:
    lines = _lines(shown)
    if not any(one.cost.value for _, one in lines):
        raise Refused(NO_COSTS if lines else NOT_BY_BED)
    return costs_chart(lines, f"What the cost is made up of, {shown.days}", shown.measures)


def _lines(shown: Shown) -> list[tuple[str, UnitReturns]]:
    if isinstance(shown.found, Returns):
        return [(one.unit, one) for one in shown.found.units if shown.unit in (None, one.unit)]
    return [(named(one, shown.group), one.farm) for one in shown.found] if isinstance(shown.found, tuple) else []


def _weeks(shown: Shown) -> Chart:
    weekly = shown.sure.weekly.get(shown.name, ())
    if not any(weekly):
        raise Refused(TOO_FEW_WEEKS)
    first: date = shown.span.first
    return weeks_chart(weekly, shown.name, first, shown.measures)


def _prices(shown: Shown) -> Chart:
    if not shown.months:
        raise Refused(NO_PRICES)
    return prices_chart(shown.months, shown.unit, FARM, shown.measures)


CHARTS = {"words": _yields, "cost": _costs, "weeks": _weeks, "prices": _prices}
