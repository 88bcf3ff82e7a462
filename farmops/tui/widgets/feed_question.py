"""How the fish ate, asked below the round: one key books what they got."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from farmops.model.fish import Ate
from farmops.model.text import plain

ANSWERS = "Enter or a: all    s: some    n: none    o: another amount    Esc: not yet"


class FeedQuestion(Static, can_focus=True):
    """Out of sight until something is asked; going elsewhere leaves the fish to be fed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,a", "answer('all')", "They ate all of it", show=False),
        Binding("s", "answer('some')", "They ate some of it", show=False),
        Binding("n", "answer('none')", "They ate nothing", show=False),
        Binding("o", "other", "They got another amount", show=False),
        Binding("escape", "leave", "Not yet", show=False),
    ]
    DEFAULT_CSS = """
    FeedQuestion {
        display: none; height: auto; padding: 0 1; background: $panel; color: $foreground; text-style: bold;
        &.asked { display: block; }
    }
    """

    class Answered(Message):
        """How they ate; None for not yet, `other` for another amount."""

        def __init__(self, ate: Ate | None, *, other: bool = False) -> None:
            super().__init__()
            self.ate = ate
            self.other = other

    @property
    def asked(self) -> bool:
        """Whether it waits for an answer."""
        return self.has_class("asked")

    def ask(self, words: str) -> None:
        """Ask, and take the keys."""
        self.update(Content(f"{plain(words)}\n{ANSWERS}"))
        self.add_class("asked")
        self.focus()

    def action_answer(self, ate: str) -> None:
        """Close with the answer."""
        self._close(self.Answered(Ate(ate)))

    def action_other(self) -> None:
        """Close, for the amounts to be typed."""
        self._close(self.Answered(None, other=True))

    def action_leave(self) -> None:
        """Close; nothing is booked."""
        self._close(self.Answered(None))

    def _close(self, message: Answered) -> None:
        if self.asked:
            self.remove_class("asked")
            self.post_message(message)

    def on_blur(self, event: events.Blur) -> None:
        """Somewhere else is no answer."""
        self.action_leave()
