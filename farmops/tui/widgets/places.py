"""The names of the places, the open one marked."""

from __future__ import annotations

from rich.segment import Segment
from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

TITLES = {
    "chores": "Chores",
    "beds": "Beds",
    "fish": "Fish & water",
    "money": "Money",
    "returns": "Returns",
    "records": "Records",
}
KEYS = dict(zip(TITLES, ("F2", "F3", "F4", "F5", "F6", "F7"), strict=True))


class PlacesLine(Widget):
    """One line of names with their keys; a click opens a place."""

    COMPONENT_CLASSES = {"places--open", "places--other", "places--key"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    PlacesLine {
        height: 1;
        background: $background;
        & > .places--open { color: $background; background: $primary; text-style: bold; }
        & > .places--other { color: $foreground; }
        & > .places--key { color: $text-muted; }
    }
    """
    open_place: reactive[str] = reactive("chores")

    class Picked(Message):
        """A name was clicked."""

        def __init__(self, name: str) -> None:
            super().__init__()
            self.name = name

    def _spans(self) -> list[tuple[str, str, str]]:
        """Name, key and title of each place; the keys are left out where they do not fit."""
        keyed = [(name, f"{KEYS[name]} ", title) for name, title in TITLES.items()]
        wide = sum(len(key) + len(title) + 3 for _, key, title in keyed) <= self.size.width
        return keyed if wide else [(name, "", title) for name, _, title in keyed]

    def render_line(self, y: int) -> Strip:
        """The line."""
        segments = []
        for name, key, title in self._spans():
            here = name == self.open_place
            style = self.get_component_rich_style("places--open" if here else "places--other")
            segments.append(Segment(f" {key}", self.get_component_rich_style("places--key")))
            segments.append(Segment(f"[{title}]" if here else f" {title} ", style))
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style).apply_style(self.rich_style)

    def on_click(self, event: events.Click) -> None:
        """Open the place under the mouse."""
        left = 0
        for name, key, title in self._spans():
            right = left + len(key) + len(title) + 3
            if left <= event.x < right:
                self.post_message(self.Picked(name))
                return
            left = right
