"""The one list of the interface: any number of lines, of which only the visible ones are ever drawn."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar, Literal

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.worker import get_current_worker

from farmops.tui.widgets.listing_cells import GAP, cut, line_pieces, placed
from farmops.tui.widgets.listing_lines import NEARBY, Cell, Column, Heading, Item, Line, Look, Search, View, shown
from farmops.tui.widgets.listing_text import Scope, as_text
from farmops.tui.widgets.listing_widths import Widths
from farmops.tui.widgets.sparks import ASCII, DRAWN, Bar, Signs, Spark

if TYPE_CHECKING:
    from farmops.exchange.tables import Table

__all__ = ["Bar", "Cell", "Column", "Heading", "Item", "Line", "Listing", "Look", "Scope", "Spark"]

GUTTER = 2
_BLANKS = re.compile(r"( {2,}|^ +| +$)")
AT_ONCE = 2_000
"""Items up to which a search is done before the next repaint; above, it runs in a thread."""


class Listing(ScrollView, can_focus=True, inherit_bindings=False):
    """A list with a cursor, a head line that stays, sections, a filter, and text to copy.

    An app that has `ascii = True` gets shapes of plain ASCII.
    """

    ALLOW_SELECT = False

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", "One line up", show=False),
        Binding("down", "step(1)", "One line down", show=False),
        Binding("pageup", "page(-1)", "One page up", show=False),
        Binding("pagedown", "page(1)", "One page down", show=False),
        Binding("home", "edge(1)", "The first line", show=False),
        Binding("end", "edge(-1)", "The last line", show=False),
        Binding("enter", "open", "Open the line", show=False),
    ]

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "listing--head",
        "listing--heading",
        "listing--normal",
        "listing--late",
        "listing--done",
        "listing--quiet",
        "listing--loss",
        "listing--drawing",
        "listing--cursor",
        "listing--note",
    }

    DEFAULT_CSS = """
    Listing {
        width: 1fr;
        height: 1fr;
        overflow-x: hidden;
        overflow-y: auto;
        scrollbar-gutter: stable;
        scrollbar-size-vertical: 1;
        & > .listing--head { color: $text-muted; }
        & > .listing--heading { color: $text-primary; text-style: bold; }
        & > .listing--late { color: $text-warning; text-style: bold; }
        & > .listing--done { color: $text-muted; text-style: strike; }
        & > .listing--quiet { color: $text-muted; }
        & > .listing--loss { color: $foreground; }
        & > .listing--drawing { color: $text-accent; }
        & > .listing--note { color: $text-muted; text-style: italic; }
        & > .listing--cursor { text-style: bold; }
        &:focus > .listing--cursor { text-style: bold reverse; }
    }
    """

    class Moved(Message):
        """The cursor stands on another line, or the lines were shown anew; None where there is no line."""

        def __init__(self, listing: Listing, line: Line | None) -> None:
            super().__init__()
            self.listing = listing
            self.line = line

        @property
        def control(self) -> Listing:
            return self.listing

    class Opened(Message):
        """A line was opened with Enter or a double click."""

        def __init__(self, listing: Listing, line: Line) -> None:
            super().__init__()
            self.listing = listing
            self.line = line

        @property
        def control(self) -> Listing:
            return self.listing

    class Found(Message):
        """A search that ran in a thread has come to its end."""

        bubble = False

        def __init__(self, search: Search, text: str, places: list[int]) -> None:
            super().__init__()
            self.search = search
            self.text = text
            self.places = places

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self._columns: tuple[Column, ...] = ()
        self._view = View(())
        self._search = Search(())
        self._widths = Widths()
        self._cursor: int | None = None
        self._key: str | None = None
        self._wanted = ""
        self._note = ""
        self._empty = ""

    @property
    def current(self) -> Line | None:
        """The line under the cursor."""
        item = self._view[self._cursor] if self._cursor is not None else None
        return item if isinstance(item, Line) else None

    @property
    def columns(self) -> tuple[Column, ...]:
        """The columns of what is shown."""
        return self._columns

    @property
    def wanted(self) -> str:
        """The words that the list is filtered by."""
        return self._wanted

    def show(self, columns: Sequence[Column], items: Sequence[Item], *, empty: str = "") -> None:
        """Show these items. The cursor stays on the line of the same key, else on the one nearest to where it was.

        `items` may be a sequence that makes them on demand; an `empty` list says the given words. Who has scrolled
        away from the cursor stays there.
        """
        alike = self._columns == tuple(columns)
        self._columns = tuple(columns)
        self._empty = empty
        self._search = Search(tuple(items) if isinstance(items, list) else items)
        if not self._wanted or not alike:
            self._note = f"Searching: {shown(self._wanted)}" if self._wanted else ""
            self._put(View(self._search.items))
        if self._wanted:
            self.filter(self._wanted)

    def go_to(self, key: str) -> bool:
        """Put the cursor on the line of this key; False when it is not among the lines shown."""
        index = self._view.index_of(key, self._cursor or 0)
        if index is not None:
            self._move(index)
        return index is not None

    def filter(self, text: str) -> None:
        """Show only the lines whose cells hold all these words, in any case and with or without accents."""
        self._wanted = " ".join(text.split())
        items = self._search.items
        if not self._wanted:
            self._note = ""
            self._put(View(items))
        elif len(items) <= AT_ONCE or not self.is_attached:
            self._put_found(self._search.places(self._wanted) or [])
        else:
            search, wanted = self._search, self._wanted
            self.run_worker(lambda: self._find(search, wanted), thread=True, exclusive=True, group="find")

    def as_text(self, scope: Scope, column: int = 0) -> str:
        """The current cell or line, or the table as filtered: cells parted by tabs, safe to paste into a sheet."""
        return as_text(self._columns, self._view, self.current, scope, column)

    def table(self) -> Table:
        """All lines as filtered, with the values that they show."""
        from farmops.tui.widgets.listing_tables import table_of

        return table_of(self._columns, self._view)

    def _find(self, search: Search, wanted: str) -> None:
        worker = get_current_worker()
        places = search.places(wanted, lambda: worker.is_cancelled)
        if places is not None and self.is_attached:
            self.post_message(self.Found(search, wanted, places))

    def on_listing_found(self, message: Listing.Found) -> None:
        """Show what a search found, unless other lines or words came in between."""
        message.stop()
        if message.search is self._search and message.text == self._wanted:
            self._put_found(message.places)

    def _put_found(self, places: list[int]) -> None:
        self._note = f"{self._search.lines_in(places):,} of {self._search.lines:,} hold: {shown(self._wanted)}"
        self._put(View(self._search.items, places))

    def _put(self, view: View) -> None:
        """Show a view, the cursor on the same line in the same row of the screen where that can be.

        Where nothing was hidden above and the cursor stands on the first page, nothing is hidden above again.
        """
        line, top = self.current, round(self.scroll_y)
        row = (self._cursor or 0) - top
        in_sight = 0 <= row < self._rows
        self._key = line.key if line else self._key
        near = view.index_near(self._view.place_at(self._cursor or 0))
        self._take_in(view)
        self._cursor = self._cursor_in(view, near)
        self.virtual_size = Size(0, self._over + len(view) + self._under)
        if self.is_attached and self._cursor is not None:
            whole = top == 0 and self._cursor < self._rows
            self.scroll_to(y=0 if whole else max(0, self._cursor - row), animate=False, force=True)
        self._settle(follow=in_sight or not (self.current and self.current.key == self._key))
        self.post_message(self.Moved(self, self.current))

    def _take_in(self, view: View) -> None:
        """The columns are measured anew where other items came; a search leaves them as wide as they are."""
        if view.items is not self._view.items or self._widths.columns != self._columns:
            self._widths = Widths(self._columns)
        self._view = view
        self._widths.take_in(view)

    def _cursor_in(self, view: View, near: int) -> int | None:
        reach = None if isinstance(view.items, (list, tuple)) else NEARBY
        same = view.index_of(self._key, near, reach=reach) if self._key is not None else None
        return same if same is not None else view.line_near(near)

    @property
    def _over(self) -> int:
        """Lines that stay above the items."""
        return int(any(column.head for column in self._columns))

    @property
    def _under(self) -> int:
        """Lines that stay below the items."""
        return int(bool(self._note))

    @property
    def _rows(self) -> int:
        """How many items are visible at a time."""
        return max(1, self.scrollable_content_region.height - self._over - self._under)

    def _settle(self, *, follow: bool = True) -> None:
        """Bring the cursor into sight and the columns to the width of what is in sight."""
        if self.is_attached and self.size:
            if follow:
                self._into_sight()
            self._measure_visible()
            self.refresh()

    def _into_sight(self) -> None:
        if self._cursor is None or not self.is_attached:
            return
        first = self._cursor
        if first > 0 and self._rows > 1 and isinstance(self._view[first - 1], Heading):
            first -= 1
        top = round(self.scroll_y)
        if first < top:
            self.scroll_to(y=first, animate=False, force=True)
        elif self._cursor >= top + self._rows:
            self.scroll_to(y=self._cursor - self._rows + 1, animate=False, force=True)

    def _measure_visible(self) -> bool:
        top = round(self.scroll_y)
        return self._widths.see(range(top, min(len(self._view), top + self._rows)))

    def _move(self, index: int) -> None:
        old, self._cursor = self._cursor, index
        if old != index:
            for changed in (old, index):
                if changed is not None:
                    self.refresh_line(self._over + changed)
            self._into_sight()
            self.post_message(self.Moved(self, self.current))

    def action_step(self, by: Literal[1, -1]) -> None:
        """To the next line or the one before."""
        if self._cursor is None:
            return
        index = self._view.line_from(self._cursor + by, by)
        if index is None:
            self._show_edge(by)
        else:
            self._move(index)

    def _show_edge(self, by: int) -> None:
        """Where the cursor can go no further, what stands beyond it is still to be seen."""
        self.scroll_to(y=0 if by < 0 else self.max_scroll_y, animate=False)

    def action_page(self, by: Literal[1, -1]) -> None:
        """As far as fits on the screen."""
        if self._cursor is None:
            return
        target = max(0, min(len(self._view) - 1, self._cursor + by * max(1, self._rows - 1)))
        index = self._view.line_from(target, by)
        if index is None:
            self.action_edge(1 if by < 0 else -1)
        else:
            self._move(index)

    def action_edge(self, inward: Literal[1, -1]) -> None:
        """To the first line (1) or the last one (-1)."""
        index = self._view.line_from(0 if inward == 1 else len(self._view) - 1, inward)
        if index is not None:
            self._move(index)
            self._show_edge(-inward)

    def action_open(self) -> None:
        """Open the line under the cursor."""
        if (line := self.current) is not None:
            self.post_message(self.Opened(self, line))

    def on_click(self, event: events.Click) -> None:
        """A click stands on a line, the second one opens it."""
        at = event.get_content_offset(self)
        index = None if at is None else self._index_at(at.y)
        if event.button != 1 or index is None or not isinstance(self._view[index], Line):
            return
        event.stop()
        if event.chain == 2 and index == self._cursor:
            self.action_open()
        else:
            self._move(index)

    def _index_at(self, y: int) -> int | None:
        """The item drawn on a line of the widget."""
        row = y - self._over
        index = row + round(self.scroll_y)
        return index if 0 <= row < self._rows and index < len(self._view) else None

    def on_resize(self) -> None:
        """Another size, in which it is drawn anyhow: the cursor stays in sight, and wider lines may come with it."""
        self._into_sight()
        if self._measure_visible():
            self.refresh()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Measure what came into sight before it is drawn."""
        super().watch_scroll_y(old_value, new_value)
        self._measure_visible()

    @property
    def _signs(self) -> Signs:
        return ASCII if getattr(self.app, "ascii", False) else DRAWN

    def render_line(self, y: int) -> Strip:
        """One line of the widget: head, item, note, or nothing."""
        width, height = self.scrollable_content_region.size
        if self._over and y == 0 and (len(self._view) or self._note):
            segments = self._head(width)
        elif self._note and y == height - 1:
            segments = [self._words(self._note, width, "listing--note")]
        elif not len(self._view):
            segments = self._nothing(y - self._over, width)
        else:
            index = self._index_at(y)
            segments = [] if index is None else self._item(index, width)
        strip = Strip(segments)
        return strip if strip.cell_length == width else strip.adjust_cell_length(width, self.rich_style)

    def _head(self, width: int) -> list[Segment]:
        heads = (
            placed(shown(self._columns[slot.index].head), slot.width, self._columns[slot.index].align, self._signs)
            for slot in self._widths.slots(width - GUTTER)
        )
        return [Segment(" " * GUTTER + (" " * GAP).join(heads), self._style("listing--head"))]

    def _item(self, index: int, width: int) -> list[Segment]:
        item = self._view[index]
        if isinstance(item, Heading):
            return [self._words(item.words, width, "listing--heading", indent=1)]
        here = index == self._cursor
        over = ("listing--cursor",) if here else ()
        style = self._style(f"listing--{item.look}", *over)
        drawing = style if here else self._style("listing--drawing")
        segments = _with_blanks((self._signs.cursor if here else "").ljust(GUTTER), style)
        for piece in line_pieces(item, self._columns, self._widths.slots(width - GUTTER), self._signs):
            segments += _with_blanks(piece.text, drawing if piece.drawing else style)
        used = sum(segment.cell_length for segment in segments)
        return [*segments, *_with_blanks(" " * max(0, width - used), style)]

    def _words(self, words: str, width: int, name: str, indent: int = GUTTER) -> Segment:
        return Segment(" " * indent + cut(shown(words), max(0, width - indent), self._signs), self._style(name))

    def _nothing(self, row: int, width: int) -> list[Segment]:
        """A row of the words for an empty list, in the middle."""
        words = f"No line holds: {shown(self._wanted)}" if self._note else shown(self._empty)
        lines = textwrap.wrap(words, max(1, min(60, width - GUTTER)))
        at = row - max(0, (self._rows - len(lines)) // 2)
        if not 0 <= at < len(lines):
            return []
        style = self._style("listing--quiet")
        return [Segment(" " * max(0, (width - len(lines[at])) // 2) + lines[at], style)]

    def _style(self, name: str, *over: str) -> Style:
        """The style of a class as it looks on this list, with what other classes lay over it."""
        style = self.get_component_rich_style(name)
        for other in over:
            style += self.get_component_rich_style(other, partial=True)
        return style


def _with_blanks(text: str, style: Style) -> list[Segment]:
    """The text in a style; where words are struck through, the room between them is not."""
    if not style.strike:
        return [Segment(text, style)]
    plain_style = style + Style(strike=False)
    parts = (part for part in _BLANKS.split(text) if part)
    return [Segment(part, plain_style if part.isspace() else style) for part in parts]
