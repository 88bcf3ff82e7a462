"""Cells of a row of weighings: what is understood, what is refused, and what makes two rows the same."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.exchange.cells import RowRefusedError
from farmops.exchange.columns import Row
from farmops.exchange.customs import Customs
from farmops.exchange.harvest_rows import Reading, Weighed
from farmops.model.harvests import Use
from farmops.quantities import METRIC, US, Measures

TODAY = date(2026, 10, 14)
CELLS = {"date": "2026-05-03", "unit": "WREN", "bed": "N", "crop": "CHARD", "weight": "1 lb"}


def read(measures: Measures = US, weights_in: str | None = None, **cells: str) -> Weighed:
    """What a row says in which these cells differ from a plain one."""
    return Reading(Customs(measures, TODAY, units={"weight": weights_in} if weights_in else {})).row(
        Row(7, {**CELLS, **cells})
    )


def refusal(measures: Measures = US, weights_in: str | None = None, **cells: str) -> tuple[str | None, str]:
    """The column and the reason for which such a row is refused."""
    with pytest.raises(RowRefusedError) as refused:
        read(measures, weights_in, **cells)
    return refused.value.column, refused.value.reason


def test_a_plain_row() -> None:
    row = read(count=" 12 ", use="Sold", note=" two\nbunches ")
    assert (row.line, row.day, row.where, row.what) == (7, date(2026, 5, 3), "WREN-N", "CHARD")
    assert (row.mass.exact, row.mass.typed) == (453_592, "1 lb")
    assert (row.number, row.use, row.note) == (12, Use.SOLD, "two bunches")


def test_without_count_use_or_note_it_was_eaten_at_home() -> None:
    row = read()
    assert (row.number, row.use, row.note) == (None, Use.HOME, None)


@pytest.mark.parametrize(
    ("unit", "bed", "where"),
    [
        ("wren", "n", "WREN-N"),
        ("WREN", "WREN-N", "WREN-N"),
        ("", "wren-n", "WREN-N"),
        ("WREN", "", "WREN"),
        ("DBAN", "II-12", "DBAN-II-12"),
    ],
)
def test_a_bed_is_named_shortly_or_in_full(unit: str, bed: str, where: str) -> None:
    assert read(unit=unit, bed=bed).where == where


@pytest.mark.parametrize("text", ["2026-05-03", "3 may 2026", "May 3, 2026"])
def test_days_that_mean_the_same_whenever_the_file_is_read(text: str) -> None:
    assert read(date=text).day == date(2026, 5, 3)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "no date"),
        ("03/05/2026", "may put the month or the day first"),
        ("3.5.26", "may put the month or the day first"),
        ("someday", "someday is no day"),
        ("2026-02-30", "2026-02-30 is no day"),
        ("3 may", "names no year.*write 2026-05-03"),
        ("yesterday", "names no year"),
        ("+200", "names no year"),
        ("1850-05-03", "before 1900"),
        ("2062-05-03", "still to come"),
    ],
)
def test_days_that_are_refused(text: str, reason: str) -> None:
    column, said = refusal(date=text)
    assert column == "date"
    assert re.search(reason, said), said


@pytest.mark.parametrize(
    ("measures", "weights_in", "typed", "mg"),
    [
        (US, None, "1 6", 623_690),
        (US, None, "1.5", 680_389),
        (US, "kg", "1.5", 1_500_000),
        (US, "kg", "1.5 lb", 680_389),
        (US, "oz", "8 + 8", 453_592),
        (METRIC, None, "1.5", 1_500_000),
        (METRIC, "lb", "1.5", 680_389),
        (METRIC, "lb", "1 + 500 g", 953_592),
        (METRIC, "oz", "1/2", 14_175),
    ],
)
def test_weights_that_name_no_unit_are_in_that_of_the_file_else_of_the_farm(
    measures: Measures, weights_in: str | None, typed: str, mg: int
) -> None:
    assert read(measures, weights_in, weight=typed).mass.exact == mg


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ("", "no weight"),
        ("n/a", "no weight"),
        ("NaN", "no weight"),
        ("heavy", 'has "heavy"'),
        ("-9999", "minus sign"),
        ("0", "comes to nothing"),
        ("1,5", "ambiguous"),
        ("1001 kg", "in one weighing"),
    ],
)
def test_weights_that_are_refused(typed: str, reason: str) -> None:
    column, said = refusal(weight=typed)
    assert column == "weight"
    assert reason in said


@pytest.mark.parametrize(
    ("column", "text", "reason"),
    [
        ("count", "0", "0 is no count"),
        ("count", "2.5", "2.5 is no count"),
        ("count", "9999999", "understood: 1 to 1,000,000"),
        ("use", "eaten", "eaten is no use; understood: sold, home, given, waste, feed"),
        ("crop", " ", "crop is empty"),
        ("unit", "", "unit is empty"),
        ("note", "a\x1b[2Jb", "cannot be printed"),
        ("note", "a" * 1001, "at most 1000 fit"),
    ],
)
def test_other_cells_that_are_refused(column: str, text: str, reason: str) -> None:
    named, said = refusal(**{column: text})
    assert named == column
    assert reason in said


def test_a_count_written_as_a_decimal_by_a_spreadsheet_is_a_count() -> None:
    assert read(count="4.0").number == 4


def test_a_row_with_too_many_cells_is_refused_as_a_whole() -> None:
    with pytest.raises(RowRefusedError, match="more cells") as refused:
        Reading(Customs(US, TODAY)).row(Row(7, CELLS, overfull=True))
    assert refused.value.column is None


def test_two_spellings_of_a_row_have_the_same_mark() -> None:
    one = read(weight="1 lb 8 oz", note="wet  leaves")
    same = read(
        date="3 May 2026", unit="wren", bed="WREN-n", crop="Chard", weight="24 oz", use="home", note="wet leaves"
    )
    assert one.fingerprint(1) == same.fingerprint(1)
    assert one.fingerprint(1) != one.fingerprint(2)


SAYINGS = st.fixed_dictionaries(
    {
        "date": st.sampled_from(["2026-05-03", "2026-05-04"]),
        "unit": st.sampled_from(["WREN", "HERON"]),
        "bed": st.sampled_from(["", "N", "S"]),
        "crop": st.sampled_from(["CHARD", "KALE", "N"]),
        "weight": st.sampled_from(["1 lb", "2 lb", "453593 mg"]),
        "count": st.sampled_from(["", "1", "2"]),
        "use": st.sampled_from(["home", "sold"]),
        "note": st.sampled_from(["", "1", "wet"]),
    }
)


@given(SAYINGS, SAYINGS)
def test_marks_are_the_same_only_where_all_cells_say_the_same(one: dict[str, str], other: dict[str, str]) -> None:
    assert (read(**one).fingerprint(1) == read(**other).fingerprint(1)) is (one == other)
