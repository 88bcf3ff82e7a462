"""Templates and sets of chores on the screen: what would come is told before it is booked."""

from __future__ import annotations

import pytest

from farmops.farm.chores import change_chore
from farmops.farm.own_templates import change_template, drop_template
from farmops.farm.units import enter_state
from farmops.model.chores import Chore, ChoreChange
from farmops.model.templates import Following, TemplateChange, TemplateDropping
from farmops.model.units import NewState, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.templates import template_line
from farmops.tui.forms import edit_form, load_context, new_form
from tests.farmhand import counted, everything_stored
from tests.tui.demo import go_to, press, running, until_seen
from tests.tui.stage import TODAY, Driver, Stage, book, fill, settle_down, shown, stage_of


def about(pilot: Driver) -> str:
    """What stands below the title."""
    return str(stage_of(pilot).form.query_one("#about").render())


def looks(store: Store) -> list[Chore]:
    """The chores made from the leaf look."""
    return [one for one in lists.chores(store) if one.template_key == "leaf-look"]


@pytest.fixture
def wintering(stage_store: Store) -> Store:
    """WREN has the chores of a wintering unit."""
    wren = next(one.unit for one in lists.units(stage_store) if one.unit.code == "WREN")
    enter_state(stage_store, NewState(wren.id, UnitState.WINTERING, TODAY), by="Ada")
    return stage_store


def template_form(store: Store, key: str) -> Stage:
    """The form of a template."""
    return Stage(store, edit_form("templates", template_line(store, key), load_context(store)))


async def test_a_state_tells_its_chores_before_it_is_booked(stage_store: Store) -> None:
    before = everything_stored(stage_store), counted(stage_store)
    stage = Stage(stage_store, new_form("states", load_context(stage_store, "WREN")))
    async with stage.run_test(size=(80, 24)) as pilot:
        await settle_down(pilot)
        await fill(pilot, state="wintering")
        await settle_down(pilot)
        assert about(pilot).startswith("WREN is running now. ")
        assert " chores come with it: Look round: flow, air, level" in about(pilot)
        assert "and " in about(pilot)
        await fill(pilot, chores="no")
        await settle_down(pilot)
        assert about(pilot) == "WREN is running now. No new chore comes with it."
        assert (everything_stored(stage_store), counted(stage_store)) == before


async def test_a_new_unit_tells_its_chores_and_takes_the_time_on_the_label(stage_store: Store) -> None:
    stage = Stage(stage_store, new_form("units", load_context(stage_store)))
    async with stage.run_test(size=(80, 24)) as pilot:
        await fill(pilot, code="HERON")
        await settle_down(pilot)
        assert "chores come with it: Check what the container held; " in about(pilot)
        await fill(pilot, chores="no")
        await settle_down(pilot)
        assert about(pilot) == "No chores, nor with its beds and fish, until a state brings some."
        await fill(pilot, chores="yes", cure_hours="12 h")
        await book(pilot)
        assert "Sealant stays dry for 24 h at least" in shown(stage.form.box("cure_hours"))
        await fill(pilot, cure_hours="3 days")
        assert shown(stage.form.box("cure_hours")) == "= 72 h"
        await book(pilot)
    cured = next(one for one in lists.chores(stage_store) if (one.unit, one.template_key) == ("HERON", "seal-cured"))
    assert (cured.start_day - TODAY).days == 7


async def test_open_chores_follow_when_the_grower_says_so(wintering: Store) -> None:
    stage = template_form(wintering, "leaf-look")
    async with stage.run_test(size=(80, 24)) as pilot:
        await settle_down(pilot)
        assert "1 open chore is made from it." in about(pilot)
        await fill(pilot, minutes="6")
        await settle_down(pilot)
        assert about(pilot).endswith("version 2. Open chores stay as they are.")
        await fill(pilot, existing="follow")
        await settle_down(pilot)
        assert about(pilot).endswith("version 2. 1 chore follows.")
        assert [one.minutes for one in looks(wintering)] == [2]
        await book(pilot)
    assert [one.minutes for one in looks(wintering)] == [6]


async def test_a_chore_edited_by_hand_is_named_first(wintering: Store) -> None:
    (chore,) = looks(wintering)
    change_chore(wintering, ChoreChange(chore.id, minutes=30), by="Ada")
    stage = template_form(wintering, "leaf-look")
    async with stage.run_test(size=(120, 40)) as pilot:
        await fill(pilot, minutes="6", existing="follow")
        await settle_down(pilot)
        assert f"Kept as edited by hand: {chore.id} WREN (minutes)." in about(pilot)
        await fill(pilot, also="that one")
        await book(pilot)
        assert "are no numbers of chores" in shown(stage.form.box("also"))
        await fill(pilot, also=str(chore.id))
        await book(pilot)
    assert [one.minutes for one in looks(wintering)] == [6]


async def test_dropped_by_its_form_and_restored(wintering: Store) -> None:
    async with template_form(wintering, "leaf-look").run_test(size=(80, 24)) as pilot:
        await fill(pilot, gives="no chore")
        await book(pilot)
    assert template_line(wintering, "leaf-look").dropped
    stage = template_form(wintering, "leaf-look")
    async with stage.run_test(size=(80, 24)) as pilot:
        assert stage.form.box("gives").field.options == ("no chore", "as packaged")
        await fill(pilot, gives="as packaged")
        await book(pilot)
    assert not template_line(wintering, "leaf-look").own


async def test_a_changed_one_goes_back_and_its_chores_with_it(wintering: Store) -> None:
    change_template(wintering, TemplateChange("leaf-look", minutes=9, existing=Following(follow=True)), by="Ada")
    async with template_form(wintering, "leaf-look").run_test(size=(80, 24)) as pilot:
        assert "Yours: minutes." in about(pilot)
        await fill(pilot, gives="as packaged", existing="follow")
        await book(pilot)
    assert [one.minutes for one in looks(wintering)] == [2]


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("rule", "once, 2026-11-01", "once, or once +3"),
        ("rule", "sometimes", "not understood"),
        ("minutes", "2000", "2000 minutes is no length"),
        ("kinds", "pond", "no kind of unit. Understood: coupled, hydroponic, fish only, holding"),
        ("states", "sleeping", "no state"),
    ],
)
async def test_a_refusal_stands_at_the_field_it_is_about(
    stage_store: Store, field: str, typed: str, words: str
) -> None:
    stage = template_form(stage_store, "leaf-look")
    async with stage.run_test(size=(120, 40)) as pilot:
        await fill(pilot, **{field: typed})
        await book(pilot)
        assert words in shown(stage.form.box(field))
    assert not template_line(stage_store, "leaf-look").own


async def test_a_dropped_template_is_not_changed_before_it_is_restored(stage_store: Store) -> None:
    drop_template(stage_store, TemplateDropping("leaf-look"), by="Ada")
    stage = template_form(stage_store, "leaf-look")
    async with stage.run_test(size=(120, 40)) as pilot:
        await fill(pilot, minutes="6")
        await book(pilot)
        assert "is dropped" in shown(stage.form.box("gives"))


async def test_a_set_tells_what_comes_and_asks_for_the_hold(stage_store: Store) -> None:
    stage = Stage(stage_store, new_form("sets", load_context(stage_store, "WREN")))
    async with stage.run_test(size=(80, 24)) as pilot:
        await settle_down(pilot)
        assert about(pilot) == "Comes: Test again after the dose."
        await fill(pilot, occasion="treatment")
        await book(pilot)
        assert "how many days the label holds" in shown(stage.form.box("hold_days"))
        await fill(pilot, hold_days="0")
        await book(pilot)
    assert str(stage.said[0]).startswith("Comes: Sign at the place: treated, re-entry, hold; ")


async def test_the_list_in_records_tells_what_gives_each_and_leads_to_its_form(demo_place: str) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to(pilot, "records")
        await press(pilot, ".", ".", ".")
        await until_seen(pilot, "[Templates]", "given by", "Check what the container held", "planned, building")
        await press(pilot, "n")
        await until_seen(pilot, "A template is changed, not added")
        await press(pilot, "x")
        await until_seen(pilot, "It gives: no chore")
        await press(pilot, "e")
        await until_seen(pilot, "Template container-history: Check what the container held", "[as below]")


async def test_a_set_is_given_from_the_round(demo_place: str) -> None:
    async with running(demo_place, size=(80, 24)) as pilot:
        await press(pilot, "3", "g")
        await until_seen(pilot, "Give a set of chores", "Comes: Test again after the dose.", "TEAL")
