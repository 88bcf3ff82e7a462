"""A month at a glance, and the months beside it."""

from __future__ import annotations

import re
from datetime import date, timedelta
from functools import partial
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.exchange.month_text import month_text
from farmops.exchange.tables import Table
from farmops.model.errors import FarmopsError
from farmops.model.text import plain
from farmops.reports.month import Month, month_of
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import Failed, WorkMixin

LATE = re.compile(r"\d+ late|\d+ ?!")
TODAY = re.compile(r">\d+")
KEYS = "Left, Right: months   Home: this one   Y file   Esc back"
DAYS_HEADS = ("day", "done", "minutes done", "expected", "minutes expected", "late")
WHY_WORDS = "Counted from the chores that fall due on each day and their minutes; F2 shows a day's chores one by one."


class MonthGlance(GoesOutAsFile, SaysWhy, ModalScreen[None], WorkMixin):
    """The month as the command prints it, as wide as there is room."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,q,m,enter", "dismiss", "Back", show=False),
        Binding("left,comma,pageup", "step(-1)", "The month before", show=False),
        Binding("right,full_stop,pagedown", "step(1)", "The next month", show=False),
        Binding("home,0", "now", "This month", show=False),
    ]
    why_words = WHY_WORDS
    DEFAULT_CSS = """
    MonthGlance {
        & > VerticalScroll { width: 100%; height: 100%; background: $surface; padding: 0 1; }
        & #month { height: auto; color: $foreground; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, unit: str | None) -> None:
        super().__init__()
        self.unit = unit
        self.month: Month | None = None

    def compose(self) -> ComposeResult:
        """The month and the keys."""
        with VerticalScroll():
            yield Static(id="month")
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read this month."""
        self._read(None)

    def _read(self, day: date | None) -> None:
        self.work(partial(month_of, month=day, unit=self.unit), self._take)

    def _take(self, month: Month) -> None:
        self.month = month
        self._draw()

    def what_goes_out(self) -> GoesOut | None:
        """The days of the month in numbers."""
        if self.month is None:
            return None
        first = self.month.days[0].day
        rows = [
            (one.day, one.done, one.done_minutes, one.expected, one.expected_minutes, one.late)
            for one in self.month.days
        ]
        where = f" {self.unit}" if self.unit else ""
        return GoesOut(f"Chores of {first:%B %Y}{where}", lambda: [Table("days", DAYS_HEADS, rows)])

    def _draw(self) -> None:
        if self.month is not None:
            self.query_one("#month", Static).update(drawn(month_text(self.month, self.size.width - 2)))

    def on_resize(self, event: events.Resize) -> None:
        """As wide as there is room."""
        self._draw()

    def action_step(self, months: int) -> None:
        """The month before or the next one."""
        if self.month is not None:
            first = self.month.days[0].day
            self._read(first - timedelta(days=1) if months < 0 else self.month.days[-1].day + timedelta(days=1))

    def action_now(self) -> None:
        """Back to this month."""
        self._read(None)

    def on_failed(self, message: Failed) -> None:
        """Why it could not be read."""
        self.query_one("#month", Static).update(Content(plain(_words(message.error))))


def _words(error: FarmopsError) -> str:
    return f"! {error}"


def drawn(text: str) -> Content:
    """The text of a month, late days and today marked beside their words and signs."""
    content = Content(text)
    for pattern, style in ((LATE, "bold $text-warning"), (TODAY, "bold $text-accent")):
        for found in pattern.finditer(text):
            content = content.stylize(style, found.start(), found.end())
    return content
