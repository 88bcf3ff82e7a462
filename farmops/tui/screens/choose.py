"""One key among a few: a question with its answers by letter or digit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.text import plain
from farmops.tui.widgets.words_line import WordsLine


class Choose(ModalScreen[str | None]):
    """Closes with the key that was chosen, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "dismiss(None)", "Nothing", show=False)]
    DEFAULT_CSS = """
    Choose {
        align: center bottom;
        background: $background 0%;
        & > Vertical {
            height: auto; width: 100%; padding: 0 1; margin-bottom: 1;
            background: $panel; border-top: solid $accent;
        }
    }
    """

    def __init__(self, question: str, answers: Mapping[str, str]) -> None:
        super().__init__()
        self.question = question
        self.answers = dict(answers)

    def compose(self) -> ComposeResult:
        """The question and its answers."""
        line = WordsLine()
        line.words = (*(f"{key} {answer}" for key, answer in self.answers.items()), "Esc nothing")
        with Vertical():
            yield Static(Content(plain(self.question)))
            yield line

    def on_key(self, event: events.Key) -> None:
        """A key that is an answer closes with it."""
        if event.character in self.answers:
            event.stop()
            self.dismiss(event.character)

    def on_words_line_picked(self, message: WordsLine.Picked) -> None:
        """An answer was clicked."""
        self.dismiss([*self.answers, None][message.index])

    def on_click(self) -> None:
        """A click beside it chooses nothing."""
        self.dismiss(None)
