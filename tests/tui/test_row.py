"""The row of units with long names, and the top line over it: what is due and the day are never cut away."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from rich.cells import cell_len
from textual.app import App, ComposeResult

from farmops.model.farm import Farm
from farmops.model.units import Unit, UnitKind
from farmops.quantities import US
from farmops.reports.row import Card, Row
from farmops.tui.widgets.header import TopLine
from farmops.tui.widgets.row import LEGEND, UnitRow
from tests.tui.demo import seen

LONG = "NORTHGLASSHOUSEONTHEHILL"
DAY = date(2026, 10, 14)
FARM = Farm("A farm whose name says at length where it lies", US, "UTC", DAY)


def _card(position: int, code: str) -> Card:
    return Card(Unit(position, code, UnitKind.COUPLED, position, None, None, None), None, 3, True, ())


ROW = Row(FARM, DAY, (Card(None, None, 6, True, ()), _card(1, LONG), _card(2, "水耕栽培一号棟と二号棟")), 1)


class Top(App[None]):
    """The two lines of the frame that say where one stands and what is due."""

    def compose(self) -> ComposeResult:
        yield TopLine()
        yield UnitRow()

    def on_mount(self) -> None:
        self.query_one(TopLine).row = ROW
        row = self.query_one(UnitRow)
        row.row = ROW
        row.set_class(self.size.width < 80, "small")


@pytest.mark.parametrize("width", [60, 80, 120])
async def test_the_day_and_what_is_due_stand_there_whatever_the_names(width: int) -> None:
    app = Top()
    async with app.run_test(size=(width, 10)) as pilot:
        await pilot.pause()
        lines = seen(app)
        assert "Wed 14 Oct 2026" in lines[0]
        assert "6 to do, some late" in lines[0]
        assert "\n".join(lines[1:6]).count("3!" if width < 80 else "3, late") == 2


@pytest.mark.parametrize(("width", "told"), [(120, True), (80, True), (40, False)])
async def test_the_bars_are_told_where_there_is_room(width: int, told: bool) -> None:
    app = Top()
    async with app.run_test(size=(width, 10)) as pilot:
        row = app.query_one(UnitRow)
        row.set_class(False, "small")
        row.row = replace(ROW, cards=(replace(ROW.cards[0], weeks=(1, 2, 3)),))
        await pilot.pause()
        assert (LEGEND in seen(app)[4]) is told
        for nothing in ((), (0, 0, 0)):
            row.row = replace(ROW, cards=(replace(ROW.cards[0], weeks=nothing),))
            await pilot.pause()
            assert LEGEND not in "".join(seen(app))


@pytest.mark.parametrize(("width", "whole"), [(120, True), (80, False)])
async def test_where_there_is_room_a_card_is_as_wide_as_the_longest_name(width: int, whole: bool) -> None:
    app = Top()
    async with app.run_test(size=(width, 10)) as pilot:
        await pilot.pause()
        lines = seen(app)
        assert (LONG in lines[2]) is whole
        assert len({cell_len(line) for line in lines[1:6]}) == 1
        assert cell_len(lines[2]) <= width
