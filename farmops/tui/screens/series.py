"""All readings of one measure of a unit, the newest first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops import clock
from farmops.model.errors import FarmopsError
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure, Reading
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.quantities.readings import show_value
from farmops.reports.drift import drift_of
from farmops.reports.markers import Marker, concerns, markers_of
from farmops.reports.store import Store
from farmops.reports.water import WaterLine, series_of, waters_of
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.widgets.sparks import ASCII, DRAWN, Signs
from farmops.tui.widgets.water_picture import Point, drawing, span_of
from farmops.tui.work import Failed, WorkMixin

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

COLUMNS = (
    Column("day", "day"),
    Column("time", "time", priority=2),
    Column("value", "value", align="right"),
    Column("verdict", "verdict", grow=True),
    Column("note", "note", priority=3),
)
KEYS = "Enter or e corrects   x removes   Y file   Esc back"
WHY_WORDS = (
    "The value is what the kit showed, in the unit of the measure. Below stands which limit counts, and its source."
)


class Series(GoesOutAsFile, SaysWhy, ModalScreen[str | None], WorkMixin):
    """The readings behind the latest one; its result is what was changed last, in words."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,backspace,q", "back", "Back", show=False),
        Binding("e", "edit", "Correct the reading", show=False),
        Binding("x,delete", "remove", "Remove the reading", show=False),
    ]
    why_words = WHY_WORDS
    DEFAULT_CSS = """
    Series {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #picture { height: auto; color: $text-muted; }
        & #meaning { height: auto; max-height: 5; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, latest: Reading) -> None:
        super().__init__()
        self.latest = latest
        self.lines: dict[int, WaterLine] = {}
        self.past: Past | None = None
        self.said: str | None = None

    def compose(self) -> ComposeResult:
        """The readings, what the one under the cursor means, the keys."""
        with Vertical():
            yield Static(Content(plain(f"{self.latest.unit} {self.latest.measure}")), id="title")
            yield Static("", id="picture", markup=False)
            yield Listing()
            yield Static("", id="meaning", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read them."""
        self.query_one(Listing).focus()
        self._read()

    def _read(self) -> None:
        self.work(partial(_series, latest=self.latest), self._show)

    def _show(self, found: Past) -> None:
        self.past = found
        title = f"{self.latest.unit} {self.latest.measure}{band_words(found)}"
        self.query_one("#title", Static).update(Content(plain(f"{title}. {found.drift}" if found.drift else title)))
        self.lines = {one.reading.id: one for one in found.lines}
        self._draw()
        dated = [(one.reading.day, _line(one, found.measures)) for one in found.lines]
        changed = [(one.day, _changed_line(at, one)) for at, one in enumerate(found.markers)]
        shown = [line for _, line in sorted([*changed, *dated], key=lambda pair: pair[0])]
        self.query_one(Listing).show(COLUMNS, shown[::-1], empty="No reading is left.")

    def _draw(self) -> None:
        """The readings as a picture, where there is room for one."""
        if self.past is None:
            return
        height = min(12, (self.size.height - 12) // 3)
        lines = drawn(self.past, self.size.width - 6, height, self.signs) if height >= 3 else ()
        self.query_one("#picture", Static).update(Content("\n".join(plain(line) for line in lines)))

    @property
    def signs(self) -> Signs:
        """The shapes that this terminal can draw."""
        return ASCII if getattr(self.app, "ascii", False) else DRAWN

    def what_goes_out(self) -> GoesOut | None:
        """The readings with what was changed, and their curve."""
        title = f"{self.latest.unit} {self.latest.measure}"
        listing, past = self.query_one(Listing), self.past
        if past is None:
            return None
        return GoesOut(title, lambda: [listing.table()], partial(_chart, past, self.latest.unit))

    def on_resize(self, event: events.Resize) -> None:
        """As large as there is room for."""
        self._draw()

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """Say in full what a reading means and what to do first."""
        one = self.lines.get(self._current.id) if self._current else None
        parts = (one.judged.says, one.reading.doubtful, one.judged.first, one.judged.source) if one else ()
        self.query_one("#meaning", Static).update(Content("\n".join(plain(part) for part in parts if part)))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter corrects the reading."""
        message.stop()
        self.action_edit()

    @property
    def _current(self) -> Reading | None:
        line = self.query_one(Listing).current
        return line.data if line is not None and isinstance(line.data, Reading) else None

    def action_edit(self) -> None:
        """Correct the reading under the cursor."""
        from farmops.tui.forms import load_context

        one = self._current
        if one is not None:
            self.work(partial(load_context, unit_code=one.unit), partial(self._open, one), group="form")

    def _open(self, one: Reading, context: Any) -> None:
        from farmops.tui import forms
        from farmops.tui.widgets.forms import FormScreen

        self.app.push_screen(FormScreen(forms.edit_form("readings", one, context)), self._changed)

    def action_remove(self) -> None:
        """Remove the reading under the cursor; undo brings it back."""
        one, by = self._current, self.app.by  # type: ignore[attr-defined]
        if one is None:
            return

        def change(store: Store) -> str:
            from farmops.farm.removal import remove_record
            from farmops.model.journal import Removal, Through

            remove_record(store, Removal("readings", one.id), by=by, through=Through.SCREEN)
            return "Reading removed. u brings it back."

        self.work(change, self._changed, group="write")

    def _changed(self, words: str | None) -> None:
        if words is not None:
            self.said = words
            self._tell(words)
            self._read()

    def on_failed(self, message: Failed) -> None:
        """Why something was not done."""
        message.stop()
        self._refuse(message.error)

    def _refuse(self, error: FarmopsError) -> None:
        self._tell(f"! {error}")

    def _tell(self, words: str) -> None:
        self.query_one("#keys", Static).update(Content(plain(words)))

    def action_back(self) -> None:
        """Close."""
        self.dismiss(self.said)


@dataclass(frozen=True, slots=True)
class Past:
    """The readings with their safe band, what was changed meanwhile, and how they move."""

    lines: Sequence[WaterLine]
    band: tuple[float | None, float | None]
    markers: Sequence[Marker]
    drift: str
    measure: Measure
    measures: Measures


def band_words(past: Past) -> str:
    """`, safe 6.4 to 7.2`, nothing where no limit is known."""
    low, high = (None if edge is None else show_value(edge, past.measure, past.measures) for edge in past.band)
    if low and high:
        return f", safe from {low} to {high}"
    return f", safe from {low}" if low else f", safe up to {high}" if high else ""


def drawn(past: Past, width: int, height: int, signs: Signs) -> list[str]:
    """The picture of the readings."""
    points = [
        Point(one.reading.day, one.reading.value, one.judged.bad, one.reading.doubt is not None) for one in past.lines
    ]
    if not points:
        return []
    low, high = (show_value(edge, past.measure, past.measures) for edge in span_of(points, past.band))
    return list(drawing(points, past.band, past.markers, width, height, (high, low), signs))


def _chart(past: Past, unit: str) -> Chart:
    from farmops.exchange.chart_of import readings_chart

    return readings_chart(past.lines, past.band, past.markers, unit, past.measures)


def _changed_line(at: int, one: Marker) -> Line:
    """What was changed, between the readings."""
    return Line(f"changed {at}", (str(one.day), "", "*", one.words, ""), look="quiet")


def _series(store: Store, *, latest: Reading) -> Past:
    waters = waters_of(store)
    measure, measures = latest.measure, waters.farm.measures
    found = series_of(store, date.min, date.max, latest.unit_id, measure)
    span = (found[0].reading.day, found[-1].reading.day) if found else (latest.day, latest.day)
    markers = [one for one in markers_of(store, *span, latest.unit) if concerns(one, measure)]
    moving = (one.told for one in drift_of(store, unit=latest.unit) if one.measure is latest.measure)
    return Past(found, waters.band(latest.unit_id, measure), markers, next(moving, ""), measure, measures)


def _line(one: WaterLine, measures: Measures) -> Line:
    read = one.reading
    value = show_value(read.value, read.measure, measures)
    value = f"{read.bound}{value}" if read.bound else value
    time = "" if read.minute is None else clock.show_minute(read.minute)
    verdict = ", ".join(part for part in (one.judged.brief, read.doubtful) if part)
    cells = (str(read.day), time, value, verdict, read.note or "")
    return Line(f"reading {read.id}", cells, look="late" if one.judged.bad else "normal", data=read)
