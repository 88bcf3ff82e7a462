"""The load: the minutes of the days ahead, and what is expected on the day under the cursor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.exchange.month_text import hours
from farmops.exchange.tables import Table
from farmops.model.farm import Person
from farmops.model.text import plain
from farmops.reports.load import DayLoad, Load, load_of
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.details import Details
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.widgets.sparks import Bar
from farmops.tui.work import Failed, WorkMixin

DAYS = 14
NOTHING = "Nothing is expected. A unit brings its chores along; n in Chores describes one of your own."
KEYS = "Left, Right: fortnights   Home: today   Y file   Esc back"
COLUMNS = (
    Column("day", "day"),
    Column("chores", "chores", align="right"),
    Column("minutes", "min", align="right"),
    Column("bar", "", grow=True),
    Column("late", ""),
)
WHY_WORDS = "The minutes are those each chore is given; e in Chores changes them, t there shows how long it took."


class LoadAhead(GoesOutAsFile, SaysWhy, ModalScreen[None], WorkMixin):
    """A fortnight, a day on a line."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,q,o", "dismiss", "Back", show=False),
        Binding("left,comma", "step(-1)", "The fortnight before", show=False),
        Binding("right,full_stop", "step(1)", "The next fortnight", show=False),
        Binding("home,0", "now", "From today", show=False, priority=True),
    ]
    why_words = WHY_WORDS
    DEFAULT_CSS = """
    LoadAhead {
        & > Vertical { width: 100%; height: 100%; background: $surface; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #details { height: auto; max-height: 30%; border-top: solid $foreground 40%; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, unit: str | None, person: Person | None) -> None:
        super().__init__()
        self.unit = unit
        self.person = person
        self.load: Load | None = None

    def compose(self) -> ComposeResult:
        """The sum, the days, what the day under the cursor holds, the keys."""
        with Vertical():
            yield Static(id="title")
            yield Listing()
            yield Details(id="details")
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read from today on."""
        self.query_one(Listing).focus()
        self._read(None)

    def _read(self, first: date | None) -> None:
        self.work(partial(load_of, first=first, days=DAYS, unit=self.unit, person=self.person), self._take)

    def _take(self, load: Load) -> None:
        self.load = load
        self.query_one("#title", Static).update(Content(plain(title_of(load, self.unit))))
        self.query_one(Listing).show(COLUMNS, lines_of(load), empty=NOTHING)

    def what_goes_out(self) -> GoesOut | None:
        """The days with their minutes, and the bars."""
        if self.load is None:
            return None
        from farmops.exchange.chart_of import load_chart

        title = f"Minutes of chores ahead, {title_of(self.load, self.unit)}"
        table = Table("days", DAYS_HEADS, [day_row(day) for day in self.load.days])
        return GoesOut(title.partition(" from")[0], lambda: [table], partial(load_chart, self.load, title))

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """What is expected on the day under the cursor."""
        data = message.line.data if message.line else None
        words = "\n".join(details(data)) if isinstance(data, DayLoad) else ""
        self.query_one(Details).tell(Content(plain_lines(words)))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """A day has no form."""
        message.stop()

    def action_step(self, fortnights: int) -> None:
        """A fortnight earlier or later."""
        if self.load is not None:
            self._read(self.load.days[0].day + timedelta(days=DAYS * fortnights))

    def action_now(self) -> None:
        """From today on again."""
        self._read(None)

    def on_failed(self, message: Failed) -> None:
        """Why it could not be read."""
        self.query_one("#title", Static).update(Content(plain(f"! {message.error}")))


def plain_lines(words: str) -> str:
    """Text whose control signs are made visible, line ends kept."""
    return "\n".join(plain(line) for line in words.split("\n"))


def title_of(load: Load, unit: str | None) -> str:
    """The span and the minutes of it."""
    first = load.days[0].day
    whose = f", for {load.person.name}" if load.person else ""
    span = f"{unit or load.farm.name}{whose}, {len(load.days)} days from {first:%a} {first}"
    if not any(day.expected for day in load.days):
        return f"{span}: nothing expected"
    return f"{span}: {hours(load.minutes)}, {round(load.minutes / len(load.days))} min a day"


def lines_of(load: Load) -> list[Line]:
    """A line for each day, its minutes as a bar; none where nothing is expected."""
    if not any(day.expected for day in load.days):
        return []
    longest = max(day.minutes for day in load.days) or 1
    return [
        Line(
            f"day {day.day}",
            (
                f"{day.day:%a} {day.day.day} {day.day:%b}",
                str(len(day.expected)),
                str(day.minutes),
                Bar(day.minutes, largest=longest),
                f"{day.late} late" if day.late else "",
            ),
            look="late" if day.late else "normal",
            data=day,
        )
        for day in load.days
    ]


DAYS_HEADS = ("day", "chores", "minutes", "late")


def day_row(day: DayLoad) -> tuple[date, int, int, int]:
    """What is expected on a day, in numbers."""
    return day.day, len(day.expected), day.minutes, day.late


def details(day: DayLoad) -> Iterator[str]:
    """What is expected on a day, the same work counted, and the minutes of each person."""
    if not day.expected:
        yield "Nothing is expected."
        return
    counted = Counter(one.chore.title for one in day.expected)
    yield " · ".join(title if times == 1 else f"{title} ({times})" for title, times in counted.items())
    if len(day.by_person) > 1:
        yield "Minutes: " + ", ".join(f"{name} {minutes}" for name, minutes in day.by_person.items())
