"""Which columns of a list there is room for, and where numbers are parted to stand under each other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.tui.widgets.listing_cells import GAP, at_mark
from farmops.tui.widgets.listing_lines import Column
from farmops.tui.widgets.listing_widths import BLANK_GROWING, Extent, fit


def _widths(columns: list[Column], natural: list[int], room: int) -> dict[str, int]:
    extents = [Extent(whole=width, least=width) for width in natural]
    return {columns[slot.index].key: slot.width for slot in fit(columns, extents, room)}


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1.8", ("1", ".8")),
        ("12", ("12", "")),
        ("0,5", ("0", ",5")),
        ("-3.25", ("-3", ".25")),
        ("1,297 min", ("1,297", " min")),
        ("1,127.10", ("1,127", ".10")),
        ("1.127,10", ("1.127", ",10")),
        ("1,234,567", ("1,234,567", "")),
        ("0,125 kg", ("0", ",125 kg")),
        ("$2.14 per lb", ("$2", ".14 per lb")),
        ("94 lb 13 oz", ("94", " lb 13 oz")),
        ("1’297.5", ("1’297", ".5")),
        ("-", None),
        ("no harvest 2026", None),
        ("", None),
    ],
)
def test_numbers_are_parted_at_their_decimal_mark(text: str, parts: tuple[str, str] | None) -> None:
    assert at_mark(text) == parts


def test_the_highest_priority_number_goes_first_and_the_rightmost_of_equals() -> None:
    columns = [Column("a", width=10), Column("b", width=10, priority=1), Column("c", width=10, priority=2)]
    columns.append(Column("d", width=10, priority=1))
    kept = [list(_widths(columns, [10] * 4, room)) for room in (46, 45, 33, 21, 5)]
    assert kept == [["a", "b", "c", "d"], ["a", "b", "d"], ["a", "b"], ["a"], ["a"]]


def test_what_is_left_goes_to_the_column_that_grows() -> None:
    columns = [Column("a", width=5), Column("b", grow=True), Column("c")]
    assert _widths(columns, [5, 8, 4], 40) == {"a": 5, "b": 40 - 5 - 4 - 2 * GAP, "c": 4}
    assert _widths(columns[::2], [5, 4], 40) == {"a": 5, "c": 4}


def test_on_a_wide_screen_numbers_stay_near_the_words_they_belong_to() -> None:
    columns = [Column("what", grow=True), Column("amount", align="right")]
    assert _widths(columns, [30, 8], 200) == {"what": 30 + BLANK_GROWING, "amount": 8}
    assert _widths(columns, [190, 8], 200) == {"what": 200 - 8 - GAP, "amount": 8}


def test_one_long_name_does_not_push_out_the_other_columns() -> None:
    columns = [Column("name"), Column("weight", align="right", priority=1)]
    assert _widths(columns, [60, 10], 50) == {"name": 38, "weight": 10}
    assert _widths(columns, [60, 10], 80) == {"name": 60, "weight": 10}


def test_columns_that_stay_are_narrowed_together() -> None:
    columns = [Column("a"), Column("b"), Column("c", align="right")]
    assert _widths(columns, [20, 20, 6], 30) == {"a": 10, "b": 10, "c": 6}


COLUMNS = st.lists(
    st.builds(
        Column,
        key=st.just("c"),
        width=st.none() | st.integers(0, 40),
        align=st.sampled_from(["left", "right", "point"]),
        grow=st.booleans(),
        priority=st.integers(0, 4),
    ),
    max_size=9,
)


@given(COLUMNS, st.integers(0, 200), st.data())
def test_columns_never_need_more_room_than_there_is(columns: list[Column], room: int, data: st.DataObject) -> None:
    extents = [Extent(*data.draw(st.tuples(*[st.integers(0, 60)] * 4))) for _ in columns]
    slots = fit(columns, extents, room)
    assert not slots or sum(slot.width + GAP for slot in slots) - GAP <= max(room, 1)
    assert all(slot.width >= 1 for slot in slots)
    assert [slot.index for slot in slots] == sorted(slot.index for slot in slots)
    assert slots or not columns or room == 0
