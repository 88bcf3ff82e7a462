"""Sales laid over the weighings marked sold: by hand, and on any weighings and lines."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.selling import SLACK_MG, Cover, Marked, Paid, cover
from tests.farmhand import on
from tests.profiles import count

GRAM = 1_000


def test_a_line_is_about_the_latest_weighings_up_to_its_day():
    marked = [Marked(1, on(6, 6), 10_000), Marked(2, on(6, 13), 4_000), Marked(3, on(6, 20), 9_000)]
    lines = [Paid(7, on(6, 6), 2800, 8_000), Paid(8, on(6, 14), 1600, 5_000)]
    assert cover(marked, lines) == [Cover(1, 7, 8_000, 2800), Cover(2, 8, 4_000, 1280), Cover(1, 8, 1_000, 320)]


def test_no_pound_is_sold_twice_and_what_is_beyond_keeps_its_money():
    marked = [Marked(1, on(6, 6), 10_000)]
    lines = [Paid(7, on(6, 7), 900, 9_000), Paid(8, on(6, 7), 300, 3_000)]
    assert cover(marked, lines) == [Cover(1, 7, 9_000, 900), Cover(1, 8, 1_000, 100)]
    assert cover(marked, [Paid(7, on(6, 5), 900, 9_000)]) == []


def test_less_than_a_gram_is_no_rest():
    (one,) = cover([Marked(1, on(6, 6), 907_185)], [Paid(7, on(6, 6), 700, 907_184)])
    assert (one.mass_mg, one.minor) == (907_185, 700)
    (short,) = cover([Marked(1, on(6, 6), 10_000)], [Paid(7, on(6, 6), 700, 10_000 - SLACK_MG)])
    assert short.mass_mg == 9_000


def test_unweighed_lines_share_what_is_left_of_the_week_by_what_was_paid():
    marked = [Marked(1, on(6, 6), 10 * GRAM), Marked(2, on(6, 13), 8 * GRAM), Marked(3, on(5, 1), 5 * GRAM)]
    lines = [Paid(7, on(6, 13), 300, None), Paid(8, on(6, 13), 100, None), Paid(9, on(6, 13), 500, 4 * GRAM)]
    assert cover(marked, lines) == [
        Cover(2, 9, 4_000, 500),
        Cover(2, 7, 3_000, 300),
        Cover(2, 8, 1_000, 100),
    ]
    assert cover(marked, [Paid(7, on(6, 21), 300, None)]) == []
    assert cover([Marked(1, on(6, 6), 3 * GRAM)], [Paid(7, on(6, 6), 0, None)]) == [Cover(1, 7, 3_000, 0)]


DAYS = st.integers(0, 30).map(lambda days: date(2026, 6, 1) + timedelta(days=days))
MASSES = st.integers(1, 5_000_000)
MARKED = st.lists(st.tuples(DAYS, MASSES), max_size=6).map(
    lambda found: [Marked(id, *one) for id, one in enumerate(found, start=1)]
)
PAID = st.lists(st.tuples(DAYS, st.integers(0, 9_999), st.none() | MASSES), max_size=6).map(
    lambda found: [Paid(id, *one) for id, one in enumerate(found, start=1)]
)


@settings(max_examples=count(ci=100, full=3000))
@given(marked=MARKED, lines=PAID)
def test_neither_weight_nor_money_is_made(marked: list[Marked], lines: list[Paid]):
    found = cover(marked, lines)
    days = {one.id: one.day for one in marked}
    for one in marked:
        assert sum(part.mass_mg for part in found if part.marked_id == one.id) <= one.mass_mg
    for line in lines:
        own = [part for part in found if part.paid_id == line.id]
        assert all(days[part.marked_id] <= line.day and part.minor >= 0 for part in own)
        assert sum(part.minor for part in own) <= line.minor
        covered = sum(part.mass_mg for part in own)
        if line.mass_mg is not None and covered >= line.mass_mg:
            assert sum(part.minor for part in own) == line.minor
        if line.mass_mg is not None:
            assert covered < line.mass_mg + SLACK_MG * max(1, len(own))
        elif own:
            assert sum(part.minor for part in own) == line.minor
