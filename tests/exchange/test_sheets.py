"""Files as programs and people save them, CSV and workbooks: encodings, decimals, and those that mean harm."""

from __future__ import annotations

import contextlib
import io
import zipfile
from collections.abc import Callable
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from farmops.exchange.cells import Cells
from farmops.exchange.columns import Column, Table, read_table
from farmops.exchange.customs import Decimals, Order, comma_of, customs_of, order_of
from farmops.exchange.sheet_rows import MOST_COLUMNS
from farmops.model.errors import NotUnderstood
from farmops.quantities import METRIC, US

COLUMNS = (Column("date", needed=True), Column("weight", needed=True), Column("note"))
HEAD = "date,weight,note\n"
Saved = Callable[[bytes], Table]


@pytest.fixture
def saved(tmp_path: Path) -> Saved:
    """Reads a file of that content."""

    def save(content: bytes) -> Table:
        path = tmp_path / "log.dat"
        path.write_bytes(content)
        return read_table(path, COLUMNS)

    return save


def workbook(*rows: list[Any], others: dict[str, list[list[Any]]] | None = None) -> bytes:
    """A workbook with these rows on its first sheet, and others beside it."""
    book = Workbook()
    for sheet, lines in [
        (book.active, rows),
        *((book.create_sheet(name), rows) for name, rows in (others or {}).items()),
    ]:
        assert sheet is not None
        for line in lines:
            sheet.append(line)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    ("encoding", "told"),
    [
        ("utf-8", ()),
        ("utf-8-sig", ()),
        ("utf-16", ("log.dat is read as UTF-16.",)),
        ("utf-16-le", ("log.dat is read as UTF-16.",)),
        ("utf-16-be", ("log.dat is read as UTF-16.",)),
        ("cp1252", ("log.dat is read as Windows-1252, for it is no UTF-8: look at its accents.",)),
    ],
)
def test_the_encoding_of_a_text_is_found_out_and_said(saved: Saved, encoding: str, told: tuple[str, ...]) -> None:
    table = saved(f"{HEAD}2026-05-03,1 lb,kühl\n".encode(encoding))
    assert (table.rows[0].cells["note"], table.told) == ("kühl", told)


def test_a_workbook_gives_what_its_cells_show(saved: Saved) -> None:
    rows = [
        ["date", "weight", "note"],
        [date(2026, 5, 3), 1.25, None],
        [],
        [datetime.fromisoformat("2026-05-04T07:30"), 2.0, time(6)],
    ]
    table = saved(workbook(*rows))
    assert [(row.line, row.cells) for row in table.rows] == [
        (2, {"date": "2026-05-03", "weight": "1.25"}),
        (4, {"date": "2026-05-04 07:30", "weight": "2", "note": "06:00"}),
    ]


def test_of_several_sheets_the_one_with_the_heads_is_read_and_named(saved: Saved) -> None:
    table = saved(workbook(["to do", "weight"], others={"June": [["date", "weight"], ["2026-05-03", 1]]}))
    assert (len(table.rows), table.told) == (1, ("Of 2 sheets June is read, not Sheet.",))


def test_a_sheet_that_is_named_is_read_whatever_fits_better(tmp_path: Path) -> None:
    june, july = ([["date", "weight"], [f"2026-{month}-03", month]] for month in ("06", "07"))
    path = tmp_path / "season.xlsx"
    path.write_bytes(workbook(["date", "weight", "note"], others={"June": june, "July  2026": july, "Empty": []}))

    def day(name: str) -> tuple[str, tuple[str, ...]]:
        table = read_table(path, COLUMNS, wanted=name)
        return table.rows[0].cells["date"], table.told

    assert day("june") == ("2026-06-03", ("Of 4 sheets June is read, not Sheet, July  2026, Empty.",))
    assert day(" July 2026")[0] == "2026-07-03"
    for name, words in (
        ("May", "season.xlsx has no sheet May. Its sheets: Sheet, June, July  2026, Empty."),
        ("empty", "The sheet empty of season.xlsx is empty"),
    ):
        with pytest.raises(NotUnderstood, match=words):
            read_table(path, COLUMNS, wanted=name)


def test_a_file_that_is_no_workbook_has_no_sheet_to_name(tmp_path: Path) -> None:
    path = tmp_path / "june.csv"
    path.write_text(f"{HEAD}2026-06-03,1,\n", encoding="utf-8")
    with pytest.raises(NotUnderstood, match="is no workbook, so it has no sheet June"):
        read_table(path, COLUMNS, wanted="June")


def test_numbers_of_a_workbook_have_a_point_on_a_farm_that_writes_commas(saved: Saved) -> None:
    comma = METRIC if METRIC.decimal_comma else type(METRIC)("kg", "L", "m2", "m", "C", "EUR", decimal_comma=True)
    table = saved(workbook(["date", "weight"], ["2026-05-03", 1.5]))
    customs, told = customs_of(table, comma, date(2026, 10, 14))
    assert Cells(table.rows[0], customs).mass().exact == 1_500_000
    assert told == ()


def test_decimal_commas_of_a_file_are_read_on_a_farm_that_writes_points_and_said(saved: Saved) -> None:
    table = saved(b"date;weight;note\n2026-05-03;1,5 kg;\n2026-05-04;12;\n")
    customs, told = customs_of(table, US, date(2026, 10, 14))
    mass = Cells(table.rows[0], customs).mass()
    assert (mass.exact, mass.typed) == (1_500_000, "1.5 kg")
    assert told == ("Numbers are read with a decimal comma.",)
    assert customs_of(table, US, date(2026, 10, 14), decimals=Decimals.POINT)[1] == ()


@pytest.mark.parametrize(
    ("cells", "comma"),
    [
        (["1,5", "2"], True),
        (["1.5"], False),
        (["1,250"], None),
        (["1,5", "1.5"], None),
        (["1.234,50"], True),
        (["1,234.50"], False),
        (["12"], None),
    ],
)
def test_decimals_are_told_by_a_number_that_can_be_read_in_one_way(cells: list[str], comma: bool | None) -> None:
    assert comma_of(cells) is comma


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["03/05/2026", "13/05/2026"], Order.DAY_FIRST),
        (["5.13.26"], Order.MONTH_FIRST),
        (["03/05/2026"], None),
        (["13/05/2026", "05/13/2026"], None),
    ],
)
def test_the_order_of_days_is_told_by_one_that_can_be_read_in_one_way(cells: list[str], order: Order | None) -> None:
    assert order_of(cells) is order


def bomb() -> bytes:
    """A workbook whose shared strings unpack to 60 MB."""
    out = io.BytesIO(workbook(["date", "weight"]))
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED, compresslevel=1) as parts:
        parts.writestr("xl/more.xml", b"\0" * 60_000_000)
    return out.getvalue()


def with_sheet(xml: str) -> bytes:
    """A workbook with that XML as its sheet."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(workbook(["date"]))) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            new.writestr(name, xml if name.startswith("xl/worksheets/") else old.read(name))
    return out.getvalue()


SHEET = (
    '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>{}</sheetData></worksheet>'
)
ENTITIES = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 12))
LAUGHS = f'<!DOCTYPE w [<!ENTITY e0 "ha">{ENTITIES}]>' + SHEET.format('<row r="1"><c t="str"><v>&e11;</v></c></row>')


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (lambda: bomb(), "unpacks to more than a file of records holds"),
        (lambda: workbook(["date", "weight"])[:-400], "is a damaged workbook"),
        (lambda: with_sheet(LAUGHS), "is a damaged workbook"),
        (lambda: with_sheet("<worksheet"), "is a damaged workbook"),
        (
            lambda: with_sheet(SHEET.format('<row r="999999999999"><c t="n"><v>1</v></c></row>')),
            "more than 1,000 blank lines after line 0",
        ),
        (lambda: with_sheet(SHEET.format("")), "is empty"),
        (lambda: workbook([f"h{at}" for at in range(MOST_COLUMNS + 1)]), "more than 1,000 columns"),
        (lambda: ",".join(["h"] * 10_000).encode(), "more than 1,000 columns"),
        (lambda: f"{HEAD}2026-05-03,1,{'a' * 40_000}\n".encode(), "line 2, has a cell of more than 32,767 signs"),
        (lambda: f"{HEAD}2026-05-03,1,{'a' * 10_000_000}\n".encode(), "line 2, is no CSV: field larger"),
        (lambda: b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "bytes that no text has"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
def test_files_that_are_too_much_or_damaged_are_refused_in_words(
    saved: Saved, content: Callable[[], bytes], words: str
) -> None:
    with pytest.raises(NotUnderstood, match=words):
        saved(content())


WHOLE = workbook(["date", "weight"], ["2026-05-03", 1.5])


@settings(max_examples=40, deadline=None)
@given(at=st.integers(0, len(WHOLE) - 1), bytes_there=st.binary(min_size=1, max_size=8))
def test_a_workbook_damaged_anywhere_is_read_or_refused_in_words(
    tmp_path_factory: pytest.TempPathFactory, at: int, bytes_there: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "hurt.xlsx"
    path.write_bytes(WHOLE[:at] + bytes_there + WHOLE[at + len(bytes_there) :])
    with contextlib.suppress(NotUnderstood):
        assert len(read_table(path, COLUMNS).rows) <= 1
