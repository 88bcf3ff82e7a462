"""Help: what can be done here, by which key, and what it needs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.tui.actions import ANYWHERE, LIST, Action
from farmops.tui.widgets.footer import key_names
from farmops.tui.widgets.places import TITLES

WALK = "0 the whole farm, 1 to 9 a unit, Left and Right walk along the row."


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
            yield Static(Content("\n".join(self.lines())))

    def lines(self) -> list[str]:
        """The text of the help."""
        found = [*self.about.splitlines(), ""] if self.about else []
        for where, head in ((self.place, TITLES[self.place]), (LIST, "The list"), (ANYWHERE, "Anywhere")):
            rows = [one for one in self.actions if one.where == where]
            if rows:
                found += [head, *(f"  {key_names(one):<14}{one.words}" for one in rows), ""]
        return [*found, WALK]
