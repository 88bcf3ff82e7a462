"""Plain text over the place one came from: read off the screen's thread, as wide as there is room, scrolled."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.figures import Figure
from farmops.model.text import plain
from farmops.reports.store import Store
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import Failed, WorkMixin

KEYS = "Up, Down: scroll   w why   Y file   Esc back"
BESIDE = 4
"""Columns of the blank on either side and of the scroll bar."""


class Told(GoesOutAsFile, ModalScreen[None], WorkMixin):
    """Shows `lines(what, columns)` of what `read(store)` found; `w` opens its `figures`, or says `why` in words.

    `out` makes what goes into a file.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,enter", "dismiss", "Back", show=False),
        WRITE_OUT,
        Binding("w", "why", "Why is it so", show=False),
    ]
    DEFAULT_CSS = """
    Told {
        & > VerticalScroll { width: 100%; height: 1fr; background: $surface; padding: 0 1; }
        & #told { height: auto; color: $foreground; }
        & > #keys { height: auto; width: 100%; padding: 0 1; background: $surface; color: $text-muted; }
    }
    """

    def __init__(
        self,
        read: Callable[[Store], Any],
        lines: Callable[[Any, int], Iterable[str]],
        why: str,
        figures: Callable[[Any], Sequence[Figure]] | None = None,
        *,
        out: Callable[[Any], GoesOut],
    ) -> None:
        super().__init__()
        self.read = read
        self.lines = lines
        self.why = why
        self.figures = figures
        self.out = out
        self.found: Any = None

    def compose(self) -> ComposeResult:
        """The text and the keys."""
        with VerticalScroll():
            yield Static(id="told")
        yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read it."""
        self.work(self.read, self._take)

    def _take(self, found: Any) -> None:
        self.found = found
        self._draw()

    def _draw(self) -> None:
        if self.found is not None:
            text = "\n".join(plain(line) for line in self.lines(self.found, self.size.width - BESIDE))
            self.query_one("#told", Static).update(Content(text))

    def what_goes_out(self) -> GoesOut | None:
        """What was found, as tables."""
        return None if self.found is None else self.out(self.found)

    def action_why(self) -> None:
        """Open the numbers behind the lines, or say in words how they come about."""
        figures = self.figures(self.found) if self.figures is not None and self.found is not None else ()
        if not figures:
            self.query_one("#keys", Static).update(Content(plain(self.why)))
        else:
            from farmops.tui.screens.why import Why

            self.app.push_screen(Why(figures, self.found.settings.measures, self.why))

    def on_resize(self, event: events.Resize) -> None:
        """As wide as there is room."""
        self._draw()

    def on_failed(self, message: Failed) -> None:
        """Why it could not be read."""
        self.query_one("#told", Static).update(Content(plain(f"! {message.error}")))
