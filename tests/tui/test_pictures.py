"""Pictures made of signs: to scale, told apart without colour, and never wider than their room."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from farmops.tui.widgets.pictures import Stack, columns_over, gathered, stacked, stacks, wrapped
from farmops.tui.widgets.plan import crops_to_scale
from farmops.tui.widgets.sparks import ASCII

WORDS = ("paid", "power", "labour")
amounts = st.floats(0, 1e6)


def test_bars_are_to_one_scale_and_their_signs_are_explained():
    drawn = list(stacks([Stack("A", (30, 0, 10), "$40"), Stack("BB", (20, 0, 0), "$20")], WORDS, 47))
    assert drawn == [
        f"A  {'█' * 30}{'▒' * 10} $40",
        f"BB {'█' * 20}{' ' * 20} $20",
        "█ paid  ▒ labour",
    ]
    assert list(stacks([Stack("A", (1, 1, 2), "$4")], WORDS, 14, ASCII)) == [
        "A ##==+++++ $4",
        "# paid",
        "= power",
        "+ labour",
    ]


def test_bars_stand_under_each_other_whatever_script_and_length_their_names_have():
    names = ["WREN", "水耕栽培一号棟", "A UNIT WITH A VERY LONG NAME INDEED"]
    drawn = list(stacks([Stack(name, (1, 1, 0), "$2") for name in names], WORDS, 60))[:3]
    assert {cell_len(line) for line in drawn} == {60}
    assert {cell_len(line[: line.index("█")]) for line in drawn} == {21}


def test_nothing_is_no_picture():
    assert list(stacks([Stack("A", (0, 0, 0), "$0")], WORDS, 40)) == []
    assert list(columns_over([0.0, None], ["", ""], 40, 3, "0")) == []


@given(st.lists(amounts, min_size=1, max_size=5), st.integers(0, 60))
def test_a_stacked_bar_is_as_long_as_asked(parts: list[float], width: int):
    assert len(stacked(parts, width, "abcde")) == (width if sum(parts) > 0 else 0)


def test_columns_stand_over_their_labels_with_gaps_where_nothing_is_known():
    assert list(columns_over([1, 2, None, 4], ["Mar", "Apr", "May", "Jun"], 21, 2, "4 lb")) == [
        "4 lb             ███",
        "     ▄▄▄ ███     ███",
        "     Mar Apr May Jun",
    ]


def test_a_column_far_off_is_cut_and_says_so():
    assert list(columns_over([1, 90], ["a", "b"], 12, 2, "2", most=2)) == ["2     ▲▲▲", "  ███ ███", "  a   b"]


@given(st.lists(st.none() | amounts, min_size=1, max_size=90), st.integers(1, 5))
def test_columns_are_never_wider_than_their_room(values: list[float | None], height: int):
    drawn = list(columns_over(values, ["x"] * len(values), 100, height, "9.99 lb"))
    assert all(len(line) <= 100 for line in drawn)
    assert len(drawn) in (0, height + 1)


def test_weeks_are_gathered_where_there_are_more_than_columns():
    assert gathered([1, 2, 3, 4, 5], 2) == ([6, 9], 3)
    assert gathered([1, 2], 9) == ([1, 2], 1)
    assert gathered([], 9) == ([], 1)


@pytest.mark.parametrize(
    ("width", "lines"), [(20, ["one  two  three"]), (8, ["one  two", "three"]), (1, ["one", "two", "three"])]
)
def test_words_are_not_cut(width: int, lines: list[str]):
    assert list(wrapped(["one", "two", "three"], width)) == lines


def test_a_bed_names_its_crops_where_their_names_can_be_read_and_else_how_many_there_are():
    four = (("MINT", 0.1), ("CHARD", 0.5), ("PAK CHOI", 0.3), ("CHIVES", 0.1))
    assert crops_to_scale(four, 12) == "4 crops     "
    assert crops_to_scale((("CELERY", 0.3), ("CHARD", 0.2)), 14) == "2 crops|      "
    assert crops_to_scale((("CELERY", 0.3), ("SPRING ONION", 0.1), ("CHARD", 0.3)), 12) == "3 crops|    "
    assert crops_to_scale((("KALE", 0.5), ("CHARD", 0.5)), 12) == "KALE |CHARD "
    assert crops_to_scale((("MINT", 0.1), ("CHARD", 0.5), ("PAK CHOI", 0.4)), 24) == "·|CHARD      |PAK CHOI  "
    assert crops_to_scale((("ROCKET", 0.5),), 12) == "ROCKE|      "
