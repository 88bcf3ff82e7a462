"""Watts, kilowatt-hours, hours of a day, prices of power and amounts of supplies: as typed, exactly, and as read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import FarmopsError, NotUnderstood, OutOfRange
from farmops.model.supplies import HeldBy
from farmops.quantities import METRIC, US, Dimension, Measures
from farmops.quantities.power import (
    A_DAY,
    ENERGY,
    POWER,
    PowerRate,
    parse_power_price,
    power_price_examples,
    show_power_price,
)
from farmops.quantities.supplies import held_examples, held_of, read_held, show_held, show_held_exact

COMMA, YEN = replace(METRIC, decimal_comma=True), replace(US, currency="JPY")
FARMS = st.sampled_from([US, METRIC, COMMA, YEN])


@pytest.mark.parametrize(
    ("dimension", "typed", "exact", "shown"),
    [
        (POWER, "40", 40_000, "40 W"),
        (POWER, "1.2 kW", 1_200_000, "1200 W"),
        (POWER, "18.5 watts", 18_500, "18.5 W"),
        (ENERGY, "1234.5", 1_234_500, "1234.5 kWh"),
        (ENERGY, "800 Wh", 800, "0.8 kWh"),
        (A_DAY, "24", 1440, "24 h"),
        (A_DAY, "6.5", 390, "6 h 30 min"),
        (A_DAY, "1 h 30 min", 90, "1 h 30 min"),
        (A_DAY, "15 min", 15, "15 min"),
    ],
)
def test_what_is_typed_is_understood_exactly(dimension: Dimension, typed: str, exact: int, shown: str) -> None:
    assert dimension.parse(typed, US) == exact
    assert dimension.show(exact, US) == shown


@pytest.mark.parametrize(
    ("dimension", "typed"),
    [(POWER, "40 kWh"), (POWER, "0"), (ENERGY, "5 W"), (A_DAY, "24.5"), (A_DAY, "-1"), (POWER, "")],
)
def test_what_is_no_such_amount_is_refused_in_words(dimension: Dimension, typed: str) -> None:
    with pytest.raises(FarmopsError, match="Understood: "):
        dimension.parse(typed, US)


@given(st.sampled_from([POWER, ENERGY, A_DAY]), st.data(), FARMS)
def test_an_exact_amount_is_read_back_as_itself(dimension: Dimension, data: st.DataObject, measures: Measures) -> None:
    value = data.draw(st.integers(1, dimension.largest if dimension is A_DAY else 10**9))
    if dimension is POWER:
        value = -(-value // 1000) * 1000
    assert dimension.parse(dimension.show_exact(value, measures), measures) == value


@pytest.mark.parametrize(
    ("typed", "measures", "rate", "shown"),
    [
        ("0.16", US, PowerRate(2, 125), "$0.16 per kWh"),
        ("0.1625/kWh", US, PowerRate(13, 800), "$0.1625 per kWh"),
        ("16 per 100 kWh", US, PowerRate(2, 125), "$0.16 per kWh"),
        ("$0.16 per kWh", US, PowerRate(2, 125), "$0.16 per kWh"),
        ("0", US, PowerRate(0, 1), "$0.00 per kWh"),
        ("0,2987", COMMA, PowerRate(2987, 100_000), "0,2987 € per kWh"),
        ("27.5", YEN, PowerRate(11, 400), "¥27.5 per kWh"),
    ],
)
def test_a_price_of_power_keeps_all_its_decimals(typed: str, measures: Measures, rate: PowerRate, shown: str) -> None:
    assert parse_power_price(typed, measures) == rate
    assert show_power_price(rate, measures) == shown


@pytest.mark.parametrize("typed", ["dear", "0,16", "0.16/lb", "£0.2", "0.16/", "", "0.16 0.17", "-0.16"])
def test_what_is_no_price_of_power_is_refused_in_words(typed: str) -> None:
    with pytest.raises(NotUnderstood):
        parse_power_price(typed, US)


def test_a_price_with_more_digits_than_are_kept_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more digits than a price can keep"):
        parse_power_price("0." + "123456789" * 3, US)


@given(FARMS)
def test_the_examples_of_a_price_are_understood(measures: Measures) -> None:
    for example in power_price_examples(measures):
        assert parse_power_price(example, measures).minor


@given(st.sampled_from(HeldBy), st.integers(1, 10**9), FARMS)
def test_an_amount_of_a_supply_is_read_back_as_itself(held_by: HeldBy, amount: int, measures: Measures) -> None:
    assert read_held(held_by, show_held_exact(held_by, amount, measures), measures) == amount


def test_pieces_are_whole_and_said_without_a_unit() -> None:
    assert (read_held(HeldBy.COUNT, " 12 ", US), show_held(HeldBy.COUNT, 12, US)) == (12, "12")
    assert read_held(HeldBy.COUNT, "0", US, zero_ok=True) == 0
    assert held_of(HeldBy.COUNT, 2, "pads", US) == "2 pads"
    assert held_of(HeldBy.MASS, 4_535_924, "pellets", US) == "10 lb of pellets"
    assert (held_examples(HeldBy.COUNT, US), held_examples(HeldBy.VOLUME, US)) == ("a whole number", "275 gal")
    for typed in ("0", "1.5", "-1", "٣", "1000000001", "9" * 30, ""):
        with pytest.raises(NotUnderstood):
            read_held(HeldBy.COUNT, typed, US)
