"""Y writes what a list shows into a file: the same lines, real numbers and days, units in the heads; never unasked."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook
from textual.screen import Screen

from farmops.exchange.tables import as_csv
from farmops.quantities import MASS, US, show_money
from farmops.quantities.worded import Worded
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.water import waters_of
from farmops.tui.actions import PLACES
from farmops.tui.forms.lists_out import name_of_file, with_ending
from farmops.tui.screens.balance import BalanceScreen
from farmops.tui.screens.chore_past import ChorePast
from farmops.tui.screens.load import LoadAhead
from farmops.tui.screens.lot_life import LotLife
from farmops.tui.screens.lot_trace import LotTrace
from farmops.tui.screens.month import MonthGlance
from farmops.tui.screens.picks import Picks
from farmops.tui.screens.series import Series
from farmops.tui.widgets.forms import FormScreen
from farmops.tui.widgets.listing_lines import Cell, Column, Heading, Line, View
from farmops.tui.widgets.listing_tables import table_of
from farmops.tui.widgets.sparks import Bar, Spark
from tests.tui.demo import Driver, go_to, listing_of, on_screen, press, running, until, until_seen

OWNER_ALONE = 0o600
COLUMNS = (Column("day", "day"), Column("what", "what"), Column("amount", "amount", align="point"))
POUND_MG = 453_592.37
POUND = round(POUND_MG)


def lines(*rows: tuple[Cell, ...]) -> View:
    """Rows as a list shows them."""
    return View([Line(str(at), row) for at, row in enumerate(rows)])


def test_numbers_are_exact_and_their_unit_stands_in_the_head() -> None:
    shown = lines(("2026-05-03", "CHARD", MASS.show(623_690, US)), ("2026-05-04", "KALE", MASS.show(0, US)))
    found = table_of(COLUMNS, shown)
    assert found.heads == ("day", "what", "amount (lb)")
    assert found.rows[0][:2] == (date(2026, 5, 3), "CHARD")
    assert found.rows[0][2] == pytest.approx(623_690 / POUND_MG, rel=1e-12)
    assert found.rows[1][2] == 0


def test_where_units_differ_each_stands_beside_its_number() -> None:
    shown = lines(("", "feed", show_money(-1250, US)), ("", "held", MASS.show(POUND, US)), ("", "price", "3.50/lb"))
    found = table_of(COLUMNS, shown)
    assert found.heads == ("day", "what", "amount", "unit of amount")
    assert [row[2:] for row in found.rows] == [(-12.5, "USD"), (pytest.approx(1), "lb"), ("3.50/lb", None)]


def test_sections_come_first_and_what_is_missing_is_empty() -> None:
    view = View([Heading("Paid"), Line("1", ("-", "pump", "12")), Heading("Sold"), Line("2", ("", "eggs", "3"))])
    assert table_of(COLUMNS, view).rows == [("Paid", None, "pump", 12), ("Sold", None, "eggs", 3)]


def test_of_bars_the_ends_go_out_and_of_curves_the_values() -> None:
    columns = (Column("yield", "lb", align="point"), Column("drawn", ""), Column("curve", "read"))
    found = table_of(columns, lines((Worded("1.5", 1.5, ""), Bar(1.5, 1.0, 2.0), Spark((1.0, 2.0)))))
    assert (found.heads, found.rows) == (("lb", "lb from", "lb to", "read"), [(1.5, 1.0, 2.0, "1 2")])


@given(st.lists(st.tuples(st.text(max_size=9), st.text(max_size=9), st.integers(-(10**12), 10**12)), max_size=5))
def test_every_line_goes_out_whatever_it_says(rows: list[tuple[str, str, int]]) -> None:
    shown = lines(*((day, what, show_money(minor, US)) for day, what, minor in rows))
    found = table_of(COLUMNS, shown)
    assert [row[-1] for row in found.rows] == [float(Fraction(minor, 100)) for *_, minor in rows]
    assert len(list(csv.reader(as_csv(found).decode().splitlines()))) == len(rows) + 1


@pytest.mark.parametrize(
    ("typed", "wanted"), [("a/costs", "a/costs.csv"), ("costs.XLSX", "costs.XLSX"), ("x.y", "x.y.csv")]
)
def test_an_ending_that_is_typed_says_what_it_becomes(typed: str, wanted: str) -> None:
    assert with_ending(typed, ".csv") == wanted


def test_titles_become_names_of_files() -> None:
    assert name_of_file("Returns by unit, full cost") == "returns-by-unit-full-cost"
    assert name_of_file("../\x1b") == "list"


async def write(pilot: Driver, file: Path) -> None:
    """Press Y, name the file and write it."""
    await press(pilot, "Y")
    form = pilot.app.screen
    assert isinstance(form, FormScreen), on_screen(pilot.app)
    box = form.box("file")
    assert Path(box.text).suffix == ".xlsx"
    box.text = str(file)
    await press(pilot, "f2")


@pytest.mark.parametrize("place", PLACES)
async def test_every_place_writes_all_its_lines(place: str, demo_place: str, tmp_path: Path) -> None:
    async with running(demo_place) as pilot:
        if place != "chores":
            await go_to(pilot, place)
        await write(pilot, tmp_path / "list.xlsx")
        await until(pilot, (tmp_path / "list.xlsx").exists, "the file")
        await until(pilot, lambda: not isinstance(pilot.app.screen, FormScreen), "the form closed")
        listing = listing_of(pilot.app)
        items = listing._view
        count = sum(isinstance(items[at], Line) for at in range(len(items)))
        await until_seen(pilot, "1 line is in" if count == 1 else f"{count:,} lines are in")
        sheet = load_workbook(tmp_path / "list.xlsx").worksheets[0]
        assert sheet.max_row == count + 1 > 1
        assert (tmp_path / "list.xlsx").stat().st_mode & 0o777 == OWNER_ALONE


async def test_what_is_filtered_away_stays_at_home_and_nothing_is_written_over(demo_place: str, tmp_path: Path) -> None:
    file = tmp_path / "costs.csv"
    async with running(demo_place) as pilot:
        await go_to(pilot, "money")
        listing_of(pilot.app).filter("pellets")
        await write(pilot, file)
        await until(pilot, file.exists, "the file")
        rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
        assert rows
        assert all("pellets" in " ".join(map(str, row.values())).lower() for row in rows)
        (amount,) = (head for head in rows[0] if head.startswith("amount"))
        assert any(float(row[amount]) > 0 for row in rows if row["section"].startswith("Paid"))
        await until(pilot, lambda: not isinstance(pilot.app.screen, FormScreen), "the form closed")
        before = file.read_bytes()
        await write(pilot, file)
        await until_seen(pilot, "is there already")
        assert file.read_bytes() == before


OVER: dict[str, Callable[[Store], Screen[Any]]] = {
    "how it went": lambda store: ChorePast(None),
    "load": lambda store: LoadAhead(None, None),
    "month": lambda store: MonthGlance(None),
    "picks": lambda store: Picks(),
    "trace": lambda store: LotTrace("PERCH-24"),
    "life": lambda store: LotLife(lists.fish_lots(store)[0]),
    "balance": lambda store: BalanceScreen("WREN"),
    "readings": lambda store: Series(waters_of(store).lines("WREN")[0].reading),
}


@pytest.mark.parametrize("name", OVER)
async def test_what_lies_over_a_place_goes_out_too(
    name: str, demo_place: str, demo_store: Store, tmp_path: Path
) -> None:
    file = tmp_path / "list.json"
    async with running(demo_place) as pilot:
        screen = OVER[name](demo_store)
        pilot.app.push_screen(screen)
        await until_read(pilot, screen)
        await write(pilot, file)
        await until(pilot, file.exists, "the file")
        found = json.loads(file.read_text(encoding="utf-8"))
        assert len(found.get("rows", found.get("days", ()))) > 0
        await until_seen(pilot, "lines are in")


@pytest.mark.parametrize("name", ["load", "life", "readings"])
async def test_what_is_drawn_goes_out_as_a_picture(
    name: str, demo_place: str, demo_store: Store, tmp_path: Path
) -> None:
    file = tmp_path / "picture.svg"
    async with running(demo_place) as pilot:
        screen = OVER[name](demo_store)
        pilot.app.push_screen(screen)
        await until_read(pilot, screen)
        await write(pilot, file)
        await until(pilot, file.exists, "the file")
        assert ElementTree.parse(file).getroot().tag.endswith("svg")  # noqa: S314 - written just now


async def test_each_picture_of_returns_goes_out(demo_place: str, tmp_path: Path) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "returns")
        for view in range(4):
            file = tmp_path / f"{view}.svg"
            await write(pilot, file)
            await until(pilot, file.exists, "the file")
            await until(pilot, lambda: not isinstance(pilot.app.screen, FormScreen), "the form closed")
            await press(pilot, "b")
        assert len({one.read_bytes() for one in tmp_path.glob("*.svg")}) == 4


async def until_read(pilot: Driver, screen: Screen[Any]) -> None:
    """Wait until what lies over a place has something to write."""
    ready = getattr(screen, "what_goes_out")  # noqa: B009 - the screens share no base
    await until(pilot, lambda: pilot.app.screen is screen and (out := ready()) and out.tables()[0].rows, "its lines")
