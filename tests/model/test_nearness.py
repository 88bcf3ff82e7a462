"""Which names are near enough to be asked about."""

from __future__ import annotations

import pytest

from farmops.model.nearness import near_names

CROPS = ["KALE", "CHARD", "THAI BASIL", "BASIL", "LETTUCE"]


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("okra", []),
        ("BEET", []),
        ("TOMATO", []),
        ("", []),
        ("kael", ["KALE"]),
        ("CHAD", ["CHARD"]),
        ("CHRAD", ["CHARD"]),
        ("LETT", ["LETTUCE"]),
        ("basil", ["BASIL", "THAI BASIL"]),
        ("thai  basl", ["THAI BASIL"]),
    ],
)
def test_a_name_is_suggested_only_where_it_is_really_near(typed: str, near: list[str]) -> None:
    assert near_names(typed, CROPS) == near


def test_codes_that_begin_alike_are_near_and_no_more_than_a_few() -> None:
    assert near_names("P9", ["P1", "Q9"]) == ["P1"]
    assert near_names("WREN-M", ["WREN-N", "ROOK-M", "WREN-S", "WREN-E", "WREN-W"]) == ["WREN-N", "WREN-S", "WREN-E"]
