"""How chores went: all of them in a span, or one with every line of its history."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.chores import Settled
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.reports.history import LOOK_BACK, ChoreHistory, Histories, histories
from farmops.reports.store import Store
from farmops.reports.water import readings_of
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.work import Failed, WorkMixin

ALL = (
    Column("where", "where"),
    Column("chore", "chore", grow=True),
    Column("done", "done", align="right"),
    Column("skipped", "left out", align="right", priority=1),
    Column("late", "late", align="right"),
    Column("missed", "missed", align="right"),
    Column("minutes", "min", align="right", priority=2),
    Column("by", "by", priority=3),
)
ONE = (
    Column("day", "day"),
    Column("how", "how"),
    Column("due", "was due", priority=2),
    Column("took", "took", align="right", priority=1),
    Column("who", "who"),
    Column("why", "why", grow=True),
    Column("read", "read", priority=3),
)
KEYS_ALL = "Enter opens   Left, Right: other weeks   Y file   Esc back"
KEYS_ONE = "Y file   Esc back"


@dataclass(frozen=True, slots=True)
class OnePast:
    """One chore, and what was read with each of its doings."""

    history: ChoreHistory
    read: Mapping[int, str]


WHY_WORDS = "Counted from the doings of the chore in these weeks: Enter lists them. Late is done after its day."


class ChorePast(GoesOutAsFile, SaysWhy, ModalScreen[None], WorkMixin):
    """Opens with one chore, or with all; Enter goes into one, Esc comes back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,backspace", "back", "Back", show=False),
        Binding("q,t,T", "dismiss", "Close", show=False),
        Binding("left,comma", "step(-1)", "Thirteen weeks earlier", show=False),
        Binding("right,full_stop", "step(1)", "Thirteen weeks later", show=False),
    ]
    why_words = WHY_WORDS
    file_title = "How chores went"
    DEFAULT_CSS = """
    ChorePast {
        & > Vertical { width: 100%; height: 100%; background: $surface; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #words { height: auto; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, unit: str | None, chore: int | None = None) -> None:
        super().__init__()
        self.unit = unit
        self.chore = chore
        self.found: Histories | None = None

    def compose(self) -> ComposeResult:
        """What it is about, how it went, the lines, the keys."""
        with Vertical():
            yield Static(id="title")
            yield Static(id="words")
            yield Listing()
            yield Static(KEYS_ALL, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read what was asked for."""
        self.query_one(Listing).focus()
        if self.chore is not None:
            self._open(self.chore)
        else:
            self.work(partial(histories, unit=self.unit), self._take)

    def _open(self, chore: int) -> None:
        self.work(partial(_one, chore=chore), self._take_one)

    def _take(self, found: Histories) -> None:
        self.found = found
        where = self.unit or found.farm.name
        self._head(f"{where}, {found.first} to {found.last}", "", KEYS_ALL)
        self.query_one(Listing).show(ALL, [line_of(one) for one in found.chores], empty="Nothing was settled.")

    def _take_one(self, found: OnePast) -> None:
        one = found.history
        title = f"{one.chore.title}, {one.where} · {one.chore.rule_words}"
        self._head(title, "Never settled yet." if one.nothing else one.words, KEYS_ONE)
        lines = [settled_line(settled, found.read.get(settled.id, "")) for settled in one.settled]
        self.query_one(Listing).show(ONE, lines, empty="Nothing was settled.")

    def _head(self, title: str, words: str, keys: str) -> None:
        for id, text in (("#title", title), ("#words", words), ("#keys", keys)):
            self.query_one(id, Static).update(Content(plain(text)))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Go into the chore under the cursor."""
        message.stop()
        if isinstance(message.line.data, ChoreHistory):
            self._open(message.line.data.chore.id)

    def action_back(self) -> None:
        """From one chore to all, where one came from there, or out."""
        if self.found is not None and self.query_one(Listing).columns == ONE:
            self._take(self.found)
        else:
            self.dismiss()

    def action_step(self, steps: int) -> None:
        """Other thirteen weeks, where all chores are told."""
        if self.found is not None and self.query_one(Listing).columns == ALL:
            move = (LOOK_BACK + timedelta(days=1)) * steps
            first, last = self.found.first + move, self.found.last + move
            self.work(partial(histories, first=first, last=last, unit=self.unit), self._take)

    def on_failed(self, message: Failed) -> None:
        """Why it could not be read."""
        self._head(f"! {message.error}", "", KEYS_ONE)


def _one(store: Store, *, chore: int) -> OnePast:
    (history,) = histories(store, chore=chore).chores
    read: dict[int, list[str]] = {}
    for one in readings_of(store, (settled.id for settled in history.settled)):
        read.setdefault(one.settlement_id or 0, []).append(f"{one.measure} {one.typed}")
    return OnePast(history, {id: ", ".join(words) for id, words in read.items()})


def line_of(one: ChoreHistory) -> Line:
    """How one chore went, in a line."""
    counts = (str(count or "") for count in (one.done, one.skipped, one.late, one.missed))
    minutes = f"{one.median_minutes:g} of {one.chore.minutes}" if one.median_minutes is not None else ""
    by = ", ".join(f"{name} {times}" for name, times in one.by)
    return Line(f"chore {one.chore.id}", (one.where, one.chore.title, *counts, minutes, by), data=one)


def settled_line(one: Settled, read: str) -> Line:
    """One line of a chore's history."""
    how = one.kind.value + (f" until {one.until_day}" if one.until_day else "")
    took = f"{one.minutes} min" if one.minutes is not None else ""
    cells = (str(one.on_day), how, str(one.occurrence), took, one.actor, one.reason or one.confirmed or "", read)
    return Line(f"settled {one.id}", cells, data=one)
