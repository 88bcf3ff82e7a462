"""Treatments on the screen: asked about once, then seen in Beds, on the scale and in the round."""

from __future__ import annotations

from farmops.records.store import Store
from farmops.reports.round import round_of
from farmops.reports.scale import scale_of
from farmops.reports.treatments import treatment_called
from farmops.tui.forms import load_context, new_form
from farmops.tui.screens.beds import items_of, read
from farmops.tui.screens.weigh import today_lines
from farmops.tui.widgets.round_lines import details, lines_of
from tests.tui.stage import TODAY, WIDE, Stage, book, fill, screen_text, settle_down


async def test_what_harms_fish_is_asked_about_once_and_then_held(stage_store: Store):
    stage = Stage(stage_store, new_form("treatments", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        label = {"amount_typed": "1 L", "reentry_hours": "4", "harvest_days": "3", "minute": "0:01"}
        await fill(pilot, where="WREN-N", product="soap spray", **label)
        await book(pilot)
        assert "Fish live in WREN" in "\n".join(screen_text(stage.form))
        await pilot.press("enter")
        await settle_down(pilot)
        assert stage.said[-1] == "Booked: soap spray on WREN-N."
    told = treatment_called(stage_store, 2)
    assert told.pick == "Sat 17 Oct 00:01"
    scale = scale_of(stage_store)
    chard = next(one for one in scale.sources if one.label == "WREN-N · CHARD")
    held = "until Sat 17 Oct 00:01 after soap spray on Wed 14 Oct"
    assert f"Held {held}: books as waste only." in today_lines(scale, chard)
    crops = [line.cells[1] for line in items_of(read(stage_store, on=TODAY, unit="WREN"), scale.farm.measures)[:2]]
    assert crops == ["KALE · planted last", f"CHARD · held {held}"]
    lines = [line for line in lines_of(round_of(stage_store)) if getattr(line, "key", "").startswith("hold")]
    assert [line.cells[0] for line in lines] == ["WREN-N"]
    assert "books as waste only" in details(lines[0].data).plain
