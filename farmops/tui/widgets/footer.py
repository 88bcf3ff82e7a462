"""The footer: what can be done here and by which key, from the registry of actions."""

from __future__ import annotations

from itertools import accumulate

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from farmops.tui.actions import Action

NAMES = {
    "space": "Space",
    "enter": "Enter",
    "escape": "Esc",
    "delete": "Del",
    "tab": "Tab",
    "shift+tab": "Shift Tab",
    "left": "Left",
    "right": "Right",
}


class KeyFooter(Widget):
    """As many actions as fit on one line, each clickable; the last one, help, always finds its room."""

    COMPONENT_CLASSES = {"footer--key", "footer--word"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    KeyFooter {
        height: 1;
        background: $panel;
        & > .footer--key { color: $accent; text-style: bold; }
        & > .footer--word { color: $foreground; }
    }
    """
    actions: reactive[tuple[Action, ...]] = reactive(())

    class Pressed(Message):
        """An action was clicked."""

        def __init__(self, action: Action) -> None:
            super().__init__()
            self.action = action

    def _shown(self) -> list[tuple[Action, str, str]]:
        labels = [(one, key_name(one.keys[0]), one.brief or "") for one in self.actions]
        sizes = [len(key) + len(word) + 3 for _, key, word in labels]
        room = self.size.width - 1 - sum(sizes[-1:])
        fitting = sum(1 for used in accumulate(sizes[:-1]) if used <= room)
        return [*labels[:fitting], *labels[-1:]]

    def render_line(self, y: int) -> Strip:
        """The line of keys."""
        segments = [Segment(" ", self.rich_style)]
        key_style = self.get_component_rich_style("footer--key")
        word_style = self.get_component_rich_style("footer--word")
        for _, key, word in self._shown():
            segments += [Segment(key, key_style), Segment(f" {word}  ", word_style)]
        return Strip(segments).adjust_cell_length(self.size.width, Style.null()).apply_style(self.rich_style)

    def on_click(self, event: events.Click) -> None:
        """Carry out the action under the mouse."""
        left = 1
        for one, key, word in self._shown():
            right = left + len(key) + len(word) + 3
            if left <= event.x < right:
                self.post_message(self.Pressed(one))
                return
            left = right


def key_names(action: Action) -> str:
    """The keys of an action as they are printed on them."""
    return " or ".join(key_name(key) for key in action.keys)


def key_name(key: str) -> str:
    """A key as it is printed on it."""
    return NAMES.get(key, key.upper() if key.startswith("f") and key[1:].isdigit() else key)
