"""Lot codes read back as they were written, and what is none is refused in words."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import NotUnderstood
from farmops.model.lot_codes import LotCode, read_lot_code

DAYS = st.none() | st.dates(date(2000, 1, 1), date(2068, 12, 31))


@given(st.integers(1, 10**17), DAYS)
def test_the_code_of_a_planting_reads_back(id: int, day: date | None) -> None:
    assert read_lot_code(str(LotCode(id, day=day))) == LotCode(id, day=day)


@given(st.from_regex(r"[A-Z]{1,8}-[0-9]{2}", fullmatch=True), DAYS)
def test_the_code_of_a_fish_lot_reads_back(code: str, day: date | None) -> None:
    assert read_lot_code(str(LotCode(fish_lot=code, day=day))) == LotCode(fish_lot=code, day=day)


def test_it_is_read_as_it_is_typed() -> None:
    assert read_lot_code(" p41-261014 ") == LotCode(41, day=date(2026, 10, 14))
    assert str(LotCode(fish_lot="PERCH-24", day=date(2026, 9, 3))) == "PERCH-24-260903"


@pytest.mark.parametrize(("text", "words"), [("", "no lot code"), ("P41-261399", "no day"), ("P41-260230", "no day")])
def test_what_is_no_code_is_refused(text: str, words: str) -> None:
    with pytest.raises(NotUnderstood, match=words):
        read_lot_code(text)
