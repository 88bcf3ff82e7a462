"""Every form books what was typed, through the screen, and says in words what it does not understand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.model.errors import FarmopsError, NotFound
from farmops.model.journal import Through
from farmops.records.store import Store
from farmops.tui.forms import EDIT, LIKE, NEW, edit_form, load_context
from farmops.tui.widgets.fields import Field, Setting, understood
from farmops.tui.widgets.forms import FieldBox
from tests.tui.scenes import SCENES
from tests.tui.stage import (
    NARROW,
    WIDE,
    Driver,
    Scene,
    Stage,
    book,
    fill,
    laid_copy,
    last_entry,
    lay,
    screen_text,
    shown,
)

WRONG = ("someday", "!!", "x" * 1001)
EACH_SCENE = pytest.mark.parametrize("scene", SCENES, ids=str)


@pytest.fixture(scope="session")
def laid_template(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The laid farm that tests copy."""
    folder = tmp_path_factory.mktemp("stage")
    with laid_copy(sqlite_template, folder) as store:
        lay(store)
    return folder / "stage.db"


@pytest.fixture
def stage_store(laid_template: Path, tmp_path: Path) -> Iterator[Store]:
    """A copy of the laid farm to write into."""
    with laid_copy(laid_template, tmp_path) as store:
        yield store


def test_every_form_has_its_scene():
    played = {(scene.how, scene.kind) for scene in SCENES}
    assert played == {
        *(("new", kind) for kind in NEW),
        *(("edit", kind) for kind in EDIT),
        *(("like", kind) for kind in LIKE),
    }


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


@EACH_SCENE
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


@EACH_SCENE
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
        hint = "" if box.text.strip() else box.field.hint
        for words in (box.field.label, *box.field.words, hint):
            assert " ".join(words.split()[:2]) in text


def test_a_kind_without_a_form_is_refused_in_words(stage_store: Store):
    with pytest.raises(NotFound, match="settlements is not made here"):
        edit_form("settlements", None, load_context(stage_store))
