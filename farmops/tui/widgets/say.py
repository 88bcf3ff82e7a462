"""One line that says what was done, or why not."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from farmops.model.text import plain


class SayLine(Static):
    """Words for the person; a refusal begins with a sign so that its colour is not alone."""

    DEFAULT_CSS = """
    SayLine {
        height: auto;
        max-height: 6;
        padding: 0 1;
        background: $background;
        color: $success;
        &.refused { color: $error; text-style: bold; }
        &.quiet { display: none; }
    }
    """

    def __init__(self) -> None:
        super().__init__("", classes="quiet")

    def say(self, words: str) -> None:
        """Something was done."""
        self._show(words, refused=False)

    def refuse(self, words: str) -> None:
        """Something was not done, and why."""
        self._show(f"! {words}", refused=True)

    def hush(self) -> None:
        """Nothing to say."""
        self.add_class("quiet")

    def _show(self, words: str, *, refused: bool) -> None:
        self.set_class(refused, "refused")
        self.set_class(not words, "quiet")
        self.update(Content("\n".join(plain(line) for line in words.splitlines())))
