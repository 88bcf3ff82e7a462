"""Screens that lie over a place and whose numbers are told in words: `w` says how they come about."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding
from textual.content import Content
from textual.dom import DOMNode
from textual.widgets import Static

from farmops.model.text import plain

WHY = Binding("w", "why", "Why is it so", show=False)


class SaysWhy(DOMNode):
    """A screen with a line of keys `#keys`, where its words on `w` stand."""

    why_words: ClassVar[str]

    def action_why(self) -> None:
        """How the numbers come about, in place of the keys."""
        self.query_one("#keys", Static).update(Content(plain(self.why_words)))
