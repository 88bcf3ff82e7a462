"""A line to type in."""

from __future__ import annotations

from textual.actions import SkipAction
from textual.widgets import Input

from farmops.model.text import plain
from farmops.tui.widgets.completing import OnlyOne
from farmops.tui.widgets.fields import Field, Kind


class TextLine(Input):
    """A line to type in; signs that a terminal would obey become blanks, also in what is pasted."""

    def validate_value(self, value: str) -> str:
        """The value without signs that cannot be printed."""
        return "".join(sign if plain(sign) == sign else " " for sign in value)

    def action_copy(self) -> None:
        """Copy what is marked, and let the key go on: who meant to leave by it is told how."""
        if not self.selection.is_empty:
            super().action_copy()
        raise SkipAction


def input_of(field: Field, text: str) -> Input:
    """The line that a field is typed in, completing names."""
    suggester = OnlyOne(field) if field.kind is Kind.NAME and field.options else None
    return TextLine(text, suggester=suggester)
