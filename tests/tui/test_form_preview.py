"""A form that shows what would come of booking it, while it is filled in."""

from __future__ import annotations

import pytest

from farmops.farm.farm import add_person
from farmops.model.farm import NewPerson
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.forms import edit_form, load_context, new_form
from tests.farmhand import counted, everything_stored
from tests.tui.stage import Driver, Stage, book, fill, settle_down, stage_of


def about(pilot: Driver) -> str:
    """What stands below the title."""
    line = stage_of(pilot).form.query_one("#about")
    return str(line.render()) if line.display else ""


@pytest.mark.parametrize("size", [(80, 24), (60, 20)])
async def test_what_will_move_is_shown_before_it_is_booked(stage_store: Store, size: tuple[int, int]) -> None:
    before = everything_stored(stage_store), counted(stage_store)
    stage = Stage(stage_store, new_form("absences", load_context(stage_store)))
    async with stage.run_test(size=size) as pilot:
        await settle_down(pilot)
        assert about(pilot) == ""
        await fill(pilot, from_day="sat", until_day="24 oct")
        await settle_down(pilot)
        assert about(pilot).splitlines() == [
            "Nobody stays and nobody stands in: fish cannot wait. Name who stands in.",
            "Do before you go: Change the pad (WREN, Sat 10 Oct).",
        ]
        assert (everything_stored(stage_store), counted(stage_store)) == before
        await fill(pilot, until_day="16 oct")
        await settle_down(pilot)
        assert "lies before the first" in about(pilot)
        await fill(pilot, until_day="24 oc")
        await settle_down(pilot)
        await fill(pilot, until_day="17 oct")
        await book(pilot)
    said, *told = stage.said[0].splitlines()
    assert said == "Ada is away from Sat 17 Oct 2026 to Sat 17 Oct 2026. u takes it back."
    assert told[0].startswith("Nobody stays and nobody stands in")


async def test_while_somebody_stays_the_form_says_that_nothing_moves(stage_store: Store) -> None:
    add_person(stage_store, NewPerson("Bo"), by="Ada")
    stage = Stage(stage_store, edit_form("absences", lists.absences(stage_store)[0], load_context(stage_store)))
    async with stage.run_test(size=(80, 24)) as pilot:
        await settle_down(pilot)
        assert about(pilot) == ""
        await fill(pilot, until_day="4 nov")
        await settle_down(pilot)
        assert about(pilot) == "Bo stays: nothing moves by itself."
        await fill(pilot, stand_in_id="Ada")
        await settle_down(pilot)
        assert "nobody stands in for themselves" in about(pilot)
        await fill(pilot, from_day="25 oct", stand_in_id="Bo")
        await settle_down(pilot)
        assert about(pilot).startswith("Do before you go: Change the pad")
        await book(pilot)
    said, *told = stage.said[0].splitlines()
    assert said == "Ada is away from Sun 25 Oct 2026 to Wed 4 Nov 2026."
    assert told[0].startswith("Do before you go: Change the pad")
    assert told[1].startswith("Missing on the care sheet: where the breaker of WREN is,")


async def test_without_all_fields_understood_nothing_is_foretold(stage_store: Store) -> None:
    stage = Stage(stage_store, new_form("absences", load_context(stage_store)))
    async with stage.run_test(size=(80, 24)) as pilot:
        await fill(pilot, from_day="sat", until_day="24 oct")
        await settle_down(pilot)
        assert about(pilot)
        await fill(pilot, until_day="someday")
        await settle_down(pilot)
        assert about(pilot) == ""
