"""Lines of sales in plain words: what is understood, what is refused in which words, and sums in cents."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import floor

import pytest

from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.sales import SaleLine, SoldBy
from farmops.quantities import METRIC, US, Measures
from farmops.quantities.sales import TypedLine, parse_sale_line, part_of, show_line, typed_line

POUND_MG = 453_592.37


def a_line(typed: str, measures=US) -> SaleLine:
    line = parse_sale_line(typed, measures)
    terms, mass = line.terms, line.mass
    return SaleLine(
        id=1,
        sale_id=1,
        planting_id=1,
        fish_lot_id=None,
        what=line.what,
        bed=None,
        sold_by=terms.sold_by,
        amount=terms.amount.exact,
        amount_typed=terms.amount.typed,
        unsold=line.unsold,
        returned=line.returned,
        price_minor=terms.price_minor,
        per_amount=terms.per_amount,
        price_typed=terms.price_typed,
        mass_mg=mass.exact if mass else None,
        mass_typed=mass.typed if mass else None,
    )


@pytest.mark.parametrize(
    ("typed", "sold_by", "sold", "paid"),
    [
        ("CHARD 2 lb at 3.50/lb", SoldBy.WEIGHT, 907_185, 700),
        ("chard 2 4 at 3", SoldBy.WEIGHT, 1_020_583, 675),
        ("WREN-N THAI BASIL 8 oz for 4", SoldBy.WEIGHT, 226_796, 400),
        ("KALE 12 bunches at 2.50 unsold 2", SoldBy.BUNCH, 10, 2500),
        ("KALE 12 bunches at 2.50/bunch unsold 2 bunches returned 1", SoldBy.BUNCH, 9, 2250),
        ("LETTUCE 3 heads for 7", SoldBy.HEAD, 3, 700),
        ("LETTUCE 3 heads for 7 unsold 1", SoldBy.HEAD, 2, 700),
        ("EGGPLANT 2 dozen at 4.50 per dozen", SoldBy.DOZEN, 2, 900),
        ("PERCH-24 6 pieces at 3 each", SoldBy.EACH, 6, 1800),
        ("1 TO 2: 3 lb at 0", SoldBy.WEIGHT, 1_360_777, 0),
        ("PEAS 3 lb at 3.33/lb returned 1 lb", SoldBy.WEIGHT, 907_185, 666),
    ],
)
def test_a_line_says_what_how_much_and_for_what(typed: str, sold_by: SoldBy, sold: int, paid: int):
    line = a_line(typed)
    assert (line.sold_by, line.sold, line.paid_minor) == (sold_by, sold, paid)


def test_a_sum_in_all_stays_exact_when_it_does_not_divide():
    assert a_line("KALE 3 bunches for 10").paid_minor == 1000


def test_half_a_cent_is_rounded_up_once():
    assert a_line("KALE 500 g at 2.01/kg", METRIC).paid_minor == 101


@pytest.mark.parametrize(
    ("typed", "measures", "paid"),
    [
        ("CHARD 12 oz at 3.50/lb", US, 263),
        ("CHARD 4 oz at 3.50/lb", US, 88),
        ("CHARD 12 oz at 3.50/lb", METRIC, 263),
        ("CHARD 0,75 lb at 3,50/lb", replace(METRIC, decimal_comma=True), 263),
        ("CHARD 340.194 g at 3.50/lb", US, 262),
        ("CHARD 340194 mg at 3.50/lb", US, 262),
        ("CHARD 1 lb at 3.50/lb unsold 4 oz", US, 263),
        ("CHARD 1 lb at 3.50/lb unsold 3 oz returned 1 oz", US, 263),
        ("CHARD 12 oz at 3.50/lb unsold 12 oz", US, 0),
        ("CHARD 5 mg for 100000", US, 10_000_000),
    ],
)
def test_a_weight_is_priced_as_it_was_typed_and_not_as_it_is_kept(typed: str, measures: Measures, paid: int):
    assert a_line(typed, measures).paid_minor == paid


def test_every_half_cent_of_ounces_is_rounded_up():
    wrong = [
        ounces
        for ounces in range(1, 400)
        if a_line(f"CHARD {ounces} oz at 3.50/lb").paid_minor != floor(Fraction(ounces * 350, 16) + Fraction(1, 2))
    ]
    assert wrong == []


def test_a_weight_that_does_not_read_as_what_is_kept_is_priced_by_what_is_kept():
    kept = replace(a_line("CHARD 12 oz at 3.50/lb"), amount=500_000)
    assert kept.paid_minor == 386
    assert replace(kept, amount_typed="a basket").paid_minor == 386


def test_what_is_sold_by_count_may_have_its_weight():
    line = a_line("KALE 12 bunches weighing 6 lb at 2.50 unsold 3")
    assert line.mass_mg == round(6 * POUND_MG)
    assert line.sold_mg == (2 * line.mass_mg * 9 + 12) // 24
    assert a_line("KALE 12 bunches at 2.50").sold_mg is None
    assert a_line("KALE 2 lb at 1 unsold 1 lb").sold_mg == 907_185 - 453_592


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "Nothing was typed"),
        ("CHARD 2 lb", "names no price: 'at' for each, or 'for' a sum in all"),
        ("CHARD at 3", "does not say what was sold and how much"),
        ("CHARD 2 lb at 3 for 6", "says the same thing twice"),
        ("CHARD 2 lb at 3 at 4", "says the same thing twice"),
        ("CHARD 2 lb weighing 2 lb at 3", "says its weight twice"),
        ("CHARD 2 bunches at 3/lb", "has a price that is not per bunch"),
        ("CHARD 1.5 dozen at 3", "has a count that is no whole number"),
        ("CHARD 0 bunches at 3", "has a count that is not from 1 to 1,000,000"),
        ("CHARD 2 bunches at 3 unsold 3", "brings back more than was taken along"),
        ("CHARD 2 bunches at 3 unsold 1 lb", "is not said in bunches, as the amount is"),
        ("CHARD 2 lb at -3", "has a minus sign"),
        ("CHARD " + "9" * 40 + " bunches at 3", "has a count that is not from 1"),
    ],
)
def test_what_is_unclear_is_refused_in_words(typed: str, words: str):
    with pytest.raises(FarmopsError) as told:
        parse_sale_line(typed, US)
    assert words in str(told.value)


@pytest.mark.parametrize(
    "typed",
    [
        "CHARD 2 lb 3 oz at 3.50/lb",
        "KALE 12 bunches weighing 6 lb at 2.50 unsold 2 bunches returned 1 bunch",
        "PERCH-24 3 lb for 21",
        "PEAS 3 lb at 3.33 returned 8 oz",
    ],
)
def test_a_line_is_written_as_it_was_typed(typed: str):
    line = parse_sale_line(typed, US)
    assert typed_line(line, US).lower() == typed.lower()
    assert parse_sale_line(typed_line(line, US), US) == line


def test_a_line_reads_as_a_sentence():
    told = show_line(a_line("KALE 9 bunches weighing 6 lb at 2.50 unsold 2 returned 1"), US)
    assert told == "KALE 9 bunches weighing 6 lb at $2.50 per bunch, less 2 bunches unsold and 1 bunch returned: $15.00"
    assert show_line(a_line("CHARD 3 lb for 10"), US) == "CHARD 3 lb for $10.00: $10.00"
    assert show_line(a_line("CHARD 2 lb at 3.50"), US) == "CHARD 2 lb at $3.50 per lb: $7.00"


def test_a_part_is_in_the_unit_of_the_amount():
    assert part_of("2", SoldBy.BUNCH, US) == part_of("2 bunches", SoldBy.BUNCH, US) == 2
    assert part_of("8 oz", SoldBy.WEIGHT, US) == 226_796
    with pytest.raises(NotUnderstood, match="is not said by weight"):
        part_of("2 bunches", SoldBy.WEIGHT, US)


def test_the_name_may_be_set_apart_with_a_colon():
    assert parse_sale_line("TYPE 2: 3 lb at 4", US).what == "TYPE 2"
    assert isinstance(parse_sale_line("TYPE 2: 3 lb at 4", US), TypedLine)
