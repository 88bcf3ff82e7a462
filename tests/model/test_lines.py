"""Lines of a file told as stretches."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.lines import MOST_TOLD, Stretch, lines_told, stretches


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ([9], "line 9"),
        ([2, 3], "lines 2-3"),
        ([9, 2, 3, 4, 3], "lines 2-4, 9"),
    ],
)
def test_lines_are_told_in_order_and_each_once(lines: list[int], told: str) -> None:
    assert lines_told(stretches(lines)) == told


def test_of_very_many_stretches_the_first_are_told() -> None:
    told = lines_told(stretches(range(2, 2 * MOST_TOLD + 8, 2)))
    assert told.startswith("lines 2, 4, 6, ")
    assert told.endswith(f", {2 * MOST_TOLD} and 3 more stretches")


@given(st.lists(st.integers(1, 60)))
def test_stretches_hold_every_line_and_no_other(lines: list[int]) -> None:
    found = stretches(lines)
    assert [line for one in found for line in range(one.first, one.last + 1)] == sorted(set(lines))
    assert all(one.last + 1 < after.first for one, after in pairwise(found))
    assert all(isinstance(one, Stretch) for one in found)
