"""A lot from seed or fingerling to the buyer, day by day."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.lot_codes import read_lot_code
from farmops.model.text import plain
from farmops.reports.store import Store
from farmops.reports.trace import WORK, Trace, trace
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import Failed, WorkMixin

COLUMNS = (
    Column("day", "day"),
    Column("kind", ""),
    Column("where", "where", priority=2),
    Column("what", "what", grow=True),
    Column("by", "by", priority=1),
)
KEYS = "c with or without chores   Y file   Esc back"
WHY_WORDS = "Every line is a record as it was booked; F7 lists them by kind and day."


class LotTrace(GoesOutAsFile, SaysWhy, ModalScreen[None], WorkMixin):
    """What happened to one lot and around it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,backspace,q", "back", "Back", show=False),
        Binding("c", "chores", "With or without chores", show=False),
    ]
    why_words = WHY_WORDS
    DEFAULT_CSS = """
    LotTrace {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #meaning { height: auto; max-height: 3; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self.found: Trace | None = None
        self.with_chores = False

    def compose(self) -> ComposeResult:
        """What lot it is, what happened, what of it is shown, the keys."""
        with Vertical():
            yield Static(Content(plain(self.code)), id="title")
            yield Listing()
            yield Static("", id="meaning", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read it."""
        self.query_one(Listing).focus()
        self.work(partial(_trace, code=self.code), self._show)

    def _show(self, found: Trace) -> None:
        self.found = found
        shown = [one for one in found.lines if self.with_chores or one.kind != WORK]
        self.query_one("#title", Static).update(Content(plain(f"Lot {found.code}: {found.what}, {found.where}")))
        lines = [
            Line(f"{at}", (one.day.isoformat(), one.kind, one.where, one.words, one.by or ""))
            for at, one in enumerate(shown)
        ]
        self.query_one(Listing).show(COLUMNS, lines, empty="Nothing is known of it.")
        left_out = len(found.lines) - len(shown)
        sold = "" if found.buyers() else " No sale names it yet."
        chores = f" {left_out} chores are left out." if left_out else ""
        told = f"From {found.span.first} to {found.span.last}.{sold}{chores}"
        self.query_one("#meaning", Static).update(Content(told))

    def what_goes_out(self) -> GoesOut | None:
        """The lines that are shown, called by the lot."""
        return GoesOut(f"Lot {self.code}", lambda: [self.query_one(Listing).table()])

    def action_chores(self) -> None:
        """With the chores around it, or without."""
        self.with_chores = not self.with_chores
        if self.found is not None:
            self._show(self.found)

    def on_failed(self, message: Failed) -> None:
        """Why it cannot be followed."""
        message.stop()
        self.query_one("#keys", Static).update(Content(plain(f"! {message.error}")))

    def action_back(self) -> None:
        """Close."""
        self.dismiss(None)


def _trace(store: Store, code: str) -> Trace:
    return trace(store, read_lot_code(code))
