"""The palette: all actions of the place that is open, found by their words."""

from __future__ import annotations

from textual.command import CommandList, CommandPalette


class Palette(CommandPalette):
    """The list of Textual; where a window leaves no room for it, no key moves in it."""

    def __init__(self) -> None:
        super().__init__(placeholder="What to do, in a word or two")

    def _action_command_list(self, action: str) -> None:
        if self.query_one(CommandList).scrollable_content_region:
            super()._action_command_list(action)
