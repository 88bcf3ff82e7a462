"""The interface's own colours: dark, light, high contrast, and one safe for colour-blind eyes."""

from __future__ import annotations

from textual.theme import Theme

THEMES = (
    Theme(
        name="evening",
        dark=True,
        primary="#8fb573",
        secondary="#6c9aa8",
        accent="#d9b25f",
        warning="#dba14e",
        error="#e8897b",
        success="#8fb573",
        foreground="#e4e3da",
        background="#1b1f1c",
        surface="#222723",
        panel="#272c28",
        variables={"input-selection-background": "#8fb573 30%"},
    ),
    Theme(
        name="morning",
        dark=False,
        primary="#3d6b2c",
        secondary="#2c5f70",
        accent="#7a5200",
        warning="#8a4b00",
        error="#a12818",
        success="#3d6b2c",
        foreground="#1f241f",
        background="#f7f5ee",
        surface="#efece2",
        panel="#e2decf",
    ),
    Theme(
        name="stark",
        dark=True,
        primary="#ffffff",
        secondary="#ffff66",
        accent="#ffff66",
        warning="#ffff66",
        error="#ff9d9d",
        success="#9dff9d",
        foreground="#ffffff",
        background="#000000",
        surface="#000000",
        panel="#2a2a2a",
        luminosity_spread=0.3,
        text_alpha=1.0,
        variables={"input-selection-background": "#ffffff 25%", "text-muted": "auto 75%"},
    ),
    Theme(
        name="plain-sight",
        dark=True,
        primary="#56b4e9",
        secondary="#cc79a7",
        accent="#f0e442",
        warning="#e69f00",
        error="#f0a26b",
        success="#56b4e9",
        foreground="#ececec",
        background="#16191d",
        surface="#1d2126",
        panel="#252a2f",
    ),
)
FIRST = THEMES[0].name


def next_theme(name: str) -> str:
    """The theme after one, round and round."""
    names = [theme.name for theme in THEMES]
    return names[(names.index(name) + 1) % len(names)] if name in names else FIRST
