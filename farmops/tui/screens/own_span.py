"""A span of days of one's own, typed in one line."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from farmops.clock import parse_day
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.text import plain
from farmops.tui.widgets.text_line import TextLine

WORDS = "From a day to a day: 1 mar to 14 oct, 2026-03-01 to today, or a year: 2025. Enter shows it, Esc leaves."


class OwnSpan(ModalScreen[tuple[date, date] | None]):
    """Closes with the first and the last day, or None; what is not understood stays to be put right."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "dismiss(None)", "Nothing", show=False)]
    DEFAULT_CSS = """
    OwnSpan {
        align: center bottom;
        background: $background 0%;
        & > Vertical {
            height: auto; width: 100%; padding: 0 1; margin-bottom: 1;
            background: $panel; border-top: solid $accent;
        }
        & .words { color: $text-muted; }
    }
    """

    def __init__(self, today: date) -> None:
        super().__init__()
        self.today = today

    def compose(self) -> ComposeResult:
        """What to type, and the line for it."""
        with Vertical():
            yield Static(WORDS, classes="words", markup=False)
            yield TextLine("", compact=True)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Close with the days, or say what was not understood."""
        event.stop()
        try:
            self.dismiss(days_of(event.value, self.today))
        except FarmopsError as error:
            self.query_one(".words", Static).update(Content(plain(f"! {error}")))


def days_of(text: str, today: date) -> tuple[date, date]:
    """The first and the last day of a span as typed. Raises NotUnderstood."""
    typed = text.strip()
    if typed.isdigit() and len(typed) == len("2026") and typed != "0000":
        return date(int(typed), 1, 1), date(int(typed), 12, 31)
    first, to, last = typed.partition(" to ")
    if not to:
        raise NotUnderstood("Type two days with to between them, such as 1 mar to 14 oct, or a year.")
    found = parse_day(first, today), parse_day(last, today)
    if found[1] < found[0]:
        raise NotUnderstood(f"The span ends on {found[1]}, before it begins on {found[0]}.")
    return found
