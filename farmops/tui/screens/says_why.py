"""Screens that lie over a place and whose numbers are told in words: `w` says how they come about."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from farmops.model.text import plain

WHY = Binding("w", "why", "Why is it so", show=False)


class SaysWhy:
    """What a screen with a line of keys `#keys` does on `w`: its words stand there.

    No node itself: as the first base of a screen it would take the styles of screens away.
    """

    why_words: ClassVar[str]

    def action_why(self) -> None:
        """How the numbers come about, in place of the keys."""
        assert isinstance(self, Screen)  # noqa: S101 - it is mixed into screens alone
        self.query_one("#keys", Static).update(Content(plain(self.why_words)))
