"""The bar under a list in which words are typed that its lines have to hold."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.timer import Timer
from textual.widgets import Input, Label

from farmops.tui.widgets.listing import Listing

DELAY_S = 0.12
"""How long typing has to pause before the list is searched."""


class Finder(Horizontal):
    """Filters a list while words are typed. Enter keeps them and goes back to the list, Esc takes them away.

    Compose it right after its list; it takes one line while it is open.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "clear", "Show all lines again", show=False),
        Binding("up", "step(-1)", "One line up", show=False),
        Binding("down", "step(1)", "One line down", show=False),
    ]

    DEFAULT_CSS = """
    Finder {
        height: 1;
        display: none;
        &.open { display: block; }
        & > Label { width: auto; padding: 0 1; color: $text-muted; }
        & > Input { width: 1fr; height: 1; border: none; padding: 0; }
    }
    """

    def __init__(self, listing: Listing, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.listing = listing
        self._soon: Timer | None = None

    def compose(self) -> ComposeResult:
        yield Label("Find")
        yield Input(compact=True, select_on_focus=False, placeholder="words in any order; Enter keeps, Esc clears")

    @property
    def is_open(self) -> bool:
        """Whether the bar is to be seen."""
        return self.has_class("open")

    def open(self) -> None:
        """Show the bar, with the words the list is filtered by, and type there."""
        field = self.query_one(Input)
        with self.prevent(Input.Changed):
            field.value = self.listing.wanted
        field.cursor_position = len(field.value)
        self.add_class("open")
        field.focus()

    def action_clear(self) -> None:
        """Show all lines again and close the bar."""
        self.query_one(Input).value = ""
        self._filter()
        self._close()

    def action_step(self, by: int) -> None:
        """Walk in the list while the bar stays open."""
        self.listing.action_step(1 if by > 0 else -1)

    @on(Input.Changed)
    def _filter_soon(self, event: Input.Changed) -> None:
        event.stop()
        self._stop()
        self._soon = self.set_timer(DELAY_S, self._filter)

    @on(Input.Submitted)
    def _keep(self, event: Input.Submitted) -> None:
        event.stop()
        self._filter()
        self._close()

    def _filter(self) -> None:
        self._stop()
        wanted = self.query_one(Input).value
        if " ".join(wanted.split()) != self.listing.wanted:
            self.listing.filter(wanted)

    def _stop(self) -> None:
        if self._soon is not None:
            self._soon.stop()
            self._soon = None

    def _close(self) -> None:
        self._stop()
        self.remove_class("open")
        self.listing.focus()
