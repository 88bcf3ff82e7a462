"""Names of units in tables of plain text: never run together, aligned in any script, sentences where too long."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.exchange.compare_text import beside_text
from farmops.exchange.rank_text import rank_text
from farmops.farm.units import change_unit
from farmops.model.costs import Basis
from farmops.model.text import cut, filled, width
from farmops.model.units import UnitChange
from farmops.reports.comparing import compare_two
from farmops.reports.ranking import ranking
from farmops.reports.returns import Asked
from tests.land import Land

SPAN = Asked(date(2026, 10, 14), date(2026, 1, 1), date(2026, 10, 14), Basis.FULL)
LONG = ("WREN.BY.THE.NORTH.WALL.O", "FINCH.UNDER.THE.EAVES.AS")
WIDE = ("水耕栽培一号棟", "ПРУД")


def renamed(land: Land, names: tuple[str, str]) -> None:
    for unit, name in zip((land.wren, land.finch), names, strict=True):
        change_unit(land.store, UnitChange(unit.id, code=name), by="Ada")


@pytest.mark.parametrize("names", [LONG, WIDE])
def test_two_units_beside_each_other_have_a_gap_between_their_names(land: Land, names: tuple[str, str]) -> None:
    renamed(land, names)
    head, *rows = beside_text(compare_two(land.store, asked=SPAN, first=names[0], second=names[1]), 80)
    assert head.split() == list(names)
    assert {width(line) for line in (head, *rows)} == {width(head)}
    assert width(head) <= 80


def test_a_name_is_cut_where_both_do_not_fit(land: Land) -> None:
    renamed(land, LONG)
    head, *rows = beside_text(compare_two(land.store, asked=SPAN, first=LONG[0], second=LONG[1]), 56)
    assert len(head.split()) == 2
    assert all(one.endswith("…") for one in head.split())
    assert all(width(line) <= 56 for line in (head, *rows))


def test_an_order_too_long_for_a_table_is_told_line_by_line(land: Land) -> None:
    renamed(land, LONG)
    lines = list(rank_text(ranking(land.store, asked=SPAN), 40))
    table = lines[lines.index("") + 1 :]
    assert all(width(line) <= 40 for line in table)
    assert any(line.startswith("as the farm is set:") for line in table)


def test_text_is_cut_and_filled_by_columns() -> None:
    assert cut("水耕栽培", 5) == "水耕…"
    assert cut("WREN", 4) == "WREN"
    assert filled("水", 4, right=True) == "  水"
    assert filled("水", 4) == "水  "
