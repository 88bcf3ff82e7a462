"""The colours of the themes: what is selected in a field can be read in each."""

from __future__ import annotations

import pytest
from textual.color import Color
from textual.theme import Theme

from farmops.tui.themes import THEMES
from tests.tui.test_trouble import luminance

READABLE = 4.5
"""The least contrast of text, as WCAG 2.2 has it under 1.4.3."""
HIGH = 7
"""The same under 1.4.6, for the theme of high contrast."""
FOCUS = 0.05
"""How strongly a field that has the focus is tinted by its text."""


@pytest.mark.parametrize("theme", THEMES, ids=[theme.name for theme in THEMES])
def test_what_is_selected_in_a_field_can_be_read(theme: Theme) -> None:
    colours = {**theme.to_color_system().generate(), **theme.variables}
    words = Color.parse(colours["foreground"])
    field = Color.parse(colours["surface"]) + words.with_alpha(FOCUS)
    selected = field + _strong(colours["input-selection-background"])
    assert _contrast(words, selected) >= (HIGH if theme.name == "stark" else READABLE)


def _strong(text: str) -> Color:
    """A colour that may say how strong it is, such as `#8fb573 30%`."""
    name, _, strength = text.partition(" ")
    return Color.parse(name).with_alpha(float(strength.rstrip("%")) / 100) if strength else Color.parse(name)


def _contrast(one: Color, other: Color) -> float:
    dark, light = sorted((luminance(one.rich_color), luminance(other.rich_color)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("theme", THEMES, ids=[theme.name for theme in THEMES])
def test_the_quiet_words_of_a_form_can_be_read(theme: Theme) -> None:
    colours = {**theme.to_color_system().generate(), **theme.variables}
    form = Color.parse(colours["panel"])
    strength = float(colours["text-muted"].removeprefix("auto ").rstrip("%")) / 100
    words = form + form.get_contrast_text(strength)
    assert _contrast(words, form) >= (HIGH if theme.name == "stark" else READABLE)
