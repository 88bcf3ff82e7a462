"""Degree-days and plant densities against printed examples."""

from __future__ import annotations

import pytest

from farmops.science.crops import DegreeDayMethod, degree_days, density_on_square_grid, heaviest_cut_kg
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


@published("New England Vegetable Management Guide, Table 15", note="cabbage, excellent: 40,000 lb per acre")
def test_an_acre_bears_no_more_than_the_printed_pounds_at_one_cut() -> None:
    acre_m2, pound_kg = 4046.8564224, 0.45359237
    assert heaviest_cut_kg(acre_m2) / pound_kg == pytest.approx(40_000)
    assert heaviest_cut_kg(1) == pytest.approx(4.483, abs=5e-4)


@published("FAO 589, Appendix 1, basil", note="the closest spacing is denser than the density printed beside it")
@pytest.mark.parametrize(("closest_cm", "widest_cm", "low", "high"), rows("fao589_basil.csv"))
def test_basil_at_its_printed_spacing(closest_cm: str, widest_cm: str, low: str, high: str) -> None:
    assert float(low) <= density_on_square_grid(float(widest_cm) / 100) <= float(high)
    assert density_on_square_grid(float(closest_cm) / 100) > float(high)
