"""A form: it answers while one types, goes on with Enter, never books twice and never loses what was typed."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import threading
from collections.abc import Callable
from typing import Any, ClassVar

import pytest
from textual import events
from textual.app import ComposeResult
from textual.screen import ModalScreen

from farmops.model.errors import Refused, StoreUnavailable
from farmops.model.units import UnitState
from farmops.model.values import KEEP
from farmops.quantities import US
from farmops.records.store import Store
from farmops.tui.forms import making
from farmops.tui.widgets import forms
from farmops.tui.widgets.forms import Field, FieldBox, FormSpec, Hand, Kind, Setting
from farmops.tui.widgets.words_line import WordsLine
from tests.farmhand import open_farm
from tests.tui.stage import NARROW, TODAY, WIDE, Stage, book, fill, screen_text, settle_down, shown, type_text

FIELDS = (
    Field("what", "What", Kind.NAME, options=("CHARD", "CHIVES", "KALE", "[red]BEET[/]"), strict=True, required=True),
    Field("weight", "Weight", Kind.MASS, required=True),
    Field("on", "Day", Kind.DAY, "today", required=True, blamed=("too early",)),
    Field("use", "For", Kind.CHOICE, "home", ("home", "sold", "given", "waste", "feed"), keep=True),
    Field("note", "Note", Kind.TEXT),
)


class Clerk:
    """Saves nothing, but remembers what it was asked to, and fails as often as it is told to."""

    def __init__(self, *errors: Exception) -> None:
        self.errors = list(errors)
        self.asked: list[tuple[dict[str, Any], str]] = []
        self.may_go_on = threading.Event()
        self.may_go_on.set()

    def __call__(self, store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        self.may_go_on.wait(10)
        self.asked.append((values, operation))
        if self.errors:
            raise self.errors.pop(0)
        return f"{hand.by} booked it."


class Shelf(Store):
    """A store that nobody opens."""

    def __init__(self) -> None:
        super().__init__("nowhere.db")


def spec(save: Callable[..., str], **more: Any) -> FormSpec:
    """A form with a field of every manner."""
    return FormSpec("Weighing", more.pop("fields", FIELDS), save, Setting(US, TODAY), **more)


def stage_for(save: Callable[..., str], **more: Any) -> Stage:
    """The form on a stage."""
    return Stage(Shelf(), spec(save, **more))


async def test_from_the_first_key_to_the_last_enter():
    clerk = Clerk()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await type_text(pilot, "ka")
        assert "= KALE" in shown(stage.form.box("what"))
        await pilot.press("enter")
        await type_text(pilot, "1 6")
        assert "= 1 lb 6 oz" in shown(stage.form.box("weight"))
        await pilot.press("enter")
        await type_text(pilot, "3 may")
        assert "= Sun 3 May 2026" in shown(stage.form.box("on"))
        await pilot.press("enter", "s", "enter", "enter")
        await settle_down(pilot)
        assert stage.said == ["Bea booked it."]
    values, _ = clerk.asked[0]
    assert (values["what"], values["weight"].typed, values["use"], values["note"]) == ("KALE", "1 6", "sold", None)


async def test_what_is_typed_ahead_goes_where_it_is_meant():
    clerk = Clerk()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        for key in [*"ka", "enter", *"2lb", "enter", *"mon", "enter", *"g", "enter", *"wet", "enter"]:
            stage.post_message(events.Key(key, key if len(key) == 1 else None))
        await settle_down(pilot)
        await settle_down(pilot)
        assert stage.said == ["Bea booked it."]
    values, _ = clerk.asked[0]
    assert (values["what"], values["weight"].typed, values["use"], values["note"]) == ("KALE", "2lb", "given", "wet")


async def test_an_error_waits_until_the_field_is_left():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("weight").focus_input()
        await type_text(pilot, "1 six")
        assert not stage.form.box("weight").error
        await pilot.press("tab")
        await pilot.pause()
        assert shown(stage.form.box("weight")).startswith("! ")
        assert stage.here.field.name == "on"
        await pilot.press("shift+tab", "end", "backspace")
        await pilot.pause()
        assert not stage.form.box("weight").error
        assert stage.form.box("weight").text == "1 si"


async def test_what_was_not_understood_is_not_overwritten_by_the_next_key():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("weight").focus_input()
        await type_text(pilot, "1 six")
        await pilot.press("enter", "x")
        await pilot.pause()
        assert stage.form.box("weight").text == "1 sixx"


async def test_a_needed_field_left_empty_is_told_when_it_is_booked():
    clerk = Clerk()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.press("tab", "tab")
        await pilot.pause()
        assert not any(box.error for box in stage.form.boxes)
        await book(pilot)
        assert [box.field.name for box in stage.form.boxes if box.error] == ["what", "weight"]
        assert "Not booked yet" in stage.top
        assert stage.here.field.name == "what"
    assert clerk.asked == []


async def test_names_are_completed():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        what = stage.form.box("what")
        assert what.query_one(".found", WordsLine).words[:2] == ("CHARD", "CHIVES")
        await type_text(pilot, "ch")
        assert what.query_one(".found", WordsLine).words == ("CHARD", "CHIVES")
        await pilot.press("enter")
        await pilot.pause()
        assert "Which one: CHARD, CHIVES?" in shown(what)
        await type_text(pilot, "i")
        await pilot.pause()
        assert any("chiVES" in row for row in screen_text(stage))
        await pilot.press("right")
        assert what.text == "CHIVES"
        what.text = "ch"
        await pilot.pause()
        await pilot.press("down", "down", "tab")
        await pilot.pause()
        assert what.text == "CHIVES"
        what.focus_input()
        what.text = "kal"
        await pilot.pause()
        await pilot.press("tab")
        await pilot.pause()
        assert what.text == "KALE"


async def test_everything_can_be_clicked():
    clerk = Clerk()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        await pilot.click(stage.form.box("what").query_one(".found"), offset=(9, 0))
        await pilot.pause()
        assert stage.form.box("what").text == "CHIVES"
        await pilot.click(stage.form.box("weight").query_one(".label"))
        await type_text(pilot, "2 lb")
        await pilot.click(stage.form.box("use").input, offset=(8, 0))
        await pilot.pause()
        assert stage.form.box("use").text == "sold"
        await pilot.click("#book")
        await settle_down(pilot)
        assert stage.said == ["Bea booked it."]
        stage.open_form(spec(clerk))
        await pilot.pause()
        await pilot.click("#leave")
        await pilot.pause()
        assert stage.closed


async def test_words_side_by_side():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        use = stage.form.box("use")
        use.focus_input()
        picked = []
        for key in ("right", "right", "left", "f", "x", "space", "left", "w"):
            await pilot.press(key)
            picked.append(use.text)
        assert picked == ["sold", "given", "sold", "feed", "feed", "home", "feed", "waste"]
        await pilot.pause()
        assert any("[waste]" in row for row in screen_text(stage))


async def test_words_on_a_second_line_can_be_clicked_too():
    fields = (Field("state", "State", Kind.CHOICE, "planned", making.words_of(UnitState)),)
    stage = stage_for(Clerk(), fields=fields)
    async with stage.run_test(size=NARROW) as pilot:
        await pilot.pause()
        state = stage.form.box("state")
        assert state.input.size.height == 2
        await pilot.click(state.input, offset=(2, 1))
        await pilot.pause()
        assert state.text == "wintering"


async def test_up_and_down_walk_the_fields():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("weight").focus_input()
        await pilot.press("down")
        await pilot.pause()
        assert stage.here.field.name == "on"
        await pilot.press("up", "up")
        await pilot.pause()
        assert stage.here.field.name == "what"


async def test_no_second_enter_while_saving():
    clerk = Clerk()
    clerk.may_go_on.clear()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6")
        await pilot.press("f2", "f2", "escape", "f2")
        await pilot.pause()
        assert stage.top == "Saving …"
        assert not stage.closed
        clerk.may_go_on.set()
        await settle_down(pilot)
        assert stage.said == ["Bea booked it."]
    assert len(clerk.asked) == 1


async def test_a_retry_bears_the_same_id_and_the_next_record_a_new_one():
    clerk = Clerk(StoreUnavailable("farm.db is busy."))
    stage = stage_for(clerk, again=True)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6", use="sold")
        await book(pilot)
        assert "farm.db is busy." in stage.top
        assert stage.form.box("weight").text == "1 6"
        await pilot.press("enter")
        await settle_down(pilot)
        assert stage.top.startswith("Bea booked it.")
        assert [box.text for box in stage.form.boxes] == ["", "", "today", "sold", ""]
        assert stage.here.field.name == "what"
        assert stage.drafts == {}
        await fill(pilot, what="CHARD", weight="2 lb")
        await book(pilot)
        await pilot.press("escape")
        await pilot.pause()
        assert stage.said == ["Bea booked it."]
    first, retried, following = (operation for _, operation in clerk.asked)
    assert first == retried != following


async def test_the_next_record_can_be_typed_while_one_is_saved():
    clerk = Clerk()
    clerk.may_go_on.clear()
    stage = stage_for(clerk, again=True)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6", note="first")
        await pilot.press("f2")
        await type_text(pilot, "cha")
        clerk.may_go_on.set()
        await settle_down(pilot)
        assert [box.text for box in stage.form.boxes] == ["cha", "", "today", "home", ""]
        assert stage.here.field.name == "what"
        await pilot.press("escape")
        await pilot.pause()
        assert stage.drafts == {"Weighing": {"what": "cha"}} or stage.drafts == {"Weighing": {"what": "CHARD"}}
    assert clerk.asked[0][0]["what"] == "KALE"


async def test_a_draft_left_after_an_unanswered_booking_keeps_its_id():
    clerk = Clerk(StoreUnavailable("The connection broke."))
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6")
        await book(pilot)
        await pilot.press("escape")
        await pilot.pause()
        stage.open_form(spec(clerk))
        await pilot.pause()
        await book(pilot)
        assert stage.said == [None, "Bea booked it."]
    assert clerk.asked[0][1] == clerk.asked[1][1]


async def test_a_refusal_stands_at_its_field_or_on_top():
    clerk = Clerk(Refused("Not booked: that is too early."), Refused("Not booked: the moon is full."))
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6")
        await book(pilot)
        assert "! Not booked: that is too early." in shown(stage.form.box("on"))
        assert stage.here.field.name == "on"
        await book(pilot)
        assert stage.top == "! Not booked: the moon is full."
        assert stage.form.box("weight").text == "1 6"
        await book(pilot)
        assert stage.said == ["Bea booked it."]


async def test_a_fault_of_the_program_loses_nothing(tmp_path: Any, monkeypatch: Any):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    clerk = Clerk(ZeroDivisionError("42 chard"))
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, what="KALE", weight="1 6")
        await book(pilot)
        assert "has a fault (ZeroDivisionError)" in stage.top
        assert stage.form.box("weight").text == "1 6"
        await book(pilot)
        assert stage.said == ["Bea booked it."]


async def test_a_draft_is_offered_again():
    clerk = Clerk()
    stage = stage_for(clerk)
    async with stage.run_test(size=WIDE) as pilot:
        await type_text(pilot, "kal")
        await fill(pilot, note="after rain")
        await pilot.press("escape")
        await pilot.pause()
        assert stage.said == [None]
        stage.open_form(spec(clerk, fields=FIELDS[1:3]))
        await pilot.pause()
        await pilot.press("escape")
        await pilot.pause()
        stage.open_form(spec(clerk))
        await pilot.pause()
        assert stage.top == "Filled in with what you typed before you left."
        assert stage.form.box("what").text.casefold() in ("kal", "kale")
        assert stage.form.box("note").text == "after rain"
        await pilot.click("#over")
        await pilot.pause()
        assert [box.text for box in stage.form.boxes] == ["", "", "today", "home", ""]
        assert stage.drafts == {}


async def test_an_untouched_form_leaves_no_draft():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.press("tab", "tab", "escape")
        await pilot.pause()
        assert stage.drafts == {}


async def test_an_edit_keeps_what_was_left_alone():
    clerk = Clerk()
    fields = (Field("note", "Note", Kind.TEXT, "old"), Field("weight", "Weight", Kind.MASS, "1 6"))
    stage = stage_for(clerk, fields=fields, edits=True)
    async with stage.run_test(size=WIDE) as pilot:
        await fill(pilot, note="")
        await book(pilot)
    values, _ = clerk.asked[0]
    assert values == {"note": None, "weight": KEEP}


async def test_names_are_shown_as_they_are_never_as_markup():
    fields = (Field("what", "What", Kind.NAME, options=("[red]BEET[/]", "x\x1b[31m"), strict=True, required=True),)
    stage = Stage(
        Shelf(),
        FormSpec("[b]Weigh[/b] \x1b[2J", fields, Clerk(Refused("No [i]such[/i] \x1b thing")), Setting(US, TODAY)),
    )
    async with stage.run_test(size=WIDE) as pilot:
        await pilot.pause()
        text = "\n".join(screen_text(stage))
        assert "[b]Weigh[/b] \\x1b[2J" in text
        assert "[red]BEET[/]" in text
        assert "\x1b" not in text
        await type_text(pilot, "[red")
        await book(pilot)
        assert stage.top == "! No [i]such[/i] \\x1b thing"


async def test_what_is_pasted_cannot_speak_to_the_terminal():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        stage.form.box("note").focus_input()
        await pilot.pause()
        stage.form.box("note").input.post_message(events.Paste("a\x1b[31mb\tc\u202ed"))
        await pilot.pause()
        assert stage.form.box("note").text == "a [31mb c d"
        assert not any("\x1b" in row for row in screen_text(stage))


@pytest.mark.parametrize("elsewhere", [True, False])
async def test_that_another_program_writes_is_said_only_where_one_does(
    sqlite_store: Store, monkeypatch: pytest.MonkeyPatch, elsewhere: bool
):
    open_farm(sqlite_store)
    monkeypatch.setattr(forms, "PATIENCE_SECONDS", 0.2)
    other = sqlite3.connect(sqlite_store.place, isolation_level=None)
    go_on = threading.Event()

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        with store.writing(operation):
            go_on.wait(10)
        return "Booked."

    stage = Stage(sqlite_store, spec(save, fields=FIELDS[-1:]))
    async with stage.run_test(size=WIDE) as pilot:
        if elsewhere:
            other.execute("BEGIN IMMEDIATE")
        await pilot.press("f2")
        while stage.top.endswith(forms.SAVING):
            await pilot.pause(0.02)
        said = stage.top
        go_on.set()
        other.close()
        await settle_down(pilot)
        assert stage.said == ["Booked."]
    assert ("Another program is writing" in said) is elsewhere
    assert ("Still saving" in said) is not elsewhere


class Scale(ModalScreen[str]):
    """Another screen that a field stands in."""

    heard: ClassVar[list[str]] = []

    def compose(self) -> ComposeResult:
        yield FieldBox(Field("weight", "Weight", Kind.MASS, required=True), Setting(US, TODAY))

    def on_field_box_entered(self, message: FieldBox.Entered) -> None:
        self.dismiss(message.box.value.typed)


async def test_a_field_works_in_another_screen():
    stage = Stage(Shelf())
    async with stage.run_test(size=WIDE) as pilot:
        stage.push_screen(Scale(), stage.said.append)
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "This is needed" in "\n".join(screen_text(stage))
        await type_text(pilot, "1 6")
        await pilot.press("enter")
        await pilot.pause()
        assert stage.said == ["1 6"]


def test_forms_load_neither_tables_nor_the_floor_that_writes():
    code = (
        "import sys, farmops.tui.forms; "
        "print([m for m in ('sqlmodel', 'sqlalchemy', 'pandas', 'dateutil', 'farmops.farm') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


async def test_f1_tells_what_the_field_takes_and_the_form_is_as_it_was():
    stage = stage_for(Clerk())
    async with stage.run_test(size=WIDE) as pilot:
        await type_text(pilot, "KA")
        await pilot.press("f1")
        await settle_down(pilot)
        told = "\n".join(screen_text(stage))
        assert "CHARD, CHIVES, KALE, [red]BEET[/]" in told
        assert "what you typed is kept" in told
        await pilot.press("escape")
        await settle_down(pilot)
        assert stage.form.boxes[0].text == "KA"


async def test_a_text_longer_than_its_line_is_shown_whole_below_it():
    path = f"/home/ada/{'x' * 90}/money.xlsx"
    stage = stage_for(Clerk(), fields=(Field("file", "File", Kind.TEXT, path), *FIELDS))
    async with stage.run_test(size=WIDE) as pilot:
        await settle_down(pilot)
        assert path in "".join(line.strip() for line in screen_text(stage))


SOLD = "CHARD 12 bunches weighing 3 lb 4 oz at 2.50"


@pytest.mark.parametrize(("echo", "beside"), [("2 lb 8 oz", True), ("two pounds and eight ounces", False)])
async def test_a_line_of_many_words_gets_what_its_echo_leaves_of_the_screen(echo: str, beside: bool):
    line = Field("line", "Line 1", Kind.TEXT, longest=160, read=lambda text, _: text, told=lambda *_: echo)
    stage = stage_for(Clerk(), fields=(line,))
    async with stage.run_test(size=(80, 24)) as pilot:
        await type_text(pilot, SOLD)
        await settle_down(pilot)
        (row,) = (text for text in screen_text(stage) if SOLD in text)
        assert row.rstrip().endswith(f"= {echo}") == beside
        assert f"= {echo}" in shown(stage.form.box("line"))
