"""A few fields that open below a list: Enter goes from one to the next, after the last they are finished."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from farmops.model.text import plain
from farmops.tui.widgets.field_box import FieldBox, room_for_labels
from farmops.tui.widgets.fields import Field, Setting

KEYS = "Enter goes on, empty for what was not read; Esc gives up, what you typed is kept"


class FieldLines(VerticalScroll, can_focus=False):
    """Out of sight until it is opened. What was typed and not finished is there again when it is reopened."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", "The next line; from the last one, done", show=False, priority=True),
        Binding("escape", "give_up", "Give up; what was typed is kept", show=False),
        Binding("tab", "step(1)", "The next line", show=False),
        Binding("shift+tab", "step(-1)", "The line before", show=False),
    ]
    DEFAULT_CSS = """
    FieldLines {
        display: none; height: auto; max-height: 58%; padding: 0 1; background: $panel; border-top: solid $accent;
        scrollbar-size-vertical: 1;
        &.opened { display: block; }
        & > .title { height: auto; text-style: bold; }
        & > .keys { height: auto; color: $text-muted; }
    }
    """

    class Finished(Message):
        """The last line was left with Enter, and all are understood; `values` by the names of their fields."""

        def __init__(self, key: str, values: dict[str, Any]) -> None:
            super().__init__()
            self.key = key
            self.values = values

    class GivenUp(Message):
        """Closed without an end."""

    def __init__(self) -> None:
        super().__init__()
        self.key = ""
        self.setting: Setting | None = None

    def compose(self) -> ComposeResult:
        """The title and the keys; the fields come when it is opened."""
        yield Static("", classes="title", markup=False)
        yield Static(KEYS, classes="keys", markup=False)

    @property
    def opened(self) -> bool:
        """Whether it waits for what is typed."""
        return self.has_class("opened")

    @property
    def boxes(self) -> list[FieldBox]:
        """The fields, first to last."""
        return list(self.query(FieldBox))

    async def open(self, key: str, title: str, fields: Sequence[Field], setting: Setting) -> None:
        """Show these fields and take the keys; `key` tells what they are about from all else."""
        if self.key != key:
            await self.query(FieldBox).remove()
            self.key, self.setting = key, setting
            draft = self._drafts.get(key, {})
            labels = room_for_labels(fields)
            boxes = (FieldBox(field, setting, text=draft.get(field.name), labels=labels) for field in fields)
            await self.mount(*boxes)
        self.query_one(".title", Static).update(Content(plain(title)))
        self._show(opened=True)
        self.focus_first()

    def focus_first(self) -> None:
        """The cursor goes to the first line that is empty."""
        boxes = self.boxes
        next((box for box in boxes if not box.text.strip()), boxes[0]).focus_input()

    def close(self) -> None:
        """Out of sight; what was typed stays a draft."""
        self._show(opened=False)
        self.key = ""

    def _show(self, *, opened: bool) -> None:
        """What stands around it makes room."""
        self.set_class(opened, "opened")
        self.query_ancestor(Widget).set_class(opened, "with-lines")

    def forget(self, key: str) -> None:
        """What was typed is booked."""
        self._drafts.pop(key, None)

    @property
    def _drafts(self) -> dict[str, dict[str, str]]:
        drafts: dict[str, dict[str, str]] = self.app.drafts  # type: ignore[attr-defined]
        return drafts

    def on_field_box_edited(self, message: FieldBox.Edited) -> None:
        """Keep the draft, and let the fields that follow this one answer again."""
        message.stop()
        self._drafts[self.key] = {box.field.name: box.text for box in self.boxes if box.text.strip()}
        for box in self.boxes:
            if message.box.field.name in box.field.follows:
                box.follow()

    def action_enter(self) -> None:
        """Go on at once, so that what is typed ahead goes where it is meant; the line left answers in its turn."""
        boxes = self.boxes
        at = next((at for at, box in enumerate(boxes) if box.has_focus_within), None)
        if at is None:
            self.focus_first()
            return
        boxes[at].enter(self._entered)
        if at + 1 < len(boxes):
            boxes[at + 1].focus_input()

    def _entered(self, box: FieldBox) -> None:
        if box is self.boxes[-1]:
            self._finish()

    def _finish(self) -> None:
        wrong = [box for box in self.boxes if not box.check()]
        if wrong:
            wrong[0].focus_input()
        else:
            self.post_message(self.Finished(self.key, {box.field.name: box.value for box in self.boxes}))

    def action_step(self, step: int) -> None:
        """The line below or above."""
        boxes = self.boxes
        at = next((at for at, box in enumerate(boxes) if box.has_focus_within), 0)
        boxes[(at + step) % len(boxes)].focus_input()

    def on_field_box_walked(self, message: FieldBox.Walked) -> None:
        """Up and down."""
        message.stop()
        self.action_step(message.step)

    def action_give_up(self) -> None:
        """Close; nothing is settled and nothing typed is lost."""
        self.close()
        self.post_message(self.GivenUp())
