"""Tables that go out come back with the same values, as CSV and as a workbook; no text in them is a formula."""

from __future__ import annotations

import csv
import errno
import io
import json
import os
from collections.abc import Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from farmops.exchange import tables
from farmops.exchange.answers import check, folded, tables_of, write_answer
from farmops.exchange.stored_cells import BITES, value_of
from farmops.exchange.tables import LONGEST_TITLE, Table, Value, as_csv, as_workbook, ending_of, titles
from farmops.model.errors import NotFound, NotUnderstood, Refused
from farmops.model.text import plain

DAYS = st.dates(date(1900, 3, 1), date(9999, 12, 31))
INSTANTS = st.datetimes(datetime(1900, 3, 1), datetime(9999, 12, 30), timezones=st.just(UTC))  # noqa: DTZ001 - edges
WHOLE = st.integers(-(2**53), 2**53)
NUMBERS = st.floats(-1e15, 1e15, allow_subnormal=False)
TEXT = st.text(min_size=1, max_size=40) | st.sampled_from(
    ["=1+1", "+1", "-", "@x", "'=1", "\x1b[31m", "a\nb", "\u202e"]
)
ROWS = st.lists(st.tuples(TEXT | st.none(), WHOLE, NUMBERS, st.booleans(), DAYS, INSTANTS), max_size=5)
KINDS = (str, int, float, bool, date, datetime)
WITHIN_S = 0.001
DIGITS = 1e-15
"""What a workbook keeps of a number."""


def table_of(rows: Sequence[Sequence[Value]], name: str = "rows") -> Table:
    """Rows of the kinds above, under heads one of which would be a formula."""
    return Table(name, ("=text", "count", "amount", "so", "day", "at"), rows)


def kept(row: Sequence[Any]) -> list[Any]:
    """A row as it comes back: signs that cannot be printed made visible."""
    return [None if row[0] is None else plain(row[0]), *row[1:]]


@given(ROWS)
def test_rows_come_back_from_csv(rows: list[tuple[Any, ...]]) -> None:
    head, *lines = csv.reader(io.StringIO(as_csv(table_of(rows)).decode(), newline=""))
    assert head[:2] == ["'=text", "count"]
    assert [[value_of(*one) for one in zip(KINDS, line, strict=True)] for line in lines] == [*map(kept, rows)]
    assert not any(line[0].startswith(BITES[:-1]) for line in lines)


@given(ROWS)
def test_rows_come_back_from_a_workbook_as_numbers_and_days(rows: list[tuple[Any, ...]]) -> None:
    (sheet,) = load_workbook(io.BytesIO(as_workbook([table_of(rows)]))).worksheets
    head, *lines = sheet.iter_rows()
    assert head[0].value == "'=text"
    assert not any(cell.data_type == "f" for line in (head, *lines) for cell in line)
    for line, row in zip(lines, map(kept, rows), strict=True):
        values: list[Any] = [cell.value for cell in line]
        text, count, amount, so, day, at = values
        assert (text and text.removeprefix("'")) == row[0]
        assert (count, so, day.date()) == (row[1], *row[3:5])
        assert amount == pytest.approx(row[2], rel=DIGITS, abs=0)
        assert abs((at.replace(tzinfo=UTC) - row[5]).total_seconds()) <= WITHIN_S


@given(st.lists(st.text(max_size=60), min_size=1, max_size=8))
def test_titles_are_taken_by_every_spreadsheet(names: list[str]) -> None:
    found = titles(names)
    assert len({one.lower() for one in found}) == len(names)
    assert all(0 < len(one) <= LONGEST_TITLE and not set(one) & set("[]:*?/\\'") for one in found)
    assert "history" not in [one.lower() for one in found]


def test_what_no_workbook_holds_is_refused_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(Refused, match="a text of 40,000 signs"):
        as_workbook([Table("notes", ("note",), [["x" * 40_000]])])
    monkeypatch.setattr(tables, "MOST_ROWS", 3)
    with pytest.raises(Refused, match=r"3 rows of 1 columns\. Let the file end in \.csv or \.json"):
        as_workbook([Table("notes", ("note",), [["x"]] * 3)])


@pytest.mark.parametrize("place", ["farm.pdf", "farm", ".csv", "x.CSV.gz"])
def test_an_ending_that_is_not_known_is_refused_before_anything_is_asked(place: str) -> None:
    with pytest.raises(NotUnderstood, match=r"Understood: \.csv, \.json, \.xlsx"):
        check(place)


def test_an_ending_may_be_in_capitals() -> None:
    assert ending_of("Costs.XLSX") == ".xlsx"


BIRDS = {
    "schema": 1,
    "on": date(2026, 5, 3),
    "currency": "USD",
    "birds": [
        {"unit": "WREN", "size": {"mass_g": 9.5}, "seen": ["mon", "tue"], "eggs": [{"at": 1}, {"at": 2}]},
        {"unit": "ROOK", "size": {"mass_g": 480}, "seen": [], "eggs": []},
        {"unit": "=TEAL", "size": {"mass_g": 320}, "seen": ["sun"], "eggs": [{"at": 7}]},
    ],
    "calls": [{"says": "tchack"}],
    "empty": [],
}


def test_a_csv_holds_the_first_list_with_what_is_said_of_all_of_it(tmp_path: Path) -> None:
    wrote = write_answer(str(tmp_path / "birds.csv"), BIRDS)
    rows = list(csv.DictReader((tmp_path / "birds.csv").read_text(encoding="utf-8").splitlines()))
    assert [*rows[0]] == ["on", "currency", "unit", "size.mass_g", "seen", "eggs"]
    assert rows[0]["on"] == "2026-05-03"
    assert rows[0]["seen"] == "mon; tue"
    assert json.loads(rows[0]["eggs"]) == [{"at": 1}, {"at": 2}]
    assert rows[2]["unit"] == "'=TEAL"
    assert wrote.left_out == ("calls",)
    assert wrote.told.endswith("birds.csv, 3 rows. Not in it: calls; a file that ends in .xlsx or .json has all.")


def test_a_workbook_has_a_sheet_for_each_list_and_says_which_row_a_part_is_of(tmp_path: Path) -> None:
    write_answer(str(tmp_path / "birds.xlsx"), BIRDS)
    book = load_workbook(tmp_path / "birds.xlsx")
    sheets = {one.title: [[cell.value for cell in row] for row in one.iter_rows()] for one in book.worksheets}
    assert [*sheets] == ["answer", "birds", "birds.eggs", "calls", "empty"]
    assert sheets["birds.eggs"] == [["birds row", "at"], [1, 1], [1, 2], [3, 7]]
    assert sheets["birds"][1] == ["WREN", 9.5, "mon; tue"]
    assert sheets["answer"] == [["on", "currency"], [datetime(2026, 5, 3), "USD"]]  # noqa: DTZ001 - a day


def test_json_is_what_is_printed(tmp_path: Path) -> None:
    write_answer(str(tmp_path / "birds.json"), BIRDS)
    found = json.loads((tmp_path / "birds.json").read_text(encoding="utf-8"))
    assert found == {**BIRDS, "on": "2026-05-03"}


def test_an_answer_without_a_list_is_one_row() -> None:
    table, left_out = folded({"unit": "WREN", "reasons": {"cost": "none booked"}})
    assert (table.heads, table.rows, left_out) == (("unit", "reasons.cost"), [["WREN", "none booked"]], ())


def test_nothing_is_an_empty_table_that_is_told_of(tmp_path: Path) -> None:
    assert write_answer(str(tmp_path / "none.csv"), {"schema": 1, "birds": []}).told.endswith(
        "no rows: there is nothing to tell yet."
    )
    write_answer(str(tmp_path / "none.xlsx"), {"schema": 1, "birds": []})
    assert load_workbook(tmp_path / "none.xlsx").sheetnames == ["birds"]


def test_a_figure_is_told_level_by_level_down_to_its_records() -> None:
    weighing = {"kind": "weighing", "id": 4, "words": "CHARD", "amount": 5}
    part = {"name": "weight", "value": 5, "unit": "mg", "formula": "the sum", "parts": [], "records": [weighing]}
    whole = {"name": "yield", "value": 2.5, "unit": "mg", "formula": "a half", "parts": [part], "records": []}
    (_, why) = tables_of({"units": [{"unit": "WREN", "why": {"yield": whole}}]})
    shown = [dict(zip(why.heads, row, strict=True)) for row in why.rows]
    assert [(one["of"], one["row"], one["level"], one["name"], one["value"]) for one in shown] == [
        ("units", 1, 0, "yield", 2.5),
        ("units", 1, 1, "weight", 5),
        ("units", 1, 2, "CHARD", 5),
    ]


def test_it_is_for_its_owner_alone_and_not_over_another(tmp_path: Path) -> None:
    place = str(tmp_path / "birds.csv")
    assert write_answer(place, BIRDS).file.stat().st_mode & 0o777 == 0o600
    with pytest.raises(Refused, match="is there already"):
        write_answer(place, BIRDS)
    with pytest.raises(NotFound, match="There is no folder"):
        write_answer(str(tmp_path / "none" / "birds.csv"), BIRDS)
    assert write_answer(place, {"schema": 1, "birds": []}, replace=True).rows == 0


def test_a_full_disk_is_said_in_words_and_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Refused, match="No space left on device"):
        write_answer(str(tmp_path / "birds.xlsx"), BIRDS)
    assert os.listdir(tmp_path) == []
