"""The balance of a unit over four weeks: what is out of range, and which way to move."""

from __future__ import annotations

from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.text import plain
from farmops.reports.balance import Balance, BalanceLine, balance_of
from farmops.reports.balance_words import PLACES, range_words, verdict_words
from farmops.reports.shown import shown
from farmops.science.balance import Place
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.why import Why
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import Failed, WorkMixin

COLUMNS = (Column("what", "what"), Column("place", "verdict"), Column("value", "", grow=True))


HERE = {
    "fish fed": "f on a lot in Fish & water",
    "water add": "r in Fish & water",
    "harvest": "h weighs",
    "units edit": "e on the unit in Records",
    "beds add": "n in Beds",
}
"""What to press for a command that a missing number asks for."""


class BalanceScreen(GoesOutAsFile, ModalScreen[None], WorkMixin):
    """Line by line; Enter opens a number down to the records."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WRITE_OUT,
        Binding("escape,backspace,q", "dismiss", "Back", show=False),
        Binding("w", "why", "Why is it so", show=False),
    ]
    DEFAULT_CSS = """
    BalanceScreen {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #meaning { height: 4; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, unit: str) -> None:
        super().__init__()
        self.unit = unit
        self.found: Balance | None = None

    def compose(self) -> ComposeResult:
        """The verdict, the lines, what the one under the cursor means, the keys."""
        with Vertical():
            yield Static(Content(plain(f"{self.unit}, four weeks")), id="title")
            yield Listing()
            yield Static("", id="meaning", markup=False)
            yield Static("Enter opens a number   Y file   Esc back", id="keys", markup=False)

    def on_mount(self) -> None:
        """Read the four weeks."""
        self.query_one(Listing).focus()
        self.work(partial(balance_of, code=self.unit), self._show)

    def _show(self, found: Balance) -> None:
        self.found = found
        words = f"{found.unit.code}, {found.first} to {found.on}. {verdict_words(found)}"
        self.query_one("#title", Static).update(Content(plain(words)))
        self.query_one(Listing).show(
            COLUMNS, [self._line(one, found) for one in found.lines], empty="Nothing is known."
        )

    def what_goes_out(self) -> GoesOut | None:
        """The lines, called by the unit."""
        return GoesOut(f"Balance of {self.unit}", lambda: [self.query_one(Listing).table()])

    def _line(self, one: BalanceLine, found: Balance) -> Line:
        place = PLACES[one.place] if one.place else ""
        cells = (one.figure.name, place, told_here(shown(one.figure, found.farm.measures)))
        return Line(
            f"balance {one.name}", cells, look="late" if one.place not in (None, Place.WITHIN) else "normal", data=one
        )

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """Against what it is held, and which way to move."""
        one: Any = message.line.data if message.line else None
        if self.found is None or not isinstance(one, BalanceLine):
            return
        told = (
            told_here(one.figure.reason or "") or range_words(one, self.found.farm.measures),
            one.advice if one.figure.value is not None else "",
        )
        note = one.figure.note or ""
        self.query_one("#meaning", Static).update(Content("\n".join(plain(part) for part in (*told, note) if part)))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Open the number."""
        message.stop()
        self.action_why()

    def action_why(self) -> None:
        """Open the number under the cursor down to its records."""
        line = self.query_one(Listing).current
        if self.found is not None and line is not None and isinstance(line.data, BalanceLine):
            self.app.push_screen(Why(line.data.figure, self.found.farm.measures))

    def on_failed(self, message: Failed) -> None:
        """Why it cannot be told."""
        message.stop()
        self.query_one("#keys", Static).update(Content(plain(f"! {message.error}")))


def told_here(words: str) -> str:
    """What is missing, and what to press for it on the screen in place of the command that books it."""
    missing, _, command = words.partition(": farmops ")
    keys = next((keys for begin, keys in HERE.items() if command.startswith(begin)), None)
    return f"{missing}: {keys}" if keys else words
