"""A place that is a list of records with their forms: new, like, edit, remove, find, copy."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from farmops.model.errors import FarmopsError
from farmops.tui.actions import LIST, bindings
from farmops.tui.screens.place import Changed, Place
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from farmops.exchange.charts import Chart
    from farmops.reports.behind import Behind
    from farmops.reports.store import Store


def _behind(store: Store, *, record: object, today: date) -> Behind | str:
    from farmops.reports.behind import behind

    return behind(record, store, today)


class ListedPlace(Place):
    """Holds one Listing. `kind_of` names the kind of record of a line, as forms and removal call it."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(LIST)]
    DEFAULT_CSS = "ListedPlace > Listing { height: 1fr; }"
    new_kind: ClassVar[str] = ""
    wanted: str = ""
    """The key of the line to stand on once it is read."""

    def compose(self) -> ComposeResult:
        """The list."""
        yield Listing()

    @property
    def listing(self) -> Listing:
        """The list."""
        return self.query_one(Listing)

    def focus_first(self) -> None:
        """The cursor goes into the list."""
        self.listing.focus()

    def show(self, columns: Sequence[Column], items: Sequence[Line | Heading], empty: str) -> None:
        """What was read."""
        self.listing.show(columns, items, empty=empty)

        key, self.wanted = self.wanted, ""
        if key:
            self.call_after_refresh(self._stand_on, key)

    def _stand_on(self, key: str) -> None:
        if not self.listing.go_to(key):
            self.refuse("That record is not listed here any more: it is older than what is shown, or was removed.")

    def look_for(self, kind: str, id: int) -> None:
        """The key of a line is the kind of its record and its number."""
        self.wanted = f"{kind} {id}"

    def kind_of(self, line: Line) -> str:
        """The kind of record a line stands for."""
        return self.new_kind

    def behind(self, line: Line) -> object:
        """The record whose numbers `w` opens on a line."""
        return line.data

    def open_why(self) -> None:
        """Open the numbers of the line under the cursor, or say why there is nothing to open."""
        line = self.listing.current
        if line is None or self.today is None:
            self.refuse("There is no line under the cursor.")
        else:
            self.work(partial(_behind, record=self.behind(line), today=self.today), self._show_why, group="why")

    def _show_why(self, found: Behind | str) -> None:
        if isinstance(found, str):
            self.say(found)
        elif self.farm is not None and self.app.screen is self.screen:
            from farmops.tui.screens.why import Why

            figures = found.figures if len(found.figures) > 1 else found.figures[0]
            self.app.push_screen(Why(figures, self.farm.measures, found.title))

    def action_new(self) -> None:
        """A new record of the kind this place is about."""
        self.open_form("new", self.new_kind)

    def action_like(self) -> None:
        """A new record like the one under the cursor."""
        self._form_on_line("like")

    def action_edit(self) -> None:
        """Edit the record under the cursor."""
        self._form_on_line("edit")

    def _form_on_line(self, how: str) -> None:
        line = self.listing.current
        if line is None:
            self.refuse("There is no line under the cursor.")
        else:
            self.open_form(how, self.kind_of(line), line.data)

    def open_form(self, how: str, kind: str, record: Any = None) -> None:
        """Open the form of a kind of record, with the names it needs read first."""
        from farmops.tui.forms import load_context

        self.work(partial(load_context, unit_code=self.unit), partial(self._open, how, kind, record), group="form")

    def _open(self, how: str, kind: str, record: Any, context: Any) -> None:
        from farmops.tui import forms
        from farmops.tui.widgets.forms import FormScreen

        try:
            if how == "new":
                spec = forms.new_form(kind, context)
            elif how == "like":
                spec = forms.like_form(kind, record, context)
            elif how == "file":
                spec = forms.file_form(kind, record, context)
            elif how == "kept":
                spec = forms.kept_form(kind, record, context)
            else:
                spec = forms.edit_form(kind, record, context)
        except FarmopsError as error:
            self.refuse(str(error))
        else:
            self.app.push_screen(FormScreen(spec), self._booked)

    def _booked(self, words: str | None) -> None:
        if words is not None:
            self.changed(words)

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter or a double click opens the record."""
        message.stop()
        self.action_edit()

    def action_remove(self) -> None:
        """Remove the record under the cursor; undo brings it back."""
        line = self.listing.current
        if line is None or not hasattr(line.data, "id"):
            self.refuse("There is nothing under the cursor that can be removed.")
            return
        kind, id, by = self.kind_of(line), line.data.id, self.app.by  # type: ignore[attr-defined]

        def change(store: Any) -> str:
            from farmops.farm.removal import remove_record
            from farmops.model.journal import Removal, Through

            remove_record(store, Removal(kind, id), by=by, through=Through.SCREEN)
            return "Removed. u brings it back."

        self.work(change, lambda words: self.post_message(Changed(words)), group="write")

    async def action_find(self) -> None:
        """Find in the list; the bar for it is made when it is first wanted."""
        from farmops.tui.widgets.finder import Finder

        if not self.query(Finder):
            await self.mount(Finder(self.listing))
        self.query_one(Finder).open()

    @property
    def file_title(self) -> str:
        """What the list is called in a file."""
        return f"{self.title} {self.unit}" if self.unit else self.title

    def picture(self) -> Callable[[], Chart] | None:
        """What makes the picture that is shown, where there is one."""
        return None

    def action_write_out(self) -> None:
        """Write the list into a file, or its picture."""
        from farmops.tui.screens.goes_out import ask_where_to
        from farmops.tui.widgets.listing_tables import GoesOut

        listing = self.listing
        out = GoesOut(self.file_title, lambda: [listing.table()], self.picture())
        ask_where_to(self, out if listing.columns else None, lambda words: self.say(words) if words else None)

    def action_copy(self) -> None:
        """Copy the line, the table, or one cell of the line."""
        from farmops.tui.screens.choose import Choose

        heads = [column.head for column in self.listing.columns[:9]]
        cells = {str(at): f"the {head}" for at, head in enumerate(heads, start=1) if head}
        self.app.push_screen(Choose("Copy what?", {"l": "the line", "t": "the table", **cells}), self._copy)

    def _copy(self, chosen: str | None) -> None:
        from farmops.tui.widgets.clipboard import copy

        if chosen is None:
            return
        if chosen.isdigit():
            text = self.listing.as_text("cell", int(chosen) - 1)
        else:
            text = self.listing.as_text("table" if chosen == "t" else "line")
        self.work(lambda _store: copy(self.app, text), self.say, group="copy")
