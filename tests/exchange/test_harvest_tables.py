"""Files of weighings as people save them: their columns, their delimiters, their lines."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.exchange.harvest_tables import Table, read_rows
from farmops.model.errors import NotFound, NotUnderstood

HEAD = "date,unit,bed,crop,weight"
ROW = "2026-05-03,WREN,N,CHARD,1 lb"


@pytest.fixture
def saved(tmp_path: Path):
    """Reads a file of that content."""

    def save(content: str | bytes) -> Table:
        path = tmp_path / "july.csv"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_rows(path)

    return save


def test_columns_are_found_by_their_heads_in_any_order_and_letter_case(saved) -> None:
    (row,) = saved("Weight, Note ,CROP,Bed,unit,DATE\n1 lb,wet,CHARD,N,WREN,2026-05-03\n").rows
    assert row.cells == {
        "weight": "1 lb",
        "note": "wet",
        "crop": "CHARD",
        "bed": "N",
        "unit": "WREN",
        "date": "2026-05-03",
    }


@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_columns_are_parted_by_comma_semicolon_or_tab(saved, sign: str) -> None:
    table = saved(f"{HEAD}\n{ROW}\n".replace(",", sign))
    assert table.rows[0].cells["crop"] == "CHARD"


def test_a_byte_order_mark_and_windows_line_ends_are_no_part_of_the_text(saved) -> None:
    table = saved(f"\ufeff{HEAD}\r\n{ROW}\r\n")
    assert [(row.line, row.cells["date"], row.cells["weight"]) for row in table.rows] == [(2, "2026-05-03", "1 lb")]


def test_columns_that_mean_nothing_here_are_named_as_ignored(saved) -> None:
    table = saved(f"{HEAD},weather,\n{ROW},rain,\n")
    assert table.ignored == ("weather",)
    assert "weather" not in table.rows[0].cells


@pytest.mark.parametrize(
    ("head", "unit"),
    [
        ("weight", None),
        ("weight (lb)", "lb"),
        ("Weight [kg]", "kg"),
        ("weight_lb", "lb"),
        ("weight ounces", "oz"),
        ("weight(g)", "g"),
    ],
)
def test_the_head_of_the_weights_may_name_their_unit(saved, head: str, unit: str | None) -> None:
    table = saved(f"date,unit,bed,crop,{head}\n{ROW}\n")
    assert (table.units.get("weight"), table.rows[0].cells["weight"]) == (unit, "1 lb")


@given(st.lists(st.text(alphabet='a ",;\n\r', max_size=8), min_size=1, max_size=6))
def test_a_row_is_known_by_the_line_it_begins_on(tmp_path_factory: pytest.TempPathFactory, notes: list[str]) -> None:
    text, begins = io.StringIO(f"{HEAD},note\n", newline=""), []
    text.seek(0, io.SEEK_END)
    for note in notes:
        begins.append(1 + len(re.findall(r"\r\n|\r|\n", text.getvalue())))
        csv.writer(text, quoting=csv.QUOTE_ALL, lineterminator="\n").writerow([*ROW.split(","), note])
    path = tmp_path_factory.getbasetemp() / "lines.csv"
    path.write_bytes(text.getvalue().encode())
    assert [row.line for row in read_rows(path).rows] == begins


def test_blank_rows_are_left_out_and_counted_as_lines(saved) -> None:
    assert [row.line for row in saved(f"{HEAD}\n\n,,,,\n{ROW}\n").rows] == [4]


def test_a_row_with_more_cells_than_heads_says_so(saved) -> None:
    table = saved(f"{HEAD}\n2026-05-03,WREN,N,CHARD,1,4\n{ROW},,,\n")
    assert [row.overfull for row in table.rows] == [True, False]


def test_missing_columns_are_refused_with_what_was_found(saved) -> None:
    with pytest.raises(NotUnderstood, match=r"july.csv has no column bed and no column weight\. Found: date, unit"):
        saved("date,unit,crop,kilos\n")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"\n  \n", "is empty"),
        (f"{HEAD},weight (kg)\n", "more than one column weight"),
        (HEAD.replace("weight", "weight (stone)"), '"stone" is no unit of weight'),
        (f"{HEAD}\n{ROW}\n".encode("utf-16")[:-1], "is no text in UTF-16"),
        (f"{HEAD},note\n{ROW},\n{ROW},k".encode() + b"\x81hl\n", "is no text in Windows-1252: see line 3"),
        (f"{HEAD}\n{ROW}\0\n", "bytes that no text has"),
        (f'{HEAD},note\n{ROW},\n{ROW},"never closed\n{ROW}', "line 3, is no CSV"),
    ],
)
def test_what_is_no_file_of_weighings_is_refused_in_words(saved, content: str | bytes, words: str) -> None:
    with pytest.raises(NotUnderstood, match=words):
        saved(content)


def test_a_file_that_is_not_there_is_refused_in_words(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match=r"july\.csv cannot be read: No such file"):
        read_rows(tmp_path / "july.csv")


def test_a_head_alone_is_a_file_without_rows(saved) -> None:
    assert saved(HEAD).rows == ()
