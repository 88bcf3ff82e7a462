"""All readings of one measure of a unit, the newest first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops import clock
from farmops.model.errors import FarmopsError
from farmops.model.readings import Reading
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.quantities.readings import show_value
from farmops.reports.drift import drift_of
from farmops.reports.store import Store
from farmops.reports.water import WaterLine, series_of, waters_of
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.work import Failed, WorkMixin

COLUMNS = (
    Column("day", "day"),
    Column("time", "time", priority=2),
    Column("value", "value", align="right"),
    Column("verdict", "verdict", grow=True),
    Column("note", "note", priority=3),
)
KEYS = "Enter or e corrects   x removes   Esc back"


class Series(ModalScreen[str | None], WorkMixin):
    """The readings behind the latest one; its result is what was changed last, in words."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,backspace,q", "back", "Back", show=False),
        Binding("e", "edit", "Correct the reading", show=False),
        Binding("x,delete", "remove", "Remove the reading", show=False),
    ]
    DEFAULT_CSS = """
    Series {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #meaning { height: auto; max-height: 5; }
        & #keys { height: 1; color: $text-muted; }
    }
    """

    def __init__(self, latest: Reading) -> None:
        super().__init__()
        self.latest = latest
        self.lines: dict[int, WaterLine] = {}
        self.said: str | None = None

    def compose(self) -> ComposeResult:
        """The readings, what the one under the cursor means, the keys."""
        with Vertical():
            yield Static(Content(plain(f"{self.latest.unit} {self.latest.measure}")), id="title")
            yield Listing()
            yield Static("", id="meaning", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read them."""
        self.query_one(Listing).focus()
        self._read()

    def _read(self) -> None:
        self.work(partial(_series, latest=self.latest), self._show)

    def _show(self, found: tuple[Sequence[WaterLine], Measures, str]) -> None:
        lines, measures, drift = found
        title = f"{self.latest.unit} {self.latest.measure}"
        self.query_one("#title", Static).update(Content(plain(f"{title}. {drift}" if drift else title)))
        self.lines = {one.reading.id: one for one in lines}
        shown = [_line(one, measures) for one in reversed(lines)]
        self.query_one(Listing).show(COLUMNS, shown, empty="No reading is left.")

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """Say in full what a reading means and what to do first."""
        one = self.lines.get(self._current.id) if self._current else None
        parts = (one.judged.says, one.judged.first, one.judged.source) if one else ()
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


def _series(store: Store, *, latest: Reading) -> tuple[Sequence[WaterLine], Measures, str]:
    measures = waters_of(store).farm.measures
    moving = (one.told for one in drift_of(store, unit=latest.unit) if one.measure is latest.measure)
    return series_of(store, date.min, date.max, latest.unit_id, latest.measure), measures, next(moving, "")


def _line(one: WaterLine, measures: Measures) -> Line:
    read = one.reading
    value = f"{read.bound}{show_value(read.value, read.measure, measures)}"
    time = "" if read.minute is None else clock.show_minute(read.minute)
    cells = (str(read.day), time, value, one.judged.brief, read.note or "")
    return Line(f"reading {read.id}", cells, look="late" if one.judged.bad else "normal", data=read)
