"""The small drawings in the cells of a list."""

from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.tui.widgets.sparks import ASCII, DRAWN, Bar, Signs, Spark, bar_text, spark_text

NUMBERS = st.floats(allow_nan=True, allow_infinity=True)


@pytest.mark.parametrize(
    ("values", "width", "drawn"),
    [
        ((1, 2, 3, 4, 5, 6, 7, 8), 8, "▁▂▃▄▅▆▇█"),
        ((1, 2, 3, 4, 5, 6, 7, 8), 3, "▁▅█"),
        ((0, nan, 10), 5, "▁ █"),
        ((3, 3, 3), 5, "▄▄▄"),
        ((nan, inf), 5, "  "),
        ((), 5, ""),
        ((1, 2), 0, ""),
    ],
)
def test_a_run_of_values(values: tuple[float, ...], width: int, drawn: str) -> None:
    assert spark_text(values, width) == drawn


@pytest.mark.parametrize(
    ("bar", "drawn"),
    [
        (Bar(5, largest=10), "━━━━━"),
        (Bar(5, 3, 8, 10), "━━━─┿───"),
        (Bar(10, 9, 10, 10), "━━━━━━━━━┿"),
        (Bar(5, 5, 5, 10), "━━━━┿"),
        (Bar(5, 8, 3, 10), "━━━─┿───"),
        (Bar(0.01, largest=10), "━"),
        (Bar(0, largest=10), ""),
        (Bar(-3, largest=10), ""),
        (Bar(-1, -3, 2, 10), "──"),
        (Bar(12, largest=10), "━━━━━━━━━›"),
        (Bar(8, 6, 14, 10), "━━━━━━─┿─›"),
        (Bar(9, 2, 4, 10), "━━──────┿"),
        (Bar(nan, largest=10), ""),
        (Bar(5, nan, 8, 10), "━━━━━"),
        (Bar(5, largest=0), ""),
    ],
)
def test_a_bar_with_what_is_sure_and_what_may_be(bar: Bar, drawn: str) -> None:
    assert bar_text(bar, 10) == drawn


def test_in_plain_ascii() -> None:
    assert bar_text(Bar(5, 3, 8, 10), 10, ASCII) == "===-|---"
    assert bar_text(Bar(12, largest=10), 5, ASCII) == "====>"
    assert spark_text((1, 2, 3, 4, 5, 6, 7, 8), 8, ASCII) == "._-=+*#@"


@given(
    value=NUMBERS,
    low=st.none() | NUMBERS,
    high=st.none() | NUMBERS,
    largest=NUMBERS,
    width=st.integers(0, 50),
    signs=st.sampled_from([DRAWN, ASCII]),
)
def test_a_bar_is_never_wider_than_its_room(
    value: float, low: float | None, high: float | None, largest: float, width: int, signs: Signs
) -> None:
    assert len(bar_text(Bar(value, low, high, largest), width, signs)) <= width


@given(st.lists(NUMBERS), st.integers(0, 50))
def test_a_run_has_one_sign_for_every_value_shown(values: list[float], width: int) -> None:
    assert len(spark_text(values, width)) == min(width, len(values))


def test_drawings_are_copied_as_numbers() -> None:
    assert str(Spark((1.5, nan, 3))) == "1.5 - 3"
    assert str(Bar(3.7, 3.1, 4.2, 5, "few data")) == "3.7 (3.1 to 4.2) few data"
    assert str(Bar(3.7)) == "3.7"
