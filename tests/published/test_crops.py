"""Degree-days and plant densities against printed examples."""

from __future__ import annotations

import pytest

from farmops.science.crops import DegreeDayMethod, degree_days, density_on_square_grid
from tests.labels import published, rows


@published("Iowa State University, Agronomy 541, lesson 2b; Midwestern Regional Climate Center")
@pytest.mark.parametrize(
    ("highest", "lowest", "base", "ceiling", "method", "printed"),
    rows("gdd_examples.csv", "highest", "lowest", "base", "ceiling", "method", "printed"),
)
def test_a_day_gives_the_printed_degree_days(
    highest: str, lowest: str, base: str, ceiling: str, method: str, printed: str
) -> None:
    cap = float(ceiling) if ceiling else None
    days = degree_days(float(highest), float(lowest), float(base), DegreeDayMethod(method), cap)
    assert days == pytest.approx(float(printed), abs=1e-9)


@published("Iowa State University, Agronomy 541, lesson 2b", note="a day gives 0 to 36, base 50 and ceiling 86 F")
@pytest.mark.parametrize(("highest", "lowest"), [(120, 100), (86, 86), (110, 30), (50, 20), (30, 10)])
def test_a_day_never_leaves_the_stated_span(highest: float, lowest: float) -> None:
    assert 0 <= degree_days(highest, lowest, 50, DegreeDayMethod.CEILING_FLOOR, 86) <= 36


@published("FAO 589, Appendix 1, basil", note="the closest spacing is denser than the density printed beside it")
@pytest.mark.parametrize(("closest_cm", "widest_cm", "low", "high"), rows("fao589_basil.csv"))
def test_basil_at_its_printed_spacing(closest_cm: str, widest_cm: str, low: str, high: str) -> None:
    assert float(low) <= density_on_square_grid(float(widest_cm) / 100) <= float(high)
    assert density_on_square_grid(float(closest_cm) / 100) > float(high)
