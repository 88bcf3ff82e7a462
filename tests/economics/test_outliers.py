"""What is usual among numbers, and what lies far from it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.economics.outliers import usual
from tests.labels import from_memory

weights = st.lists(st.integers(1, 10**6), min_size=5, max_size=30)


@from_memory(
    "NIST/SEMATECH e-Handbook 1.3.5.17: outlier where |0.6745 (x - median) / MAD| > 3.5 (Iglewicz, Hoaglin 1993)"
)
def test_the_band_ends_where_the_modified_z_score_is_3_5():
    band = usual([2.0, 4.0, 8.0, 16.0, 32.0])
    assert band is not None
    assert (band.middle, band.count) == (pytest.approx(8), 5)
    assert band.high == pytest.approx(8 * 2 ** (3.5 / 0.6745))
    assert band.low == pytest.approx(8 / 2 ** (3.5 / 0.6745))


def test_too_few_make_no_band():
    assert usual([3, 3, 3, 3]) is None
    assert usual([3, 3, 3], fewest=3) is not None


@given(weights, st.integers(1, 1000))
def test_one_wrong_number_among_many_alike_stands_out(values, factor):
    band = usual([*([1000] * 9), 1000 * factor], least_factor=2)
    assert band is not None
    assert band.holds(1000 * factor) == (factor <= 2)
    assert band.middle == pytest.approx(1000)


@given(weights, st.integers(2, 50))
def test_the_band_goes_with_the_unit_of_weight(values, times):
    here, there = usual(values, least_factor=2), usual([value * times for value in values], least_factor=2)
    assert here is not None
    assert there is not None
    assert there.low == pytest.approx(here.low * times)
    assert there.high == pytest.approx(here.high * times)
    assert here.low <= here.middle / 1.999
