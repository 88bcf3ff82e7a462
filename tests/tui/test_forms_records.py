"""Every form books what was typed, through the screen, and says in words what it does not understand."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from farmops.model.chores import Chore
from farmops.model.errors import FarmopsError, NotFound, StoreUnavailable
from farmops.model.journal import Through
from farmops.quantities import US, weigh
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.forms import EDIT, LIKE, NEW, edit_form, like_form, load_context, new_form
from farmops.tui.widgets.fields import Field, Kind, Setting, echo_of, heed_of, understood
from farmops.tui.widgets.forms import FieldBox
from tests.profiles import count
from tests.tui import scenes
from tests.tui.scenes import SCENES
from tests.tui.stage import (
    NARROW,
    TODAY,
    WIDE,
    Driver,
    Scene,
    Stage,
    book,
    chore_called,
    fill,
    last_entry,
    screen_text,
    settle_down,
    shown,
)

ODD = (
    *(",", ";", "=", "-", "+", ".", "/", ":", "%", "0", "-1", "0 0", "1,", ",1", "1;2", "=1", "a=", "1e9", "nan"),
    *("99999999999999999999", "1/0", "0 lb", "0%", "\x1b[31m", "[b]", "羽衣", "½", "²", "today", "1 6", "1 at"),
)
WRONG = ("someday", "!!", "x" * 1001)
EACH_SCENE = pytest.mark.parametrize("scene", SCENES, ids=str)
FORMS = [*scenes.NEW, *scenes.EDIT]  # one like another record has the fields of a new one
EACH_FORM = pytest.mark.parametrize("scene", FORMS[:: count(ci=12, full=1)], ids=str)


def test_every_form_has_its_scene():
    played = {(scene.how, scene.kind) for scene in SCENES}
    assert played == {
        *(("new", kind) for kind in NEW),
        *(("edit", kind) for kind in EDIT),
        *(("like", kind) for kind in LIKE),
    }


@pytest.mark.parametrize("scene", SCENES[:: count(ci=6, full=1)], ids=str)
def test_whatever_is_typed_into_a_field_is_understood_or_told_and_never_a_fault(scene: Scene, stage_store: Store):
    spec = scene.spec(stage_store)
    values = {field.name: field.value for field in spec.fields}
    for field in spec.fields:
        for text in ODD:
            setting = replace(spec.setting, typed={**values, field.name: text})
            echo_of(field, text, setting)
            heed_of(field, text, setting)
            for other in spec.fields:
                if field.name in other.follows:
                    echo_of(other, other.value, setting)
                if field.name in other.follows and other.guess is not None:
                    other.guess(setting.typed)


@pytest.mark.parametrize("scene", scenes.LIKE, ids=str)
def test_a_form_like_a_record_has_the_fields_of_a_new_one(scene: Scene, stage_store: Store):
    alike, new = scene.spec(stage_store), new_form(scene.kind, load_context(stage_store))
    assert {field.name for field in alike.fields} == {field.name for field in new.fields}


@EACH_SCENE
async def test_a_form_books_what_was_typed(scene: Scene, stage_store: Store):
    stage = Stage(stage_store, scene.spec(stage_store))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        operation, again = stage.form.operation, stage.form.spec.again
        await fill(pilot, **scene.typed)
        await book(pilot)
        entry = last_entry(stage_store)
        assert (entry.name, entry.through, entry.by) == (scene.journal, Through.SCREEN, "Bea")
        assert entry.operation == operation
        assert scene.check(stage_store) == scene.expected
        assert stage.closed is not again
        assert stage.drafts == {}
        if again:
            assert stage.form.operation != operation
            await pilot.press("escape")
            await pilot.pause()
        assert [bool(words) for words in stage.said] == [True]


def wrong_text(field: Field, setting: Setting) -> str | None:
    """A text that the field cannot understand; None where words are picked."""
    if field.kind.picked:
        return None
    for text in WRONG:
        try:
            understood(field, text, setting)
        except FarmopsError:
            return text
    raise AssertionError(f"{field.name} takes anything")


@EACH_FORM
async def test_a_wrong_value_is_told_at_its_field_and_kept(scene: Scene, stage_store: Store):
    stage = Stage(stage_store, scene.spec(stage_store))
    before = last_entry(stage_store).seq
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        for box in stage.form.boxes:
            wrong, right = wrong_text(box.field, stage.form.setting), box.text
            if wrong is not None:
                await _tries(stage, pilot, box, wrong)
                assert stage.drafts[stage.form.spec.title][box.field.name] == wrong
                box.text = right
                await pilot.pause()
                assert not box.error
    assert last_entry(stage_store).seq == before


async def _tries(stage: Stage, pilot: Driver, box: FieldBox, wrong: str) -> None:
    box.focus_input()
    box.text = wrong
    await pilot.pause()
    assert not box.error, f"{box.field.name} complains while it is typed in"
    await pilot.press("enter")
    await pilot.pause()
    assert stage.here is box, f"{box.field.name} lost the cursor"
    assert "! " in shown(box), f"{box.field.name} says nothing"
    assert box.text == wrong


@EACH_FORM
async def test_nothing_is_cut(scene: Scene, stage_store: Store):
    stage = Stage(stage_store, scene.spec(stage_store))
    async with stage.run_test(size=WIDE) as pilot:
        await _walk_through(stage, pilot)
        await pilot.resize_terminal(*NARROW)
        await _walk_through(stage, pilot)


async def _walk_through(stage: Stage, pilot: Driver) -> None:
    await pilot.pause()
    await pilot.pause()
    form, fields = stage.form, stage.form.query_one("#fields")
    assert all(form.region.contains_region(form.query_one(id).region) for id in ("#title", "#book", "#leave"))
    for box in form.boxes:
        box.focus_input()
        await pilot.pause()
        await pilot.pause()
        assert fields.region.contains_region(box.region), f"{box.field.name} is not in sight"
        text = "\n".join(screen_text(stage))
        assert "…" not in text
        if not box.field.kind.picked and box.field.kind is not Kind.TEXT:
            assert len(box.text) < box.input.content_size.width, f"{box.field.name} has no room"
        hint = "" if box.text.strip() else box.field.hint
        for words in (box.field.label, *box.field.words, hint):
            assert " ".join(words.split()[:2]) in text


def test_a_kind_without_a_form_is_refused_in_words(stage_store: Store):
    with pytest.raises(NotFound, match="settlements is not made here"):
        edit_form("settlements", None, load_context(stage_store))


async def test_a_crop_of_the_packaged_table_is_planted_and_grown_from_then_on(stage_store: Store):
    stage = Stage(stage_store, new_form("plantings", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("bed").text = "WREN-S"
        stage.form.box("crop").focus_input()
        await pilot.press(*"basil")
        await pilot.pause()
        assert "BASIL, new here, with packaged facts" in "\n".join(screen_text(stage))
        stage.form.action_book()
        await settle_down(pilot)
        stage.form.box("crop").text = "basil"  # the form still knows the crops as they were when it opened
        stage.form.action_book()
        await settle_down(pilot)
    grown = [one for one in lists.crops(stage_store) if one.name == "BASIL"]
    assert [one.library_key for one in grown] == ["basil"]
    assert [one.crop_id for one in lists.plantings(stage_store) if one.crop == "BASIL"] == [grown[0].id] * 2


async def test_a_crop_of_a_name_of_ones_own_is_asked_about_once_and_planted(stage_store: Store):
    stage = Stage(stage_store, new_form("plantings", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("bed").text = "WREN-S"
        stage.form.box("crop").text = "chrad"
        stage.form.action_book()
        await settle_down(pilot)
        asked = shown(stage.form.box("crop"))
        assert "CHRAD is new here, and no packaged facts go with it. Did you mean CHARD?" in asked
        assert not [one for one in lists.plantings(stage_store) if one.crop == "CHRAD"]
        stage.form.action_book()
        await settle_down(pilot)
    assert [one.library_key for one in lists.crops(stage_store) if one.name == "CHRAD"] == [None]
    assert "CHRAD" in [one.crop for one in lists.plantings(stage_store) if one.bed == "WREN-S"]


def pad(store: Store) -> Chore:
    """The chore in the scenes."""
    return chore_called(store, "Change the pad")


async def test_a_chore_is_left_out_with_a_digit_and_enter(stage_store: Store):
    stage = Stage(stage_store, edit_form("skip", [pad(stage_store)], load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.press("3", "enter")
        await settle_down(pilot)
        assert stage.said == ["Left out: Change the pad, WREN, away. u takes it back."]
    assert lists.settled(stage_store, pad(stage_store).id)[-1].reason == "away"


async def test_a_chore_is_put_off_with_a_digit_and_enter(stage_store: Store):
    stage = Stage(stage_store, edit_form("defer", [pad(stage_store)], load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.press("1", "enter")
        await settle_down(pilot)
        assert stage.said == ["Put off: Change the pad, WREN, until Thu 15 Oct 2026. u takes it back."]
    assert pad(stage_store).next_due == TODAY + timedelta(days=1)


async def test_life_support_cannot_wait_and_the_field_says_so(stage_store: Store):
    chore = chore_called(stage_store, "Look for leaks")
    stage = Stage(stage_store, edit_form("defer", [chore], load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        assert "today at most; or Esc, and s leaves it out with a reason" in shown(stage.form.box("until"))
        assert "days ahead" not in shown(stage.form.box("until"))
        await pilot.press("1", "enter")
        await settle_down(pilot)
        told = " ".join(shown(stage.form.box("until")).split())
        assert "life support and can only wait within the day. Do it, or skip it with a reason." in told
        assert stage.form.box("until").text == "1"


async def test_a_resting_chore_goes_on(stage_store: Store):
    context = load_context(stage_store)
    stage = Stage(stage_store, edit_form("pause", pad(stage_store), context))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, from_day="10 oct")
        await book(pilot)
        assert pad(stage_store).next_due is None
        stage.open_form(edit_form("pause", pad(stage_store), context))
        await pilot.pause()
        await pilot.press("g")
        await book(pilot)
        assert stage.said[-1] == f"Change the pad goes on from {TODAY}."
    assert pad(stage_store).next_due == TODAY


async def test_a_cost_is_repeated_with_its_amount_and_enter(stage_store: Store):
    feed = next(one for one in lists.costs(stage_store, date.min, date.max) if "feed" in one.what)
    stage = Stage(stage_store, like_form("costs", feed, load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.press(*"43.75", "enter")
        await settle_down(pilot)
        assert stage.said == [f"$43.75 for fish feed 50 lb, WREN, {TODAY} booked."]


async def test_what_was_paid_before_brings_its_words_along(stage_store: Store):
    stage = Stage(stage_store, new_form("costs", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.press(*"42", "enter", *"fis", "enter")
        await pilot.pause()
        assert [stage.form.box(name).text for name in ("category", "payee", "where")] == ["feed", "The mill", ""]
        await fill(pilot, what="pump", payee="A friend")
        await fill(pilot, what="fish feed 50 lb")
        assert stage.form.box("payee").text == "A friend"


async def test_a_double_is_asked_about_once_and_what_was_typed_stays(stage_store: Store):
    feed = next(one for one in lists.costs(stage_store, date.min, date.max) if "feed" in one.what)
    stage = Stage(stage_store, like_form("costs", feed, load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, day=str(feed.day), amount=feed.amount_typed)
        await book(pilot)
        said = " ".join(" ".join(screen_text(stage.form)).split())
        assert "is booked for" in said
        assert "Enter books it all the same." in said
        assert stage.form.box("payee").text == "The mill"
        await pilot.press("enter")
        await pilot.pause()
        await settle_down(pilot)
        assert stage.said[-1].endswith("booked.")
    found = [one for one in lists.costs(stage_store, date.min, date.max) if one.day == feed.day]
    assert len([one for one in found if one.amount_minor == feed.amount_minor]) == 2


async def test_an_answer_that_got_lost_doubles_nothing(stage_store: Store):
    spec = new_form("people", load_context(stage_store))
    answers = iter([StoreUnavailable("The connection broke."), None])

    def loses_the_answer(*given: Any) -> str:
        words = spec.save(*given)
        if (lost := next(answers)) is not None:
            raise lost
        return words

    stage = Stage(stage_store, replace(spec, save=loses_the_answer))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, name="Cy")
        await book(pilot)
        assert stage.form.box("name").text == "Cy"
        await pilot.press("enter")
        await settle_down(pilot)
        assert stage.said == ["Cy added."]
    assert [one.name for one in lists.people(stage_store)].count("Cy") == 1


async def test_a_busy_store_is_told_and_tried_again(stage_store: Store, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("farmops.records.dialects.BUSY_SECONDS", 0.1)
    stage = Stage(stage_store, new_form("people", load_context(stage_store)))
    other = sqlite3.connect(stage_store.place, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, name="Cy")
        await book(pilot)
        assert "is busy" in stage.top
        other.execute("ROLLBACK")
        other.close()
        await pilot.press("enter")
        await settle_down(pilot)
        assert stage.said == ["Cy added."]
    assert [one.name for one in lists.people(stage_store)].count("Cy") == 1


async def test_a_code_that_is_taken_is_told_at_the_code(stage_store: Store):
    stage = Stage(stage_store, new_form("units", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, code="wren", tank="100 gal")
        await book(pilot)
        assert "There is already a unit WREN." in shown(stage.form.box("code"))
        assert stage.here.field.name == "code"
        assert stage.form.box("tank").text == "100 gal"


async def test_the_next_days_of_a_rule_follow_its_first_day(stage_store: Store):
    stage = Stage(stage_store, new_form("chores", load_context(stage_store, "WREN")))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, rule="14 days after")
        assert "14 days after doing: Wed 14 Oct, Wed 28 Oct, Wed 11 Nov" in shown(stage.form.box("rule"))
        await fill(pilot, start_day="20 oct")
        await pilot.pause()
        assert "Tue 20 Oct, Tue 3 Nov, Tue 17 Nov" in shown(stage.form.box("rule"))


async def test_a_tare_is_weighed_together_with_the_scale(stage_store: Store):
    harvest = next(one for one in lists.harvests(stage_store, date.min, date.max) if one.what == "CHARD")
    stage = Stage(stage_store, edit_form("harvests", harvest, load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await fill(pilot, tare="2 lb")
        await book(pilot)
        assert "as tare leaves nothing of 1 lb 6 oz" in shown(stage.form.box("tare"))
        await fill(pilot, tare="6 oz")
        await book(pilot)
    changed = next(one for one in lists.harvests(stage_store, date.min, date.max) if one.id == harvest.id)
    assert (changed.mass_mg, changed.mass_typed, changed.day) == (weigh("1 6", "6 oz", US).net_mg, "1 6", harvest.day)


@pytest.mark.parametrize(
    ("kind", "values", "words", "doubted", "booked"),
    [
        (
            "beds",
            {"unit": "WREN", "name": "E", "depth": "12"},
            "a bed 12 ft deep, is that right?",
            "depth",
            "12 ft deep",
        ),
        ("units", {"code": "BIG", "tank": "175000"}, "a tank of 175000 gal, is that right?", "tank", "BIG joins"),
        (
            "plantings",
            {"bed": "WREN-N", "crop": "CHARD", "area": "9000"},
            "The whole bed WREN-N has",
            "area",
            "CHARD in",
        ),
        (
            "fish",
            {"code": "Z1", "species": "perch", "unit": "WREN", "number": "9", "mean": "1 oz"},
            "Did you mean yellow perch?",
            "species",
            "What it bears is set in Water",
        ),
    ],
)
async def test_what_hardly_can_be_is_asked_about_once(
    stage_store: Store, kind: str, values: dict[str, str], words: str, doubted: str, booked: str
):
    before = last_entry(stage_store)
    stage = Stage(stage_store, new_form(kind, load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        for name, text in values.items():
            stage.form.box(name).text = text
        stage.form.action_book()
        await settle_down(pilot)
        form, box = stage.form, stage.form.box(doubted)
        assert words in " ".join(" ".join(screen_text(stage)).split())
        assert words in box.error
        assert stage.focused is box.input
        assert last_entry(stage_store) == before
        await pilot.press("enter")
        await pilot.pause()
        await settle_down(pilot)
    assert booked in (form.said or "")
    assert last_entry(stage_store) != before


async def test_what_is_typed_after_the_question_takes_the_place_of_what_was_doubted(stage_store: Store):
    stage = Stage(stage_store, new_form("beds", load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, unit="WREN", name="E", depth="12")
        await book(pilot)
        assert "a bed 12 ft deep" in stage.form.box("depth").error
        await pilot.press(*"12", "space", *"in")
        assert not any("all the same" in line for line in screen_text(stage))
        form = stage.form
        await pilot.press("f2")
        await settle_down(pilot)
    assert "1 ft deep" in (form.said or "")


async def test_a_form_in_which_nothing_was_changed_books_nothing(stage_store: Store):
    before = last_entry(stage_store)
    bed = lists.beds(stage_store)[0]
    stage = Stage(stage_store, edit_form("beds", bed, load_context(stage_store)))
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.press("f2")
        await settle_down(pilot)
        assert stage.said == ["Nothing changed."]
    assert last_entry(stage_store) == before
