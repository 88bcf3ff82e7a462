"""A question that one key answers."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.text import plain


class Confirm(ModalScreen[bool]):
    """Space or Enter says yes, Esc says no."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space,enter,y", "answer(True)", "Yes", show=False),
        Binding("escape,n", "answer(False)", "No", show=False),
    ]
    DEFAULT_CSS = """
    Confirm {
        align: center bottom;
        background: $background 0%;
        & > Vertical {
            height: auto; width: 100%; padding: 0 1; margin-bottom: 1;
            background: $panel; border-top: solid $accent;
        }
        & .answers { color: $text-muted; }
    }
    """

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question

    def compose(self) -> ComposeResult:
        """The question and its answers."""
        with Vertical():
            yield Static(Content(plain(self.question)))
            yield Static("Enter or Space: yes    Esc: no", classes="answers", markup=False)

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        self.dismiss(yes)

    def on_click(self) -> None:
        """A click beside the question says no."""
        self.dismiss(False)
