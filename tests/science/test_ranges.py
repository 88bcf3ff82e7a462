"""Numbers outside the range of an equation are refused in words."""

from __future__ import annotations

import math

import pytest

from farmops.model.errors import OutOfRange
from farmops.science.ranges import check_positive, check_range, in_words


def test_both_limits_belong_to_the_range() -> None:
    check_range(ph=(5, 5, 11), temperature_c=(50, 0, 50))


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ({"ph": (12, 5, 11)}, "pH 12 is outside 5 to 11, the range of this equation"),
        (
            {"temperature_c": (-0.5, 0, 50)},
            "temperature -0.5 C is outside 0 to 50 C, the range of this equation",
        ),
        (
            {"tan_mg_per_l": (-1, 0, math.inf)},
            "TAN -1 mg/L is outside 0 mg/L and more, the range of this equation",
        ),
        ({"gap_m": (3, -math.inf, 2)}, "gap 3 m is outside 2 m and less, the range of this equation"),
        ({"ph": (math.nan, 5, 11)}, "pH (not a number) is outside 5 to 11, the range of this equation"),
        (
            {"volume_l": (math.inf, 0, math.inf)},
            "volume inf L is outside 0 L and more, the range of this equation",
        ),
    ],
)
def test_the_refusal_names_value_unit_and_range(limits: dict[str, tuple[float, float, float]], words: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        check_range(**limits)
    assert str(refused.value) == words


def test_the_second_limit_is_looked_at_too() -> None:
    with pytest.raises(OutOfRange, match="temperature 60 C"):
        check_range(ph=(7, 5, 11), temperature_c=(60, 0, 50))


@pytest.mark.parametrize("value", [0, -1, math.nan, math.inf])
def test_nothing_but_a_finite_number_above_zero_is_positive(value: float) -> None:
    check_positive(volume_l=0.001)
    with pytest.raises(OutOfRange, match="is not above 0"):
        check_positive(volume_l=value)


def test_the_longest_ending_gives_the_unit() -> None:
    assert in_words("ammonia_mg_per_l") == ("ammonia", "mg/L")
    assert in_words("bed_area_m2") == ("bed area", "m2")
    assert in_words("target_ph") == ("target pH", "")
    assert in_words("count") == ("count", "")
