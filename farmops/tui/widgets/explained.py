"""Help over a form or a question: a title, and what is to be known, scrolled where it is long."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.model.text import plain


class Explained(ModalScreen[None]):
    """Lines of help; what lies below is left as it is."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,question_mark,f1,enter", "dismiss", "Close", show=False)]
    DEFAULT_CSS = """
    Explained {
        align: center middle;
        & > VerticalScroll {
            width: 76; max-width: 100%; height: auto; max-height: 90%;
            background: $surface; border: solid $primary; padding: 0 1;
        }
        & Static { height: auto; }
    }
    """

    def __init__(self, title: str, lines: Iterable[str]) -> None:
        super().__init__()
        self.words_of_title = title
        self.lines = tuple(lines)

    def compose(self) -> ComposeResult:
        """The lines, one below the other."""
        with VerticalScroll() as sheet:
            sheet.border_title = Content(plain(self.words_of_title))
            sheet.border_subtitle = "Esc closes"
            yield Static(Content("\n".join(plain(line) for line in self.lines)))
