"""The pick list of a day: what is ordered, what is ready for it and where; filling an order books its sale."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.text import plain
from farmops.reports.ordering import Filling, Wanted, filling_sale
from farmops.reports.picks import PickList, picks
from farmops.reports.store import Store
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.screens.says_why import WHY, SaysWhy
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.widgets.sale_lines import Ordered, pick_lines
from farmops.tui.work import Failed, WorkMixin

COLUMNS = (Column("state", ""), Column("words", "", grow=True))
NOTHING = "Nothing is ready either. Esc, then o: a standing order."
KEYS = "Space fills   Enter part   Left, Right: days   Home: today   Y file   Esc back"


Record = tuple[Wanted, date, tuple[str, ...]]
WHY_WORDS = (
    "Wanted is what the orders of the day say, ready what stands in its picking window; F5 lists orders, F3 beds."
)


class Picks(GoesOutAsFile, SaysWhy, ModalScreen[str | None], WorkMixin):
    """One day; its result is what was booked last, in words."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WHY,
        WRITE_OUT,
        Binding("escape,q,k", "back", "Back", show=False),
        Binding("space", "fill", "Fill the order", show=False),
        Binding("left,comma", "step(-1)", "The day before", show=False),
        Binding("right,full_stop", "step(1)", "The next day", show=False),
        Binding("home,0", "now", "Today", show=False, priority=True),
    ]
    why_words = WHY_WORDS
    file_title = "Pick list"
    DEFAULT_CSS = """
    Picks {
        & > Vertical { width: 100%; height: 100%; background: $surface; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #said { height: auto; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.found: PickList | None = None
        self.said: str | None = None

    def compose(self) -> ComposeResult:
        """The day, the list, what was said, the keys."""
        with Vertical():
            yield Static(id="title")
            yield Listing()
            yield Static("", id="said", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read today."""
        self.query_one(Listing).focus()
        self._read(None)

    def _read(self, day: date | None) -> None:
        self.work(partial(picks, on=day), self._take)

    def _take(self, found: PickList) -> None:
        self.found = found
        title = f"Pick list for {found.day:%a} {found.day.day} {found.day:%b %Y}"
        title += "" if found.ordered else f"\n{plain(found.nothing_words)}"
        self.query_one("#title", Static).update(Content(title))
        self.query_one(Listing).show(COLUMNS, list(pick_lines(found)), empty=NOTHING)

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter on an order opens the form that fills it, all of it or a part."""
        message.stop()
        record = self._order()
        if record is not None:
            self._ask(record)

    def action_fill(self) -> None:
        """Fill the order under the cursor; where it could come from several places, ask."""
        record = self._order()
        if record is None:
            return
        if len(record[2]) == 1:
            self.work(partial(_filled, record=record, by=self.app.by), self._booked, group="write")  # type: ignore[attr-defined]
        else:
            self._ask(record)

    def _order(self) -> Record | None:
        """The order under the cursor that is to be filled, the day, and where it could come from."""
        line = self.query_one(Listing).current
        if self.found is None or line is None or not isinstance(line.data, Ordered):
            whole = f"{line.cells[-1]}. " if line else ""
            self._say(f"{whole}Stand on an order to fill it.")
            return None
        wanted, places = line.data.wanted, line.data.places
        if wanted.filled:
            self._say(f"It is filled: sale {wanted.sale_id}.")
            return None
        free = tuple(one.source(wanted.order.what) for one in places if one.held is None)
        if not free:
            self._say(f"Nothing to sell: {places[0].held or 'held'}." if places else "It is not growing here.")
            return None
        return wanted, self.found.day, free

    def _ask(self, record: Record) -> None:
        from farmops.tui.forms import load_context

        self.work(load_context, partial(self._open, record), group="form")

    def _open(self, record: Record, context: Any) -> None:
        from farmops.tui.forms import edit_form
        from farmops.tui.widgets.forms import FormScreen

        self.app.push_screen(FormScreen(edit_form("fill", record, context)), self._booked)

    def _booked(self, words: str | None) -> None:
        if words is not None and self.found is not None:
            self.said = words
            self._say(words)
            self._read(self.found.day)

    def action_step(self, days: int) -> None:
        """A day earlier or later."""
        if self.found is not None:
            self._read(self.found.day + timedelta(days=days))

    def action_now(self) -> None:
        """Today again."""
        self._read(None)

    def action_back(self) -> None:
        """Leave, and tell what was booked."""
        self.dismiss(self.said)

    def what_goes_out(self) -> GoesOut | None:
        """The orders of the day and what is ready, called by the day."""
        if self.found is None:
            return None
        return GoesOut(f"Pick list {self.found.day}", lambda: [self.query_one(Listing).table()])

    def _say(self, words: str) -> None:
        self.query_one("#said", Static).update(plain(words))

    def on_failed(self, message: Failed) -> None:
        """Why it could not be read."""
        self._say(f"! {message.error}")


def _filled(store: Store, *, record: Record, by: str) -> str:
    """Book the sale that fills an order, and say so."""
    from farmops.farm.sales import record_sale
    from farmops.model.journal import Through

    wanted, day, places = record
    entry = filling_sale(store, [Filling(wanted.order.id, places[0])], day)
    sale = record_sale(store, entry, by=by, through=Through.SCREEN)
    return f"Sale {sale.id} to {sale.buyer} booked. u in Money takes it back."
