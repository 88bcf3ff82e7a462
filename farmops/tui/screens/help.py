"""Help: what can be done here, by which key, and what it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import ClassVar

from rich.table import Column, Table
from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.tui.actions import ANYWHERE, LIST, Action
from farmops.tui.widgets.footer import key_names
from farmops.tui.widgets.places import TITLES

WALK = (
    "0 the whole farm, 1 to 9 a unit, Left and Right walk along the row.\n"
    "On a card: the chores that are due; bars of the produce weighed in each of the last six weeks, this one last; "
    "how warm the water was when it was read last."
)


class Help(ModalScreen[None]):
    """What is to be known of the line under the cursor, then the keys of the place, of its list, and of everywhere."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,question_mark,f1,enter", "dismiss", "Close", show=False)]
    DEFAULT_CSS = """
    Help {
        align: center middle;
        & > VerticalScroll {
            width: 76; max-width: 100%; height: auto; max-height: 90%;
            background: $surface; border: solid $primary; padding: 0 1;
        }
        & .head { margin-top: 1; text-style: bold; color: $text-primary; }
        & .keys { padding-left: 2; }
        & .walk { margin-top: 1; }
    }
    """

    def __init__(self, place: str, actions: Iterable[Action], about: str = "") -> None:
        super().__init__()
        self.place = place
        self.about = about
        self.actions = [one for one in actions if not one.id.startswith("unit-")]

    def compose(self) -> ComposeResult:
        """The keys, by where they apply."""
        with VerticalScroll() as sheet:
            sheet.border_title = f"{TITLES[self.place]}: what can be done"
            sheet.border_subtitle = "Esc closes"
            if self.about:
                yield Static(Content(self.about))
            for where, head in ((self.place, TITLES[self.place]), (LIST, "The list"), (ANYWHERE, "Anywhere")):
                yield from _section(head, [one for one in self.actions if one.where == where])
            yield Static(WALK, markup=False, classes="walk")


def _section(head: str, actions: Sequence[Action]) -> Iterator[Static]:
    """The keys on the left, their words on the right, wrapped under each other where it is narrow."""
    if actions:
        grid = Table.grid(Column(width=14, no_wrap=True), Column())
        for one in actions:
            grid.add_row(Text(key_names(one)), Text(one.words))
        yield Static(head, markup=False, classes="head")
        yield Static(grid, classes="keys")
