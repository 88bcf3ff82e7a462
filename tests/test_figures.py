"""Numbers that explain themselves add up at every level, and say so when they do not."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from farmops.figures import (
    CHECKS,
    Figure,
    Made,
    RecordLine,
    Records,
    difference,
    given,
    missing,
    of_records,
    quotient,
    share,
    total,
    worked,
)

TWO, FIVE, NOTHING = (given(str(number), number, "minor", "so") for number in (2, 5, 0))
GAP = missing("gap", "minor", "nothing was weighed")


def records(*amounts: int) -> Records:
    lines = [RecordLine("costs", at, f"cost {at}", amount) for at, amount in enumerate(amounts)]
    return Records("costs", len(lines), lambda: lines)


SOUND = {
    Made.GIVEN: FIVE,
    Made.RECORDS: of_records("paid", 7, "minor", "all", records(3, 4)),
    Made.SUM: total("both", "minor", [TWO, FIVE], "both"),
    Made.DIFFERENCE: difference("left", "minor", FIVE, TWO, "the rest"),
    Made.PRODUCT: Figure("area", 10, "mm2", Made.PRODUCT, "length x width", parts=(TWO, FIVE)),
    Made.QUOTIENT: quotient("each", "minor", FIVE, TWO, "by two", nothing="none"),
    Made.SHARE: share("part", 14, given("whole", 35, "minor", "so"), (TWO, FIVE), "by weight"),
    Made.WORKED: worked("power", "minor", (FIVE, TWO), "a ^ b", lambda values: values[0] ** 2),
}
BROKEN = {
    Made.GIVEN: replace(FIVE, parts=(TWO,)),
    **{
        made: replace(figure, value=(figure.value or 0) + 1) for made, figure in SOUND.items() if made is not Made.GIVEN
    },
}


def test_every_way_a_figure_is_made_has_a_check():
    assert set(CHECKS) == set(SOUND) == set(BROKEN) == set(Made)


@pytest.mark.parametrize("made", Made)
def test_what_follows_from_its_parts_adds_up_and_what_does_not_fails(made: Made):
    assert SOUND[made].made is made
    assert SOUND[made].adds_up()
    assert not BROKEN[made].adds_up()


def test_records_fail_when_their_number_is_wrong_or_they_are_lost():
    paid = SOUND[Made.RECORDS]
    assert not replace(paid, records=replace(records(3, 4), count=3)).adds_up()
    assert not replace(paid, records=None).adds_up()


def test_a_share_may_be_off_by_less_than_one_smallest_unit():
    whole = given("whole", 10, "minor", "so")
    third = (given("own", 1, "days", "so"), given("all", 3, "days", "so"))
    assert [share("part", value, whole, third, "by days").adds_up() for value in (2, 3, 4, 5)] == [
        False,
        True,
        True,
        False,
    ]
    assert not share("part", 0, whole, (NOTHING, NOTHING), "by nothing").adds_up()


def test_what_is_missing_says_why_and_makes_what_rests_on_it_missing():
    assert GAP.adds_up()
    assert not replace(GAP, reason=None).adds_up()
    for figure in (
        total("sum", "minor", [TWO, GAP], "both"),
        difference("rest", "minor", GAP, TWO, "rest"),
        difference("rest", "minor", TWO, GAP, "rest"),
        quotient("each", "minor", GAP, TWO, "each", nothing="none"),
        quotient("each", "minor", TWO, GAP, "each", nothing="none"),
    ):
        assert (figure.value, figure.reason) == (None, "nothing was weighed")
        assert figure.adds_up()
        assert len(figure.parts) == 2


def test_nothing_is_divided_by_nothing():
    each = quotient("each", "minor", FIVE, NOTHING, "each", nothing="no bed area")
    assert (each.value, each.reason) == (None, "no bed area")


def test_a_quotient_is_exact():
    assert SOUND[Made.QUOTIENT].value == Fraction(5, 2)


def test_a_figure_is_walked_to_its_last_part():
    left = difference("left", "minor", total("both", "minor", [TWO, FIVE], "both"), TWO, "rest")
    assert [figure.name for figure in left.walk()] == ["left", "both", "2", "5", "2"]


def test_records_are_fetched_only_when_somebody_looks():
    fetched = []
    looked = Records("costs", 1, lambda: fetched.append(1) or [RecordLine("costs", 1, "feed", 5)])
    figure = of_records("paid", 5, "minor", "all", looked)
    assert fetched == []
    assert [line.amount for line in figure.records.lines()] == [5]
    assert fetched == [1]


def test_the_sum_of_no_parts_is_nothing():
    assert total("none", "minor", [], "none").value == 0
