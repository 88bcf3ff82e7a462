"""A stage for one list: an app around it, what a person sees of it, and what it told."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import App, ComposeResult
from textual.pilot import Pilot

from farmops.tui.widgets.finder import Finder
from farmops.tui.widgets.listing import Column, Heading, Item, Line, Listing


class Stage(App[None]):
    """A list with its finder under it, nothing else."""

    def __init__(
        self, columns: Sequence[Column] = (), items: Sequence[Item] = (), *, empty: str = "", plain_ascii: bool = False
    ) -> None:
        super().__init__()
        self.ascii = plain_ascii
        self.listing = Listing()
        self.finder = Finder(self.listing)
        self.first = (columns, items, empty)
        self.opened: list[str] = []
        self.moved: list[str | None] = []

    def compose(self) -> ComposeResult:
        yield self.listing
        yield self.finder

    def on_mount(self) -> None:
        columns, items, empty = self.first
        self.listing.show(columns, items, empty=empty)

    def on_listing_opened(self, message: Listing.Opened) -> None:
        self.opened.append(message.line.key)

    def on_listing_moved(self, message: Listing.Moved) -> None:
        self.moved.append(message.line.key if message.line else None)

    async def resized(self, pilot: Pilot[None], width: int, height: int) -> None:
        """Wait until the list has the size that a terminal of this size gives it."""
        await pilot.resize_terminal(width, height)
        while self.listing.outer_size != (width, height):
            await pilot.pause(0.01)
        await pilot.pause()

    @property
    def key(self) -> str | None:
        """The key of the line under the cursor."""
        line = self.listing.current
        return line.key if line else None

    def seen(self) -> list[str]:
        """The lines of the screen as they are painted, without blanks at their ends and the scroll bar."""
        strips = self.screen._compositor.render_strips()
        return [strip.crop(0, self.size.width - 1).text.rstrip() for strip in strips]

    def text(self) -> str:
        return "\n".join(self.seen())

    def marked(self, sign: str = "▸") -> list[str]:
        """The lines that bear the cursor's sign."""
        return [line.removeprefix(sign).strip() for line in self.seen() if line.startswith(sign)]

    def styles_of(self, words: str) -> list[str]:
        """The styles of the runs of text that hold these words."""
        strips = self.screen._compositor.render_strips()
        return [str(run.style) for strip in strips for run in strip if words in run.text]


CHORE_COLUMNS = (
    Column("unit", width=6),
    Column("title", grow=True),
    Column("class", priority=2),
    Column("late"),
    Column("minutes", align="right"),
)

CHORES: tuple[Item, ...] = (
    Line("look", ("all", "Look round: flow, air, level", "life support", "", "4 min")),
    Heading("Late"),
    Line("intake", ("TEAL", "Clear the pump intake", "life support", "2 days late", "5 min"), "late"),
    Line("pad", ("ROOK", "Change the filter pad", "upkeep", "4 days late", "10 min"), "late"),
    Heading("Morning"),
    Line("feed", ("WREN", "Feed perch-24", "fish care", "done", "2 min"), "done"),
    Line("chard", ("WREN", "Pick CHARD in WREN-N", "crop", "", "15 min")),
)


def numbered(count: int, prefix: str = "line") -> list[Item]:
    return [Line(str(i), (f"{prefix} {i}",)) for i in range(count)]


ONE_COLUMN = (Column("name", "name", grow=True),)
