"""What all places have in common: they load off the screen's thread and answer for where one stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from textual.containers import Vertical
from textual.message import Message

from farmops.tui.work import WorkMixin

if TYPE_CHECKING:
    from datetime import date

    from farmops.model.farm import Farm
    from farmops.reports.row import Card, Row
    from farmops.tui.actions import Action
    from farmops.tui.screens.frame import Frame


AFTER_PAINT_SECONDS = 0.05
"""When to read what is not seen at once, so that what is seen does not wait for it."""

NO_UNIT = "No unit yet. F7 Records, . to Units, then n adds the first."


class Said(Message):
    """Words for the line at the bottom."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class Refusal(Message):
    """Why something was not done, for the line at the bottom."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class Changed(Message):
    """Something was booked here: the row and the place are to be read again."""

    def __init__(self, words: str = "") -> None:
        super().__init__()
        self.words = words


class Place(Vertical, WorkMixin):
    """A place of the farm. `reload` reads it again for where the person stands."""

    DEFAULT_CSS = "Place { height: 1fr; }"
    name_of_place: ClassVar[str] = ""
    title: ClassVar[str] = ""

    @property
    def frame(self) -> Frame:
        """The frame around all places."""
        from farmops.tui.screens.frame import Frame

        screen = self.screen
        assert isinstance(screen, Frame)  # noqa: S101 - places live in the frame alone
        return screen

    def offers(self, action: Action) -> bool:
        """Whether the footer names an action here, for what the place shows now."""
        return True

    @property
    def row(self) -> Row | None:
        """The row as it was read last."""
        return self.frame.row

    @property
    def card(self) -> Card | None:
        """Where the person stands."""
        return self.frame.card

    @property
    def unit(self) -> str | None:
        """The code of the unit the person stands at, None for the whole farm."""
        return self.card.unit.code if self.card and self.card.unit else None

    @property
    def has_units(self) -> bool:
        """Whether the row has a unit beside the whole farm."""
        return self.row is None or len(self.row.cards) > 1

    @property
    def farm(self) -> Farm | None:
        """The farm, once it was read."""
        return self.row.farm if self.row else None

    @property
    def today(self) -> date | None:
        """The day of the farm."""
        return self.row.on if self.row else None

    def reload(self) -> None:
        """Read the place again."""

    def take(self, found: Any) -> None:
        """Show what was read for it already."""

    def walk(self, steps: int) -> bool:
        """Take Left or Right (-1, 1) for something here; False lets the person walk along the row."""
        return False

    def focus_first(self) -> None:
        """Put the cursor where a person begins."""

    def about(self) -> str:
        """What is to be known of the line under the cursor, for the help."""
        return ""

    def look_for(self, kind: str, id: int) -> None:
        """Put the cursor on a record when the place is read next."""

    def open_why(self) -> None:
        """Open the number under the cursor."""
        self.refuse("There is no number here to open. In Returns, w opens any of them.")

    def refuse(self, words: str) -> None:
        """Why something was not done."""
        self.post_message(Refusal(words))

    def say(self, words: str) -> None:
        """Words for the line at the bottom."""
        self.post_message(Said(words))

    def changed(self, words: str = "") -> None:
        """Something was booked."""
        self.post_message(Changed(words))
