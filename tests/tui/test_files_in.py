"""A file taken in on the screen: told before it is booked, refused in words, undone as one."""

from __future__ import annotations

import asyncio
import threading
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook

from farmops.exchange import file_imports
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.forms import kept_form, load_context
from tests.farmhand import everything_stored, take_back
from tests.tui.demo import PATIENCE_S
from tests.tui.stage import WIDE, Stage, book, fill, last_entry, settle_down, shown


async def test_a_file_is_told_row_by_row_then_booked_and_taken_back_as_one(stage_store: Store, tmp_path: Path) -> None:
    path = tmp_path / "paid.csv"
    path.write_text("when;what;amount\n13/05/2026;string;3,20\n14/05/2026;net;4,50\n15/05/2026;tape;\n")
    before = everything_stored(stage_store)
    stage = Stage(stage_store, kept_form("take in", "costs", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        assert stage.form.box("kind").text == "costs"
        await fill(pilot, file=str(path))
        await book(pilot)
        assert "no column date" in shown(stage.form.box("file"))
        await fill(pilot, meant="when=date")
        await settle_down(pilot)
        told = " ".join(stage.top.split() + str(stage.form.query_one("#about").render()).split())
        assert "2 would be booked, 0 already there, 1 refused." in told
        assert "read day first" in told
        assert "line 4, amount: no amount." in told
        assert everything_stored(stage_store) == before
        await book(pilot)
    (said,) = stage.said
    assert said is not None
    assert said.startswith("2 booked, 0 already there, 1 refused.")
    assert said.endswith("u takes the whole file back.")
    paid = [one.amount_minor for one in lists.costs(stage_store, date(2026, 5, 1), date(2026, 5, 31))]
    assert paid == [320, 450]
    assert (last_entry(stage_store).name, last_entry(stage_store).by) == ("import file", "Bea")
    take_back(stage_store, by="Bea")
    assert everything_stored(stage_store) == before


async def test_weighings_make_what_is_missing_when_told_and_nothing_booked_keeps_the_form(
    stage_store: Store, tmp_path: Path
) -> None:
    path = tmp_path / "picked.csv"
    path.write_text("date,unit,bed,crop,weight\n2026-10-01,HERON,1,KALE,1 lb\n")
    stage = Stage(stage_store, kept_form("take in", "harvests", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, file=str(path))
        await book(pilot)
        assert not stage.closed
        assert "there is no unit HERON" in stage.top + shown(stage.form.box("file"))
        await fill(pilot, make="yes")
        await book(pilot)
    assert stage.said == ["1 booked, 0 already there, 0 refused. u takes the whole file back."]


async def test_a_long_file_tells_how_far_it_has_come_and_is_stopped_leaving_nothing_behind(
    stage_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "paid.csv"
    path.write_text("date,what,amount\n" + "".join(f"2026-05-01,nail {at},0.{at % 90 + 10}\n" for at in range(1200)))
    before = everything_stored(stage_store)
    shown_yet, go_on = threading.Event(), threading.Event()
    taken = file_imports.carry_out

    def slowly(*given: Any, watch: Any, **more: Any) -> Any:
        def told(done: int, total: int) -> None:
            watch(done, total)
            if done >= 500:
                shown_yet.set()
                go_on.wait(PATIENCE_S)

        return taken(*given, watch=told, **more)

    monkeypatch.setattr(file_imports, "carry_out", slowly)
    stage = Stage(stage_store, kept_form("take in", "costs", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, file=str(path))
        await settle_down(pilot)
        await pilot.press("f2")
        await asyncio.to_thread(shown_yet.wait, PATIENCE_S)
        await pilot.pause()
        assert "[########............] 500 of 1,200 gone through. Esc stops it." in " ".join(stage.top.split())
        await pilot.press("escape")
        go_on.set()
        await settle_down(pilot)
        assert not stage.closed
        assert "Stopped. Nothing of it was booked" in stage.top
        assert everything_stored(stage_store) == before
        monkeypatch.setattr(file_imports, "carry_out", taken)
        await book(pilot)
    (said,) = stage.said
    assert said is not None
    assert said.startswith("1200 booked")


async def test_a_comma_before_decimals_can_be_said(stage_store: Store, tmp_path: Path) -> None:
    path = tmp_path / "paid.csv"
    path.write_text("date,what,amount\n2026-05-13,string,1.200\n")
    stage = Stage(stage_store, kept_form("take in", "costs", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, file=str(path), decimals="comma")
        await book(pilot)
    (paid,) = lists.costs(stage_store, date(2026, 5, 13), date(2026, 5, 13))
    assert paid.amount_minor == 120_000


async def test_the_kind_is_that_of_the_list_and_another_is_found_by_its_first_letters(
    stage_store: Store, tmp_path: Path
) -> None:
    path = tmp_path / "clipboard.csv"
    path.write_text("unit,from,state,chores\nLARK,2026-10-01,planned,no\nMERLIN,2026-10-01,asleep,no\n")
    stage = Stage(stage_store, kept_form("take in", "fish", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        assert stage.form.box("kind").text == "fish lots"
        await fill(pilot, file=str(path), kind="unit")
        await settle_down(pilot)
        told = " ".join(stage.top.split() + str(stage.form.query_one("#about").render()).split())
        assert "1 would be booked, 0 already there, 1 refused." in told
        assert "line 3, state: asleep is no state" in told
        await book(pilot)
    assert stage.said == [
        "1 booked, 0 already there, 1 refused. line 3, state: asleep is no state; understood: planned, building, "
        "cycling, running, wintering, resting, retired. u takes the whole file back."
    ]
    assert "LARK" in [one.unit.code for one in lists.units(stage_store)]


async def test_the_sheet_of_a_workbook_is_told_and_another_one_named(stage_store: Store, tmp_path: Path) -> None:
    workbook, path = Workbook(), tmp_path / "paid.xlsx"
    for day, sheet in enumerate(("June", "July"), start=1):
        made = workbook.create_sheet(sheet)
        made.append(["date", "what", "amount"])
        made.append([f"2026-10-0{day}", "twine", 3.2])
    workbook.save(path)
    stage = Stage(stage_store, kept_form("take in", "costs", load_context(stage_store, None)))
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, file=str(path))
        await settle_down(pilot)
        assert "Of 3 sheets June is read, not Sheet, July." in str(stage.form.query_one("#about").render())
        await fill(pilot, sheet="May")
        await book(pilot)
        assert "has no sheet May. Its sheets: Sheet, June, July." in shown(stage.form.box("sheet"))
        await fill(pilot, sheet="july")
        await book(pilot)
    (cost,) = [one for one in lists.costs(stage_store, date(2026, 10, 1), date(2026, 10, 3)) if one.what == "twine"]
    assert cost.day == date(2026, 10, 2)
