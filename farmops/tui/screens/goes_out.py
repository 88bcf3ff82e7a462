"""Screens whose list goes into a file, or their picture: one key asks where to and writes it in a worker."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, ClassVar

from textual.binding import Binding
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from farmops.model.text import plain
from farmops.tui.actions import LIST, bindings
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import WorkMixin

WRITE_OUT: Binding = next(key for key in bindings(LIST) if key.id == "write-out")


class GoesOutAsFile:
    """What a screen with a list and a line of keys `#keys` does on the key for files.

    No node itself: as the first base of a screen it would take the styles of screens away.
    """

    file_title: ClassVar[str] = "List"

    def what_goes_out(self) -> GoesOut | None:
        """The list; None before there is anything to write."""
        assert isinstance(self, Screen)  # noqa: S101 - it is mixed into screens alone
        listing = self.query_one(Listing)
        return GoesOut(self.file_title, lambda: [listing.table()])

    def action_write_out(self) -> None:
        """Ask where to, and write."""
        assert isinstance(self, WorkMixin)  # noqa: S101 - it is mixed into screens alone
        ask_where_to(self, self.what_goes_out(), self._tell_of_file)

    def _tell_of_file(self, words: str | None) -> None:
        assert isinstance(self, Screen)  # noqa: S101 - it is mixed into screens alone
        if words is not None:
            self.query_one("#keys", Static).update(Content(plain(words)))


def ask_where_to(widget: WorkMixin, out: GoesOut | None, then: Callable[[str | None], None]) -> None:
    """Open the form for the file; `then` takes what is to be said."""
    from farmops.tui.forms import load_context

    if out is None:
        then("There is nothing to write yet.")
    else:
        widget.work(load_context, partial(_open, widget, out, then), group="form")


def _open(widget: WorkMixin, out: GoesOut, then: Callable[[str | None], None], context: Any) -> None:
    from farmops.tui.forms import file_form
    from farmops.tui.widgets.forms import FormScreen

    widget.app.push_screen(FormScreen(file_form("list", out, context)), then)
