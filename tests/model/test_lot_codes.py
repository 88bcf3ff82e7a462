"""Lot codes read back as they were written, and what is none is refused in words."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import NotUnderstood
from farmops.model.lot_codes import LotCode, read_lot_code

WHERE = st.from_regex(r"[A-Z0-9][-_.A-Z0-9]{0,23}", fullmatch=True)
DAYS = st.none() | st.dates(date(2000, 1, 1), date(2068, 12, 31))


@given(WHERE, st.none() | st.integers(1, 10**17), DAYS)
def test_a_code_reads_back(where: str, planting: int | None, day: date | None) -> None:
    assert read_lot_code(str(LotCode(where, planting, day))) == LotCode(where, planting, day)


def test_it_is_read_as_it_is_typed() -> None:
    assert read_lot_code(" wren-n#41/261014 ") == LotCode("WREN-N", 41, date(2026, 10, 14))
    assert str(LotCode("PERCH-24", day=date(2026, 9, 3))) == "PERCH-24/260903"
    assert read_lot_code("p1") == LotCode("P1")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no lot code"),
        ("WREN-N#0", "no lot code"),
        ("/261014", "no lot code"),
        ("WREN-N#41/261399", "no day"),
        ("PERCH-24/260230", "no day"),
    ],
)
def test_what_is_no_code_is_refused(text: str, words: str) -> None:
    with pytest.raises(NotUnderstood, match=words):
        read_lot_code(text)
