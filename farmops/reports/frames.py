"""Reports as pandas frames, for tables, charts and files; the one place that speaks pandas."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from farmops.figures import Figure
from farmops.reports.returns import FIGURES, Returns
from farmops.reports.yields import Yields

if TYPE_CHECKING:
    import pandas as pd

YIELD_FIGURES = ("harvest", "marketable", "area", "yield_per_area", "value", "cost", "cost_per_mass", "net")


def returns_frame(report: Returns) -> pd.DataFrame:
    """One row a unit, the farm last: index unit, one float column a figure in its unit of storage, NaN if missing."""
    lines = (*report.units, report.farm)
    return _frame("unit", [one.unit for one in lines], [[one.figures()[name] for name in FIGURES] for one in lines])


def months_frame(reports: Sequence[Returns]) -> pd.DataFrame:
    """One row a month of the whole farm: index the first day of each, the same columns."""
    frame = _frame("month", [], [[one.farm.figures()[name] for name in FIGURES] for one in reports])
    import pandas as pd

    frame.index = pd.DatetimeIndex([one.span.first for one in reports], name="month")
    return frame


def yields_frame(report: Yields) -> pd.DataFrame:
    """One row a bed or crop: index its name, one float column a figure in its unit of storage, NaN if missing."""
    rows = [[getattr(one, name) for name in YIELD_FIGURES] for one in report.lines]
    return _frame(report.by.value, [one.name for one in report.lines], rows, YIELD_FIGURES)


def _frame(
    index: str, names: Sequence[str], rows: Sequence[Sequence[Figure]], columns: Sequence[str] = FIGURES
) -> pd.DataFrame:
    import pandas as pd

    numbers = [[float("nan") if one.value is None else float(one.value) for one in row] for row in rows]
    labels = pd.Index(names, name=index) if names else None
    return pd.DataFrame(numbers, columns=list(columns), index=labels, dtype="float64")
