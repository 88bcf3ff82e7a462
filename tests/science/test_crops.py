"""Plants to an area and degree-days."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.crops import (
    BASE_TEMPERATURES,
    DegreeDayMethod,
    accumulated_degree_days,
    area_for_plants,
    day_reaching,
    degree_days,
    degree_days_in_celsius,
    degree_days_in_fahrenheit,
    density_on_square_grid,
    density_staggered,
    plants_on_area,
    plants_standing,
)

PLAIN, FLOOR_FIRST, CEILING_FLOOR = DegreeDayMethod
SPACINGS = st.floats(0.05, 2)
AREAS = st.floats(0.01, 1000)
TEMPERATURES = st.floats(-30, 50)
DAYS = st.tuples(TEMPERATURES, TEMPERATURES).map(lambda pair: (max(pair), min(pair)))


def test_square_spacing() -> None:
    assert density_on_square_grid(0.2) == pytest.approx(25)
    assert density_on_square_grid(0.3, 0.5) == pytest.approx(1 / 0.15)


@given(SPACINGS)
def test_staggered_rows_take_15_percent_more(spacing: float) -> None:
    assert density_staggered(spacing) / density_on_square_grid(spacing) == pytest.approx(2 / math.sqrt(3))


@given(SPACINGS, SPACINGS)
def test_wider_spacing_never_takes_more_plants(one: float, other: float) -> None:
    near, wide = sorted((one, other))
    assert density_staggered(wide) <= density_staggered(near)


def test_only_whole_plants_count_and_rounding_loses_none() -> None:
    assert plants_on_area(4, density_on_square_grid(0.2)) == 100
    assert plants_on_area(1.19, 25) == 29
    assert plants_on_area(0.01, 25) == 0


@given(plants=st.integers(1, 100_000), density=st.floats(1, 1000))
def test_area_of_plants_takes_those_plants(plants: int, density: float) -> None:
    assert plants_on_area(area_for_plants(plants, density), density) == plants


@given(AREAS, AREAS, st.floats(1, 100))
def test_more_area_never_takes_fewer_plants(one: float, other: float, density: float) -> None:
    small, large = sorted((one, other))
    assert plants_on_area(small, density) <= plants_on_area(large, density)


def test_plants_standing_counts_every_batch() -> None:
    assert plants_standing(25, 4) == 100
    assert plants_standing(10, 4.5) == 45
    assert plants_standing(3, 1.5) == 5


@pytest.mark.parametrize("bad", [0, -0.2, math.nan, math.inf])
def test_impossible_spacing_is_refused(bad: float) -> None:
    with pytest.raises(OutOfRange, match="spacing"):
        density_on_square_grid(bad)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: density_staggered(-0.2), "spacing"),
        (lambda: plants_on_area(0, 25), "area 0 m2"),
        (lambda: plants_on_area(4, -25), "plants per square metre"),
        (lambda: area_for_plants(-1, 25), "plants -1"),
        (lambda: area_for_plants(10, 0), "plants per square metre"),
        (lambda: plants_standing(-25, 4), "plants per week"),
        (lambda: plants_standing(25, 0), "weeks in bed"),
        (lambda: day_reaching([1.0], 0), "needed 0"),
        (lambda: degree_days_in_celsius(-1), "degree day sum -1"),
        (lambda: degree_days_in_fahrenheit(-1), "degree day sum -1"),
        (lambda: degree_days(20, 10, math.nan), "base"),
    ],
)
def test_impossible_amounts_are_refused(call: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        call()


@pytest.mark.parametrize(
    ("day", "base", "method", "ceiling", "expected"),
    [
        ((60, 40), 50, PLAIN, None, 0),
        ((60, 40), 50, FLOOR_FIRST, None, 5),
        ((90, 40), 50, CEILING_FLOOR, 86, 18),
        ((24, 12), 10, PLAIN, None, 8),
        ((13, 5), 10, PLAIN, None, 0),
        ((30, 10), 10, CEILING_FLOOR, 30, 10),
        ((22, 8), 4.4, PLAIN, None, 10.6),
    ],
)
def test_each_method_by_hand(
    day: tuple[float, float], base: float, method: DegreeDayMethod, ceiling: float | None, expected: float
) -> None:
    assert degree_days(*day, base, method, ceiling) == pytest.approx(expected)


@given(DAYS, st.floats(-5, 20))
def test_floor_first_never_gives_less_than_the_plain_average(day: tuple[float, float], base: float) -> None:
    assert degree_days(*day, base, FLOOR_FIRST) >= degree_days(*day, base, PLAIN) - 1e-9


@given(DAYS, st.floats(-5, 20), st.floats(0.5, 30))
def test_a_ceiling_never_adds_and_bounds_the_day(day: tuple[float, float], base: float, width: float) -> None:
    capped = degree_days(*day, base, CEILING_FLOOR, base + width)
    assert -1e-9 <= capped <= min(width, degree_days(*day, base, FLOOR_FIRST)) + 1e-9


@given(DAYS, st.floats(0.1, 10), st.sampled_from(list(DegreeDayMethod)))
def test_a_warmer_day_never_gives_less(day: tuple[float, float], warmer: float, method: DegreeDayMethod) -> None:
    ceiling = 30 if method is CEILING_FLOOR else None
    highest, lowest = day
    cool = degree_days(highest, lowest, 10, method, ceiling)
    assert degree_days(highest + warmer, lowest + warmer, 10, method, ceiling) >= cool - 1e-9


@given(DAYS, st.sampled_from(list(DegreeDayMethod)))
def test_a_day_gives_the_same_in_both_scales(day: tuple[float, float], method: DegreeDayMethod) -> None:
    ceiling = 30 if method is CEILING_FLOOR else None
    celsius = degree_days(*day, 10, method, ceiling)
    highest, lowest = (t * 1.8 + 32 for t in day)
    fahrenheit = degree_days(highest, lowest, 50, method, 86 if ceiling else None)
    assert degree_days_in_celsius(fahrenheit) == pytest.approx(celsius, abs=1e-9)


@given(st.floats(0, 1e5))
def test_scales_round_trip(total: float) -> None:
    assert degree_days_in_celsius(degree_days_in_fahrenheit(total)) == pytest.approx(total)


def test_conversion_has_no_offset() -> None:
    assert degree_days_in_celsius(0) == 0
    assert degree_days_in_celsius(1800) == pytest.approx(1000)


@given(st.lists(DAYS, max_size=40))
def test_sums_run_upward_and_end_on_the_total(days: list[tuple[float, float]]) -> None:
    sums = accumulated_degree_days(days, 10)
    assert sums == sorted(sums)
    assert len(sums) == len(days)
    if sums:
        assert sums[-1] == pytest.approx(sum(degree_days(*day, 10) for day in days))


def test_the_day_a_sum_is_reached() -> None:
    sums = accumulated_degree_days([(24, 12), (13, 5), (24, 12)], 10)
    assert sums == pytest.approx([8, 8, 16])
    assert day_reaching(sums, 8) == 1
    assert day_reaching(sums, 9) == 3
    assert day_reaching(sums, 17) is None


@pytest.mark.parametrize(
    ("day", "method", "ceiling", "words"),
    [
        ((10, 20), PLAIN, None, "highest temperature 10 is below its lowest, 20"),
        ((20, 10), CEILING_FLOOR, None, "needs a ceiling"),
        ((20, 10), PLAIN, 30, "takes no ceiling"),
        ((20, 10), FLOOR_FIRST, 30, "takes no ceiling"),
        ((20, 10), CEILING_FLOOR, 10, "must lie above the base"),
        ((20, 10), CEILING_FLOOR, math.nan, "must lie above the base"),
        ((math.nan, 10), PLAIN, None, "highest"),
    ],
)
def test_what_makes_no_sense_is_refused(
    day: tuple[float, float], method: DegreeDayMethod, ceiling: float | None, words: str
) -> None:
    with pytest.raises(OutOfRange, match=words):
        degree_days(*day, 10, method, ceiling)


def test_base_temperatures_agree_between_scales() -> None:
    for base in BASE_TEMPERATURES:
        assert base.base_c == pytest.approx((base.base_f - 32) / 1.8, abs=0.06)
