"""A question that stands below a list until one key answers it."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from farmops.model.text import plain

ANSWERS = "Enter or y: yes    Esc: not yet"


class Question(Static, can_focus=True):
    """Out of sight until something is asked; going elsewhere answers no."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,y", "answer(True)", "Yes", show=False),
        Binding("escape,n", "answer(False)", "Not yet", show=False),
    ]
    DEFAULT_CSS = """
    Question {
        display: none; height: auto; padding: 0 1; background: $panel; color: $foreground; text-style: bold;
        &.asked { display: block; }
    }
    """

    class Answered(Message):
        """The answer to what was asked."""

        def __init__(self, yes: bool) -> None:
            super().__init__()
            self.yes = yes

    @property
    def asked(self) -> bool:
        """Whether it waits for an answer."""
        return self.has_class("asked")

    def ask(self, words: str) -> None:
        """Ask, and take the keys."""
        self.update(Content(f"{plain(words)}\n{ANSWERS}"))
        self.add_class("asked")
        self.focus()

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        if self.asked:
            self.remove_class("asked")
            self.post_message(self.Answered(yes))

    def on_blur(self, event: events.Blur) -> None:
        """Somewhere else is no yes."""
        self.action_answer(False)
