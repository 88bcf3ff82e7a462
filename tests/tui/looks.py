"""A screen as text that can be read in a diff: every line with the runs of its styles, and the styles in two themes."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from rich.style import Style
from textual.app import App

Cells = list[list[tuple[str, str]]]
LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"


def cells(app: App[Any]) -> Cells:
    """Every sign of the screen with its style in words, row by row."""
    strips = app.screen._compositor.render_strips()
    return [[(sign, words_of(part.style)) for part in strip for sign in part.text] for strip in strips]


def words_of(style: Style | None) -> str:
    """A style without what does not show."""
    return str((style or Style()).without_color + Style(color=style.color, bgcolor=style.bgcolor) if style else "")


def look(first: Cells, second: Cells) -> str:
    """One screen in two themes. The runs beside a line name its styles by letters, which are explained below."""
    letters: dict[tuple[str, str], str] = {}
    lines = []
    for row, other in zip(first, second, strict=True):
        text = "".join(sign for sign, _ in row)
        assert text == "".join(sign for sign, _ in other), "the themes differ in more than colour"
        pairs = [(one, two) for (_, one), (_, two) in zip(row, other, strict=True)]
        runs = [(letters.setdefault(pair, LETTERS[len(letters)]), len(list(run))) for pair, run in groupby(pairs)]
        lines.append(f"{text}|{' '.join(f'{letter}{length}' for letter, length in runs)}")
    explained = [f"{letter}  {one:<36} {two}" for (one, two), letter in letters.items()]
    return "\n".join([*lines, "", *explained])
