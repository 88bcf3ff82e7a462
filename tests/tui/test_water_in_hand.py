"""Readings drawn with their safe band and what was changed; cycling and instruments in Fish & water."""

from __future__ import annotations

from datetime import timedelta

import pytest

from farmops.farm.instruments import check_instrument
from farmops.model.instruments import NewCheck
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.cycling import cycling_of
from farmops.reports.markers import Marker
from farmops.tui.screens.fish import cycling_line, held_line
from farmops.tui.widgets.sparks import ASCII
from farmops.tui.widgets.water_lines import cycling_lines, instruments, wrapped
from farmops.tui.widgets.water_picture import Point, drawing, span_of
from tests import farmhand as hand
from tests.tui.stage import TODAY

FIRST = hand.on(9, 1)
POINTS = [
    Point(FIRST, 6.0, bad=True),
    Point(FIRST + timedelta(days=5), 7.0),
    Point(FIRST + timedelta(days=10), 6.5, doubtful=True),
]


def rows(width: int = 45, markers: tuple[Marker, ...] = ()) -> list[str]:
    return list(drawing(POINTS, (6.5, None), markers, width, 5, ("7", "6"), ASCII))


def test_readings_stand_in_their_days_and_the_band_behind_them() -> None:
    drawn = rows()
    assert drawn[0] == "7 " + "." * 21 + "o" + "." * 21
    assert drawn[2] == "  " + "." * 42 + "?"
    assert drawn[4] == "6 !"
    assert "." not in drawn[3]
    assert drawn[5] == "  2026-09-01" + " " * 23 + "2026-09-11"
    assert drawn[6] == ". safe  ! beyond a limit  ? doubtful"


def test_what_was_changed_has_a_letter_below_its_day() -> None:
    found = rows(80, (Marker(FIRST + timedelta(days=10), None, "pump changed"), Marker(FIRST, "WREN", "salt added")))
    assert found[5].rstrip().endswith("a")
    assert found[5][2] == "b"
    assert found[-1].endswith("a pump changed  b salt added")
    assert len(rows(80, (Marker(FIRST - timedelta(days=1), None, "before"),))) == len(rows(80))


def test_edges_far_off_are_left_out_and_one_day_is_no_picture() -> None:
    assert span_of(POINTS, (5.5, 90.0)) == (5.5, 7.0)
    assert list(drawing(POINTS[:1], (None, None), (), 60, 5, ("", ""))) == []


def test_a_level_run_of_readings_is_drawn() -> None:
    level = [Point(FIRST, 2.0), Point(FIRST + timedelta(days=1), 2.0)]
    low, high = span_of(level, (None, None))
    assert low < 2.0 < high
    assert sum(line.count("o") for line in list(drawing(level, (None, None), (), 40, 5, ("", ""), ASCII))[:5]) == 2


def test_how_cycling_stands_is_said_in_the_place_and_in_full(stage_store: Store) -> None:
    rook = next(line.unit for line in lists.units(stage_store) if line.unit.code == "ROOK")
    hand.read(stage_store, rook, hand.on(10, 1), ammonia="2", nitrite="0.5")
    found = cycling_of(stage_store, rook.id, TODAY)
    assert found is not None
    assert cycling_line(found).cells[2] == "not ready: ammonia is 2 mg/L as N, wanted at most 0.25 and 2 more"
    told = "\n".join(wrapped(list(cycling_lines(found, hand.US, 80)), 77))
    assert "ROOK, day 167 of cycling, since 2026-05-01" in told
    assert "nitrate   not read yet" in told
    assert all(len(line) <= 77 for line in told.splitlines())


def test_an_instrument_that_failed_stands_out(stage_store: Store) -> None:
    (strips,) = instruments(stage_store, TODAY, None)
    assert (held_line(strips).cells[2], held_line(strips).look) == ("due for a check: pH, nitrite", "late")
    check_instrument(stage_store, NewCheck(strips.instrument.id, TODAY, passed=True), by="Ada")
    (passed,) = instruments(stage_store, TODAY, None)
    assert (passed.stands, passed.bad) == ((f"passed on {TODAY}",), False)
    check_instrument(stage_store, NewCheck(strips.instrument.id, TODAY, passed=False), by="Ada")
    (failed,) = instruments(stage_store, TODAY, None)
    assert (failed.stands, held_line(failed).look) == ((f"failed on {TODAY}",), "late")


@pytest.mark.parametrize("width", [30, 77])
def test_long_lines_are_broken_between_words(width: int) -> None:
    assert all(len(line) <= width for line in wrapped(["word " * 40, ""], width))
