"""The top line: the farm, its day, and how much is to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content
from textual.reactive import reactive
from textual.widgets import Static

from farmops import clock
from farmops.model.text import plain
from farmops.tui.widgets.cells import cut, fill

if TYPE_CHECKING:
    from farmops.reports.row import Row


class TopLine(Static):
    """Name and day on the left, the sum of the work on the right."""

    DEFAULT_CSS = """
    TopLine { height: 1; padding: 0 1; background: $panel; color: $foreground; text-style: bold; }
    """
    row: reactive[Row | None] = reactive(None)

    def render(self) -> Content:
        """The line as wide as the terminal."""
        width = max(1, self.size.width)
        if self.row is None:
            return Content("farmops")
        farm, day = self.row.farm, self.row.on
        still = " (demo)" if farm.stands_on else ""
        at = f" · {day:%a} {day.day} {day:%b %Y}{still}"
        right = right_words(self.row)
        room = max(1, width - cell_len(right) - 2)
        return Content(fill(cut(plain(farm.name), max(1, room - len(at))) + at, room) + "  " + right)


def right_words(row: Row) -> str:
    """How much is to do; while the power is out, that alone."""
    if row.power_cut_since is not None:
        return f"POWER CUT since {clock.hour_of(row.power_cut_since, row.farm.time_zone)}: !"
    card = row.cards[0]
    return f"{card.due} to do" + (", some late" if card.late else "") if card.due else "nothing due"
